/** The far end of the packer: a thread that deflates batches of streams until it is sent null. */
import { parentPort, workerData } from 'node:worker_threads';
import { deflateSync } from 'node:zlib';
import type { Batch } from '#print';

const level = workerData as number;

parentPort?.on('message', (batch: Batch | null) => {
  if (batch === null) {
    parentPort?.close();
    return;
  }
  const packed = packedBatch(batch);
  parentPort?.postMessage(packed, [packed.bytes.buffer as ArrayBuffer]);
});

function packedBatch({ bytes, ends }: Batch): Batch {
  const streams = ends.map((end, index) => deflateSync(bytes.subarray(ends[index - 1] ?? 0, end), { level }));
  let size = 0;
  const packedEnds = streams.map((stream) => {
    size += stream.length;
    return size;
  });
  const joined = new Uint8Array(size);
  for (const [index, stream] of streams.entries()) joined.set(stream, packedEnds[index]! - stream.length);
  return { bytes: joined, ends: packedEnds };
}
