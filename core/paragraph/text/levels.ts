/**
 * Text in two directions (UAX #9). In: a paragraph's text and its language; out: the embedding level of each character,
 * and the order in which the pieces of a line stand from left to right.
 */
import makeBidi from 'bidi-js';

const bidi = makeBidi();

/** Marks that turn text to the left. */
const TURNS = new Set([0x200f, 0x202b, 0x202e, 0x2067]);
/** First units of the scripts beyond the first plane. */
const HIGH = new Set([0xd802, 0xd803, 0xd83a, 0xd83b]);
/** Languages written from right to left (CLDR, character order). */
const LANGUAGES = new Set([
  'ar',
  'arc',
  'ckb',
  'dv',
  'fa',
  'he',
  'iw',
  'ji',
  'ks',
  'ps',
  'sd',
  'syr',
  'ug',
  'ur',
  'yi',
]);

export interface Levels {
  /** Of each UTF-16 unit: even runs to the right, odd to the left. */
  readonly units: Uint8Array;
  /** Level of the paragraph: 0, or 1 where it runs to the left. */
  readonly base: number;
}

/** Whether text has anything that runs from right to left. */
export function isRightToLeft(text: string): boolean {
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    // All that most books have: Latin, Greek and Cyrillic letters, dashes and quotation marks.
    if (unit < 0x590 || (unit >= 0x2010 && unit <= 0x2026)) continue;
    if (runsLeft(unit)) return true;
  }
  return false;
}

/** Hebrew to Arabic Extended, their presentation forms, the scripts beyond the first plane, and marks that turn text. */
function runsLeft(unit: number): boolean {
  if (unit <= 0x8ff || (unit >= 0xfb1d && unit <= 0xfdff) || (unit >= 0xfe70 && unit <= 0xfeff)) return true;
  return TURNS.has(unit) || HIGH.has(unit);
}

/**
 * Levels of a whole paragraph. It runs to the left where its language does, or where it has letters of no other
 * direction: a foreign word at its start does not turn an English paragraph.
 */
export function levelsOf(text: string, language: string): Levels {
  const leftward = LANGUAGES.has(language.split('-')[0]!.toLowerCase()) || !hasRightward(text);
  const { levels } = bidi.getEmbeddingLevels(text, leftward ? 'rtl' : 'ltr');
  return { units: levels, base: leftward ? 1 : 0 };
}

function hasRightward(text: string): boolean {
  for (const character of text) if (bidi.getBidiCharTypeName(character) === 'L') return true;
  return false;
}

/** The places of `levels` from left to right: UAX #9, rule L2. */
export function visualOrder(levels: ArrayLike<number>): number[] {
  const order = Array.from(levels, (_, index) => index);
  let highest = 0;
  let lowestOdd = 255;
  for (let i = 0; i < levels.length; i++) {
    const level = levels[i]!;
    highest = Math.max(highest, level);
    if (level % 2 === 1) lowestOdd = Math.min(lowestOdd, level);
  }
  for (let level = highest; level >= lowestOdd; level--) reverseFrom(order, levels, level);
  return order;
}

/** Turns every stretch of this level or a higher one. */
function reverseFrom(order: number[], levels: ArrayLike<number>, level: number): void {
  let at = 0;
  while (at < order.length) {
    if (levels[order[at]!]! < level) {
      at++;
      continue;
    }
    let end = at;
    while (end < order.length && levels[order[end]!]! >= level) end++;
    for (let left = at, right = end - 1; left < right; left++, right--) {
      [order[left], order[right]] = [order[right]!, order[left]!];
    }
    at = end;
  }
}
