/** The far end of the shaping thread: shapes what it is sent, in the order in which it comes. */
import { parentPort } from 'node:worker_threads';
import { type ShapingJob, startShapingServer } from '#type';
import { wasmBytes } from './services/bundled-files.ts';

const server = await startShapingServer(wasmBytes('harfbuzz.wasm'));
parentPort?.on('message', (job: ShapingJob) => server.serve(job));
