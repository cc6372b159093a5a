/** Loads the fonts that lie beside the program. */
import { type FontFile, type FontLibrary, loadFontLibrary } from '#type';
import { BUNDLED_FONTS } from './bundled.ts';
import { fontBytes, wasmBytes } from './bundled-files.ts';
import { startShaping } from './shaping.ts';

/**
 * All bundled faces and those of `more`, ready to shape. The shaper's module is compiled on another core: call this before work that takes
 * long, and await it afterwards.
 */
export async function loadLibrary(more: readonly FontFile[] = []): Promise<FontLibrary> {
  const bundled = BUNDLED_FONTS.map((font) => ({
    family: font.family,
    weight: font.weight,
    italic: font.italic,
    fallback: font.fallback,
    read: () => fontBytes(font.file),
  }));
  return loadFontLibrary([...bundled, ...more], {
    shaper: wasmBytes('harfbuzz.wasm'),
    subsetter: wasmBytes('harfbuzz-subset.wasm'),
    aside: startShaping(),
  });
}
