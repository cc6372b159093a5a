/** The far end of the packer: a thread that deflates batches of streams until it is sent null. */
import { parentPort } from 'node:worker_threads';
import type { PackTask } from './services/packer.ts';
import { packBatch } from './services/packing.ts';

parentPort?.on('message', (task: PackTask | null) => {
  if (task === null) {
    parentPort?.close();
    return;
  }
  const packed = packBatch(task.batch, task.packing);
  parentPort?.postMessage(packed, [packed.bytes.buffer as ArrayBuffer]);
});
