/** Loads the fonts that lie beside the program. */
import { type FontLibrary, loadFontLibrary } from '#type';
import { BUNDLED_FONTS } from './bundled.ts';
import { fontBytes, wasmBytes } from './bundled-files.ts';

/**
 * All bundled faces, ready to shape. The shaper's module is compiled on another core: call this before work that takes
 * long, and await it afterwards.
 */
export async function loadLibrary(): Promise<FontLibrary> {
  const files = BUNDLED_FONTS.map((font) => ({
    family: font.family,
    weight: font.weight,
    italic: font.italic,
    fallback: font.fallback,
    bytes: fontBytes(font.file),
  }));
  return loadFontLibrary(files, { shaper: wasmBytes('harfbuzz.wasm'), subsetter: wasmBytes('harfbuzz-subset.wasm') });
}
