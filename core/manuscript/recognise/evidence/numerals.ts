/**
 * Numbers as they stand in headings: figures, roman numerals, words. In: tokens of a heading; out: the value, the form
 * and where the number ends.
 */
import { fold, type Vocabulary } from '../vocabulary/vocabulary.ts';

export type NumeralForm = 'arabic' | 'roman' | 'word';

/** A stretch without white space, with what is left of it when punctuation is taken off. */
export interface Token {
  readonly from: number;
  readonly to: number;
  /** As written, without outer punctuation. */
  readonly word: string;
  /** Folded, for comparison. */
  readonly core: string;
  /** Punctuation after the word. */
  readonly tail: string;
  /** A soft return or tab stands before it. */
  readonly apart: boolean;
}

export interface Numeral {
  readonly value: number;
  readonly form: NumeralForm;
  /** Index of the token after it. */
  readonly next: number;
}

/** Higher numbers are years, distances or chance. */
const HIGHEST = 400;

/** "Five hundred and twenty two" has five tokens; nothing in a heading is longer. */
const LONGEST = 5;

/** A dash or colon set close divides as a space does: "LIVRE PREMIER\u2014UN JUSTE". */
const TOKEN = /[^\s\u2014\u2013:]+[\u2014\u2013:]*|[\u2014\u2013:]+/gu;

export function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  for (const match of text.matchAll(TOKEN)) {
    const whole = match[0];
    const from = match.index;
    const word = whole.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '');
    const tail = word === '' ? whole : whole.slice(whole.lastIndexOf(word) + word.length);
    const before = tokens[tokens.length - 1];
    const apart = before !== undefined && /[\n\t]/.test(text.slice(before.to, from));
    tokens.push({ from, to: from + whole.length, word, core: foldWord(word), tail, apart });
  }
  return tokens;
}

function foldWord(word: string): string {
  return fold(word).replaceAll('\u00ba', 'o').replaceAll('\u00aa', 'a');
}

/** The number that begins at a token, or null. */
export function numeralAt(tokens: readonly Token[], at: number, vocabulary: Vocabulary): Numeral | null {
  const token = tokens[at];
  if (token === undefined || token.word === '') return null;
  const arabic = arabicValue(token.core);
  if (arabic !== null) return { value: arabic, form: 'arabic', next: at + 1 };
  const roman = romanValue(token.word);
  if (roman !== null) return { value: roman, form: 'roman', next: at + 1 };
  return wordsAt(tokens, at, vocabulary);
}

function arabicValue(core: string): number | null {
  const match = /^(\d{1,3})(?:st|nd|rd|th|er|ere|re|e|eme|o|a|de|ste|te)?$/.exec(core);
  const value = match === null ? 0 : Number(match[1]);
  return value > 0 && value <= HIGHEST ? value : null;
}

const ROMAN = /^(?:c{0,3})(?:xc|xl|l?x{0,3})(?:ix|iv|v?i{0,4})$/i;
const DIGITS: Readonly<Record<string, number>> = { i: 1, v: 5, x: 10, l: 50, c: 100 };

/** A roman numeral in capitals or in small letters, not mixed, or null. */
export function romanValue(word: string): number | null {
  if (word === '' || word.length > 10 || !ROMAN.test(word)) return null;
  if (word !== word.toUpperCase() && word !== word.toLowerCase()) return null;
  let value = 0;
  let highest = 0;
  for (const letter of [...word.toLowerCase()].reverse()) {
    const digit = DIGITS[letter] ?? 0;
    value += digit < highest ? -digit : digit;
    highest = Math.max(highest, digit);
  }
  return value;
}

function wordsAt(tokens: readonly Token[], at: number, vocabulary: Vocabulary): Numeral | null {
  let joined = '';
  let found: Numeral | null = null;
  for (let next = at; next < Math.min(tokens.length, at + LONGEST); next++) {
    const token = tokens[next];
    if (token === undefined || token.core === '' || (token.apart && next > at)) break;
    joined += token.core.replace(/[\s\-\u2010\u2011\u2013]/g, '');
    const value = vocabulary.numbers.get(joined);
    if (value !== undefined) found = { value, form: 'word', next: next + 1 };
    if (/[.:;,)\u2014\u2013]/.test(token.tail)) break;
  }
  return found;
}
