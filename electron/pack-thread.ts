/** The far end of the packer: a thread that deflates batches of streams until it is stopped. */
import { parentPort, workerData } from 'node:worker_threads';
import { deflateSync } from 'node:zlib';

const level = workerData as number;

parentPort?.on('message', (streams: readonly Uint8Array[]) => {
  // A copy of its own size: zlib's results are views of buffers several times as large.
  const packed = streams.map((stream) => new Uint8Array(deflateSync(stream, { level })));
  parentPort?.postMessage(
    packed,
    packed.map((stream) => stream.buffer),
  );
});
