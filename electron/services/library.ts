/** Loads the fonts and WebAssembly modules that lie beside the program. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type FontLibrary, loadFontLibrary } from '#type';
import { BUNDLED_FONTS } from './bundled.ts';
import { programFolder } from './program.ts';

/** A bundled WebAssembly module's bytes. */
export async function wasmBytes(file: string): Promise<Uint8Array> {
  return readFile(join(programFolder(), 'wasm', file));
}

/** The licence that travels with the bundled text face. */
export async function fontLicence(file: string): Promise<string> {
  return readFile(join(programFolder(), 'fonts', file), 'utf8');
}

/** All bundled faces, ready to shape. */
export async function loadLibrary(): Promise<FontLibrary> {
  const fonts = BUNDLED_FONTS.map(async (font) => ({
    family: font.family,
    weight: font.weight,
    italic: font.italic,
    fallback: font.fallback,
    bytes: new Uint8Array(await readFile(join(programFolder(), 'fonts', font.file))),
  }));
  const [files, shaper, subsetter] = await Promise.all([
    Promise.all(fonts),
    wasmBytes('harfbuzz.wasm'),
    wasmBytes('harfbuzz-subset.wasm'),
  ]);
  return loadFontLibrary(files, { shaper, subsetter });
}
