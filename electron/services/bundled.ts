/**
 * The fonts and WebAssembly modules that travel with the program: where the build takes them from and under which name
 * they lie in `dist/fonts` and `dist/wasm`. Every font is under the SIL Open Font License; its text lies beside it.
 */

export interface BundledFont {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  /** Serves only for characters that the text face lacks. */
  readonly fallback: boolean;
  readonly package: string;
  readonly path: string;
  readonly file: string;
  readonly licencePath: string;
  readonly licenceFile: string;
}

export interface BundledModule {
  readonly package: string;
  readonly path: string;
  readonly file: string;
  /** The licence text that its package brings; null where its words stand in the list of libraries alone. */
  readonly licence: { readonly path: string; readonly file: string } | null;
}

/** The four cuts of a text family. */
function textFamily(family: string): readonly BundledFont[] {
  const glued = family.replaceAll(' ', '');
  return (['400Regular', '400Regular_Italic', '700Bold', '700Bold_Italic'] as const).map((cut) => {
    const weight = Number(cut.slice(0, 3));
    const italic = cut.endsWith('Italic');
    return {
      family,
      weight,
      italic,
      fallback: false,
      package: `@expo-google-fonts/${family.toLowerCase().replaceAll(' ', '-')}`,
      path: `${cut}/${glued}_${cut}.ttf`,
      file: `${glued}-${weight}${italic ? '-italic' : ''}.ttf`,
      licencePath: 'LICENSE_FONT',
      licenceFile: `${glued}-OFL.txt`,
    };
  });
}

/** A face of the Noto project that only helps out, in the order of `BUNDLED_FONTS`. */
function helper(name: string, cut = '400Regular'): BundledFont {
  const glued = name.replaceAll(' ', '');
  return {
    family: name,
    weight: 400,
    italic: cut.endsWith('Italic'),
    fallback: true,
    package: `@expo-google-fonts/${name.toLowerCase().replaceAll(' ', '-')}`,
    path: `${cut}/${glued}_${cut}.ttf`,
    file: `${glued}-${cut}.ttf`,
    licencePath: 'LICENSE_FONT',
    licenceFile: `${glued}-OFL.txt`,
  };
}

export const BUNDLED_FONTS: readonly BundledFont[] = [
  ...textFamily('EB Garamond'),
  ...textFamily('Literata'),
  ...textFamily('Alegreya'),
  helper('Noto Serif'),
  helper('Noto Serif', '400Regular_Italic'),
  helper('Noto Serif Hebrew'),
  helper('Noto Naskh Arabic'),
  helper('Noto Sans Symbols 2'),
  helper('Noto Sans Symbols'),
  helper('Noto Emoji'),
];

const HARFBUZZ = { path: 'LICENSE', file: 'harfbuzz-LICENSE.txt' };

export const BUNDLED_MODULES: readonly BundledModule[] = [
  { package: 'harfbuzzjs', path: 'dist/harfbuzz.wasm', file: 'harfbuzz.wasm', licence: HARFBUZZ },
  { package: 'harfbuzzjs', path: 'dist/harfbuzz-subset.wasm', file: 'harfbuzz-subset.wasm', licence: HARFBUZZ },
  { package: '@resvg/resvg-wasm', path: 'index_bg.wasm', file: 'resvg.wasm', licence: null },
];
