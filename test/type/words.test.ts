/** Words shaped together have the very glyphs that each has when shaped alone, in real fonts and many scripts. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { type FontFace, type FontFile, loadFontLibrary, type ShapeSetting } from '#type';
import { fontFile, fontModules, hebrewFile, textFiles } from './fonts.ts';
import { glyphsByWord, stretches } from './stretches.ts';

const arabicFile: FontFile = {
  family: 'Noto Naskh Arabic',
  weight: 400,
  italic: false,
  bytes: fontFile('noto-naskh-arabic/400Regular/NotoNaskhArabic_400Regular.ttf'),
  fallback: true,
};

/** Faces with other habits: contextual forms, kerning with the space. */
const otherFiles: readonly FontFile[] = [
  { family: 'Alegreya', path: 'alegreya/400Regular_Italic/Alegreya_400Regular_Italic.ttf' },
  { family: 'Literata', path: 'literata/400Regular/Literata_400Regular.ttf' },
].map(({ family, path }) => ({ family, weight: 400, italic: false, bytes: fontFile(path) }));

const faces: Record<string, FontFace> = {};

beforeAll(async () => {
  const library = await loadFontLibrary([...textFiles, ...otherFiles, hebrewFile, arabicFile], fontModules());
  const { regular, italic } = library.family('EB Garamond');
  const [hebrew, arabic] = library.fallbacks;
  const [alegreya, literata] = ['Alegreya', 'Literata'].map((name) => library.family(name).regular);
  Object.assign(faces, { regular, italic, hebrew, arabic, alegreya, literata });
});

function expectTheSame(face: FontFace, words: readonly string[], setting: ShapeSetting): void {
  const alone = words.map((word) => face.shape(word, setting));
  const shaped = glyphsByWord(face.shapeWords(stretches(words), setting), words.length);
  words.forEach((word, i) => {
    const own = alone[i]!;
    expect(shaped[i], word).toEqual({
      glyphs: [...own.glyphs],
      advances: [...own.advances],
      clusters: [...own.clusters],
      unsafe: [...(own.unsafe ?? new Uint8Array(own.glyphs.length))],
      width: own.width,
      moved: own.offsets ? 1 : 0,
    });
  });
}

/** Letters that interact: f-ligatures, kerned capitals, marks, swashes, figures; marks that may stand at a word's start. */
const latin = fc.string({
  unit: fc.constantFrom(...'fffiljtThQuAVTWYyo.,’“”-—()&1234', 'é', 'e\u0301', '\u0301', '\u0323', '\u200d', '\ufeff'),
  minLength: 1,
  maxLength: 9,
});
/** What books consist of, no marks among it: such words are really put together. */
const ordinary = fc.string({
  unit: fc.constantFrom(...'abcdefghijklmnopqrstuvwxyzfffiltThQuAVWYJßœéüçñøÅ.,;:!?’‘”“«»—–-()&§†1234567890/½€γλδжяф'),
  minLength: 1,
  maxLength: 12,
});
const hebrew = fc.string({
  unit: fc.constantFrom(...'אבגדהושלםן', '\u05bc', '\u05b7', '\u05c1', '\u05be', ',', 'a'),
  minLength: 1,
  maxLength: 7,
});
const arabic = fc.string({
  unit: fc.constantFrom(...'ابتثجلاكمنهويةﷲ', '\u064e', '\u0651', '\u0640', '\u200c', '،'),
  minLength: 1,
  maxLength: 7,
});

describe('words shaped together', () => {
  const batch = (word: fc.Arbitrary<string>) => fc.array(word, { minLength: 1, maxLength: 12 });

  test.each([
    ['regular', ordinary, 'ltr'],
    ['italic', ordinary, 'ltr'],
    ['alegreya', ordinary, 'ltr'],
    ['literata', ordinary, 'ltr'],
    ['regular', latin, 'ltr'],
    ['italic', latin, 'ltr'],
    ['regular', fc.oneof(latin, hebrew, arabic), 'ltr'],
    ['hebrew', hebrew, 'ltr'],
    ['hebrew', hebrew, 'rtl'],
    ['arabic', arabic, 'ltr'],
    ['arabic', arabic, 'rtl'],
  ] as const)('%s is as shaped alone (%#)', (face, word, direction) => {
    const features = fc.constantFrom('', 'onum,pnum', 'onum,smcp', '-clig,-liga', 'dlig,hist,swsh', 'frac,sups');
    fc.assert(
      fc.property(batch(word), features, (words, chosen) =>
        expectTheSame(faces[face]!, words, { features: chosen, language: 'en-US', direction }),
      ),
      { numRuns: 150 },
    );
  });

  test('also by the hundred, and where one is empty', () => {
    const words = Array.from({ length: 700 }, (_, i) => (i === 350 ? '' : `fi${'Vf'.repeat(i % 60)}${i}ffi,`));
    expectTheSame(faces['regular']!, words, { features: '', language: 'de', direction: 'ltr' });
  });

  test('surrogates stay whole', () => {
    expectTheSame(faces['regular']!, ['a😀', '😀b', '𝒜'], { features: '', language: 'en', direction: 'ltr' });
  });
});
