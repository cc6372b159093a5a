/** Ligatures in German: they tie within a word and stop where two words are joined. */
import { beforeAll, describe, expect, it } from 'vitest';
import { createSetter, type TextStyle } from '#paragraph';
import { type Hyphenator, loadFontLibrary, loadHyphenator } from '#type';
import { jointsOf } from '../../core/paragraph/text/joints.ts';
import { fontFile, fontModules } from '../type/fonts.ts';
import { at, linesOf, openShop, placed, type Shop, styled } from './setting.ts';

let shop: Shop;
let setter: Shop['setter'];
let german: Hyphenator;
let style: TextStyle;

beforeAll(async () => {
  shop = await openShop();
  german = (await loadHyphenator('de'))!;
  const hyphenator = (language: string) => (language === 'de' ? german : shop.english);
  // EB Garamond has letters of its own for German that are never tied.
  const bytes = fontFile('alegreya/400Regular/Alegreya_400Regular.ttf');
  const library = await loadFontLibrary([{ family: 'Alegreya', weight: 400, italic: false, bytes }], fontModules());
  style = { ...shop.style, family: library.family('Alegreya') };
  setter = createSetter({ library, hyphenator });
});

/** The glyphs that a word is set in, and its text. */
function glyphsOf(word: string, language = 'de'): readonly number[] {
  const text = styled(word, { ...style, language });
  const { runs, page } = placed(setter.break({ text, shape: at(300), looseness: 0 }), 0);
  expect(runs.map((run) => run.text).join('')).toBe(word);
  return runs.flatMap((run) => [...page.glyphs.slice(run.start, run.start + run.count)]);
}

describe('a German word', () => {
  it.each([
    ['Schiff', 'fahrt'],
    ['Sauerstoff', 'flasche'],
    ['Auf', 'lage'],
    ['Schilf', 'insel'],
    ['höf', 'lich'],
    ['Auf', 'findung'],
    ['Brief', 'flut'],
    ['Kopf', 'füßler'],
  ])('is not tied at its joint: %s-%s', (first, second) => {
    expect(jointsOf(first + second, german.breaks(first + second))).toEqual([first.length]);
    expect(glyphsOf(first + second)).toEqual([...glyphsOf(first), ...glyphsOf(second)]);
  });

  it.each(['Hoffnung', 'Kaffee', 'Offizier', 'finden', 'Flasche', 'Pflicht', 'schaffen', 'Griffe', 'Hilfe', 'Stoffe'])(
    'is tied elsewhere: %s',
    (word) => {
      expect(jointsOf(word, german.breaks(word))).toEqual([]);
      expect(glyphsOf(word)).toEqual(glyphsOf(word, 'en-US'));
    },
  );

  it('breaks and joins like any other', () => {
    const words = 'die Dampfschifffahrtsgesellschaft und die Auflage der höflichen Auffassung';
    const text = styled(words, { ...style, language: 'de' });
    for (const measure of [60, 90, 140]) {
      linesOf(text, at(measure), setter.break({ text, shape: at(measure), looseness: 0 }));
    }
  });
});

it('a word in another language is tied as the font has it', () => {
  expect(glyphsOf('Auffindung', 'en-US')).not.toEqual(glyphsOf('Auffindung', 'de'));
});
