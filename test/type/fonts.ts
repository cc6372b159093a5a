/** Fonts for tests: the text face of the built-in design and one fallback face. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type FontFile, type FontLibrary, type FontModules, loadFontLibrary } from '#type';

const require = createRequire(import.meta.url);

export function fontModules(): FontModules {
  return {
    shaper: readFileSync(require.resolve('harfbuzzjs/dist/harfbuzz.wasm')),
    subsetter: readFileSync(require.resolve('harfbuzzjs/dist/harfbuzz-subset.wasm')),
  };
}

export function fontFile(path: string): Uint8Array {
  return readFileSync(require.resolve(`@expo-google-fonts/${path}`));
}

const FACES = [
  ['400Regular/EBGaramond_400Regular.ttf', 400, false],
  ['400Regular_Italic/EBGaramond_400Regular_Italic.ttf', 400, true],
  ['700Bold/EBGaramond_700Bold.ttf', 700, false],
  ['700Bold_Italic/EBGaramond_700Bold_Italic.ttf', 700, true],
] as const;

export const textFiles: readonly FontFile[] = FACES.map(([path, weight, italic]) => ({
  family: 'EB Garamond',
  weight,
  italic,
  bytes: fontFile(`eb-garamond/${path}`),
}));

export const hebrewFile: FontFile = {
  family: 'Noto Serif Hebrew',
  weight: 400,
  italic: false,
  bytes: fontFile('noto-serif-hebrew/400Regular/NotoSerifHebrew_400Regular.ttf'),
  fallback: true,
};

let library: Promise<FontLibrary> | undefined;

/** The library of all test faces, loaded once. */
export function testLibrary(): Promise<FontLibrary> {
  library ??= loadFontLibrary([...textFiles, hebrewFile], fontModules());
  return library;
}
