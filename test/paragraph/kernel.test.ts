/**
 * The kernel's shortcuts for common words, held to the rules and to the hyphenator that answer for all words: traits,
 * divisions, and cuts of compounds. The words are those of the novel, and others made at random.
 */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Hyphenator, loadHyphenator } from '#type';
import { DIVISION, KIND, LAST } from '../../core/paragraph/text/cutKinds.ts';
import { findCuts } from '../../core/paragraph/text/cuts.ts';
import type { Fount } from '../../core/paragraph/text/fount.ts';
import { FountRack } from '../../core/paragraph/text/fount.ts';
import { openCase } from '../../core/paragraph/text/host.ts';
import { traitsOf } from '../../core/paragraph/text/traits.ts';
import { NONE, type WordCase } from '../../core/paragraph/text/wordCase.ts';
import { mobyDickParagraphs } from './mobyDick.ts';
import { openShop, type Shop } from './setting.ts';
import { shapedWord } from './shapedWord.ts';

let shop: Shop;
const languages = new Map<string, Hyphenator | null>();
let tokens: readonly string[];

beforeAll(async () => {
  shop = await openShop();
  for (const language of ['en-US', 'de-DE', 'fr-FR', 'it-IT']) languages.set(language, await loadHyphenator(language));
  tokens = [...new Set(mobyDickParagraphs().flatMap((paragraph) => paragraph.split(' ')))].filter(
    (token) => token !== '',
  );
});

function newCase(language = 'en-US'): { words: WordCase; fount: Fount } {
  const rack = new FountRack(shop.library, (each) => languages.get(each) ?? null);
  const fount = rack.of({ ...shop.style, language });
  return { words: openCase(rack.founts), fount };
}

/** Words of letters, apostrophes, joints and marks, in many wrong orders too. */
const token = fc.oneof(
  fc.string({ unit: fc.constantFrom(...'abeinrstMDSPRHCFAœéß’-—'), minLength: 1, maxLength: 14 }),
  fc
    .tuple(
      fc.constantFrom('', '“', '‘', '(', '„'),
      fc.array(fc.constantFrom('sea', 'captain', 'underneath', 'Mr', 'Dr', 'don’t', 'THE', 'A', 'whale’s'), {
        minLength: 1,
        maxLength: 3,
      }),
      fc.constantFrom('', '-', '—', '’', '–', '…', '/'),
      fc.constantFrom('', '.', ',', '!', '?”', '.’', '…', '—', '-', '!—', ')'),
    )
    .map(([open, parts, joint, close]) => open + parts.join(joint) + close),
);

interface FoundCut {
  readonly at: number;
  readonly kind: number;
  readonly widths: readonly number[];
}

function cutsFrom(words: WordCase, first: number): FoundCut[] {
  const found: FoundCut[] = [];
  for (let number = first; number !== NONE; number++) {
    const { at, kind, width, end, start } = words.cut(number);
    found.push({ at, kind: kind & ~LAST, widths: [width, end, start] });
    if (kind & LAST) break;
  }
  return found;
}

describe('traits', () => {
  function expectTraits(words: WordCase, fount: Fount, text: string): void {
    const word = shapedWord(words, text, fount);
    if (words.rareOf(word)) return;
    expect(words.traitsOf(word), text).toBe(traitsOf(text, 0, text.length));
  }

  test('of all words of the novel', () => {
    const { words, fount } = newCase();
    for (const text of tokens) expectTraits(words, fount, text);
    expect(words.count).toBeGreaterThan(20_000);
  });

  test('of forms of address and initials', () => {
    const { words, fount } = newCase();
    const forms = 'Mr Mrs Ms Dr St Ste Prof Rev Hon Capt Messrs MM Mme Mmes Mlle Mlles Mgr Hr Fr M A z Lt Co'.split(
      ' ',
    );
    for (const form of forms) for (const mark of ['', '.', ',']) expectTraits(words, fount, `${form}${mark}`);
    for (const form of forms) expectTraits(words, fount, `“${form}.`);
    expect(words.count).toBe(forms.length * 4);
  });

  test('of a word of no letters', () => {
    const { words, fount } = newCase();
    // What was read before still lies where the text of the next would be.
    shapedWord(words, '“sea', fount);
    const none = shapedWord(words, '', fount);
    expect(words.traitsOf(none)).toBe(traitsOf('', 0, 0));
    expect([words.widthOf(none), words.cutsIn(none, true), words.cutsIn(none, false)]).toEqual([0, NONE, NONE]);
  });

  test('of words made at random', () => {
    const { words, fount } = newCase();
    fc.assert(
      fc.property(token, (text) => expectTraits(words, fount, text)),
      { numRuns: 3000 },
    );
  });
});

describe('cuts', () => {
  /** What the kernel finds by itself, and what comes of the rules and the hyphenator. */
  function expectCuts(words: WordCase, fount: Fount, text: string): number {
    const word = shapedWord(words, text, fount);
    if (words.rareOf(word)) return 0;
    const found = cutsFrom(words, words.cutsIn(word, true));
    expect(found, text).toEqual(cutsFrom(words, findCuts(words, word, true)));
    expect(cutsFrom(words, words.cutsIn(word, false)), text).toEqual(cutsFrom(words, findCuts(words, word, false)));
    return found.filter(({ kind }) => (kind & KIND) === DIVISION).length;
  }

  test('of all words of the novel', () => {
    const { words, fount } = newCase();
    let divisions = 0;
    for (const text of tokens) divisions += expectCuts(words, fount, text);
    expect(divisions).toBeGreaterThan(20_000);
  });

  test.each(['en-US', 'de-DE', 'fr-FR', 'it-IT'])('of words made at random, by the patterns of %s', (language) => {
    expect(languages.get(language)).not.toBeNull();
    const { words, fount } = newCase(language);
    fc.assert(
      fc.property(token, (text) => {
        expectCuts(words, fount, text);
      }),
      { numRuns: 1500 },
    );
  });
});
