/** The far end of the packer: a thread that deflates batches of streams and cuts fonts until it is sent null. */
import { parentPort } from 'node:worker_threads';
import { Subsetter } from '#type';
import { wasmBytes } from './services/bundled-files.ts';
import type { PackerResult, PackerTask } from './services/packer.ts';
import { packBatch } from './services/packing.ts';

let subsetter: Subsetter | null = null;

parentPort?.on('message', (task: PackerTask | null) => {
  if (task === null) parentPort?.close();
  else if (task.kind === 'pack') {
    const packed = packBatch(task.batch, task.packing);
    reply(packed, packed.bytes);
  } else {
    subsetter ??= new Subsetter(wasmBytes('harfbuzz-subset.wasm'));
    const font = subsetter.forPrint(task.font, task.glyphs);
    reply(font, font);
  }
});

function reply(result: PackerResult, given: Uint8Array): void {
  parentPort?.postMessage(result, [given.buffer as ArrayBuffer]);
}
