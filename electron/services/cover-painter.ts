/**
 * Paints generated covers in a thread that ends with the work: the rasteriser's module and its pixels take some seventy
 * megabytes that nothing else should have to carry. In: SVG; out: PNG bytes.
 */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { programFolder } from './program.ts';

/** PNG of a cover's SVG at its own size. Passes on the thread's failure. */
export function paintCover(svg: string): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(join(programFolder(), 'cover-thread.mjs'), { workerData: svg });
    thread.once('message', resolve);
    thread.once('error', reject);
  });
}
