/**
 * What breaking lines wants to know of a word's letters. In: a word as a stretch of a text; out: its traits as bits.
 * Worked out once for each distinct word.
 */
import { clings, endsPlainly, isLoneDash, isPlain, startsPlainly } from './opportunities.ts';

/** Nothing in it at which the text lets a line end. */
export const WHOLE = 1;
/** Begins with a capital, whatever marks stand before it. */
export const CAPITAL = 2;
/** Ends a sentence. */
export const SENTENCE_END = 4;
/** A line may end at the spaces after it, if the next word agrees; begin with it after spaces, if the one before does. */
export const ENDS_PLAINLY = 8;
export const STARTS_PLAINLY = 16;
/** A dash by itself: no line begins with it. */
export const LONE_DASH = 32;
/** More than letters and glyphs side by side: see `RareWord`. */
export const RARE = 64;

/** Ends in a hyphen of its own: a line that ends with it shows one like a divided word (`Vor- und Nachteile`). */
export const HYPHEN_END = 128;

const STOPS = '.?!:\u2026';
const HYPHENS = '-\u2010\u2011';
const CLOSERS = '\u2019\u201d"\')]';

/** Traits that follow from the letters. */
export function traitsOf(text: string, from: number, to: number): number {
  let traits = 0;
  if (isPlain(text, from, to)) traits |= WHOLE;
  if (isCapital(text, from, to)) traits |= CAPITAL;
  if (endsSentence(text, from, to)) traits |= SENTENCE_END;
  if (endsPlainly(text, from, to) && !clings(text, from, to)) traits |= ENDS_PLAINLY;
  if (startsPlainly(text, from, to)) traits |= STARTS_PLAINLY;
  if (HYPHENS.includes(text.charAt(to - 1))) traits |= HYPHEN_END;
  if (to - from === 1 && isLoneDash(text.charAt(from))) traits |= LONE_DASH;
  return traits;
}

function isCapital(text: string, from: number, to: number): boolean {
  for (let i = from; i < to; i++) {
    const unit = text.charCodeAt(i);
    if (unit >= 0x61 && unit <= 0x7a) return false;
    if (unit >= 0x41 && unit <= 0x5a) return true;
    if (unit >= 0x80 && !(unit >= 0x2010 && unit <= 0x2027)) return isCapitalLetter(text.slice(i, to));
  }
  return false;
}

function isCapitalLetter(text: string): boolean {
  const letter = text.match(/\p{L}/u)?.[0];
  return letter !== undefined && letter !== letter.toLowerCase();
}

/** A stop, and after it nothing but marks that close. */
function endsSentence(text: string, from: number, to: number): boolean {
  let last = to - 1;
  while (last >= from && CLOSERS.includes(text.charAt(last))) last--;
  return last >= from && STOPS.includes(text.charAt(last));
}
