/**
 * Rasterises the SVG of a generated cover. In: SVG whose text is outlines; out: PNG bytes, the same on every machine.
 */
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import { pngOf } from './png.ts';

let ready: Promise<void> | null = null;

/** PNG of an SVG at its own size. `wasm` gives the rasteriser's module; it is asked for once. */
export async function rasterise(svg: string, wasm: () => Uint8Array | Promise<Uint8Array>): Promise<Uint8Array> {
  ready ??= start(wasm);
  await ready;
  const painter = new Resvg(svg, { font: { loadSystemFonts: false } });
  const image = painter.render();
  const png = pngOf({ width: image.width, height: image.height, rgba: image.pixels });
  image.free();
  painter.free();
  return png;
}

async function start(wasm: () => Uint8Array | Promise<Uint8Array>): Promise<void> {
  await initWasm((await wasm()) as Uint8Array<ArrayBuffer>);
}
