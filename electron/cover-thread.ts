/** The far end of the cover painter: a thread that rasterises one SVG and ends. */
import { parentPort, workerData } from 'node:worker_threads';
import { wasmBytes } from './services/bundled-files.ts';
import { rasterise } from './services/cover-image.ts';

// The rasteriser asks whether its module comes from the network; the question alone loads Node's web client, which takes
// as long as a tenth of the painting.
Reflect.deleteProperty(globalThis, 'Request');
Reflect.deleteProperty(globalThis, 'Response');

const png = await rasterise(workerData as string, () => wasmBytes('resvg.wasm'));
parentPort?.postMessage(png, [png.buffer as ArrayBuffer]);
