/** What a capital says of a word depends on the language: a name in English, any noun in German. */
import { beforeAll, expect, test } from 'vitest';
import { type BreakSettings, createSetter } from '#paragraph';
import { type FontLibrary, type Hyphenator, loadHyphenator } from '#type';
import { testLibrary } from '../type/fonts.ts';
import { at, openShop, type Shop, styled } from './setting.ts';

let shop: Shop;
let library: FontLibrary;
const hyphenators = new Map<string, Hyphenator | null>();

beforeAll(async () => {
  shop = await openShop();
  library = await testLibrary();
  for (const language of ['de', 'en-US']) hyphenators.set(language, await loadHyphenator(language));
});

const TEXTS = {
  de:
    'als der Hafenmeister die Wasserstandsmeldungen der vergangenen Wochen im Verwaltungsgebäude durchsah, fand er zwischen ' +
    'den Frachtverzeichnissen eine Bestandsaufnahme der Leuchtturmwärterwohnung',
  'en-US':
    'when the stranger from Constantinople had spoken to Bartholomew of Pennsylvania and to Philippa of Mediterranean ' +
    'descent, all Massachusetts knew of Christopherson and his acquaintance',
};

/** Demerits of a text in a narrow column. */
function demerits(language: keyof typeof TEXTS, settings: Partial<BreakSettings>): number {
  const hyphenator = (tag: string) => hyphenators.get(tag) ?? null;
  const setter = createSetter({ library, hyphenator, settings });
  const text = styled(TEXTS[language], { ...shop.style, language });
  return setter.break({ text, shape: at(130), looseness: 0 }).demerits;
}

test('dividing a name costs more than dividing another word', () => {
  expect(demerits('en-US', { properNamePenalty: 300 })).toBeGreaterThan(demerits('en-US', { properNamePenalty: 120 }));
});

test('German nouns are no names', () => {
  expect(demerits('de', { properNamePenalty: 200 })).toBe(demerits('de', { properNamePenalty: 60 }));
});

test('where words are long, dividing them costs more', () => {
  expect(demerits('de', { longWordPenalty: 200 })).toBeGreaterThan(demerits('de', { longWordPenalty: 100 }));
  expect(demerits('de', { hyphenPenalty: 200 })).toBe(demerits('de', { hyphenPenalty: 100 }));
  expect(demerits('en-US', { longWordPenalty: 200 })).toBe(demerits('en-US', { longWordPenalty: 100 }));
});

test('a hyphen before a space counts like one of a divided word', () => {
  const text = styled('die See- und Luftfahrt', { ...shop.style, language: 'de', hyphenate: false });
  const lines = [...shop.setter.break({ text, shape: at(45, { align: 'start' }), looseness: 0 }).lines];
  expect(lines.map((line) => line.hyphenated)).toEqual([true, false, false]);
});
