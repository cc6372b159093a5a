/**
 * Marks that may hang into the margin (optical alignment). In: a fount and a character; out: how much of that stands
 * outside. The shares are those that a widely used microtypography package for TeX has as its defaults (from memory).
 */
import type { Fount } from './fount.ts';

const AT_START: Readonly<Record<string, number>> = {
  '\u201c': 0.3,
  '\u2018': 0.3,
  '\u00ab': 0.2,
  '\u2039': 0.2,
  // As German opens: low marks, and pointed ones the other way round.
  '\u201e': 0.3,
  '\u201a': 0.3,
  '\u00bb': 0.2,
  '\u203a': 0.2,
  '(': 0.1,
  '[': 0.1,
  '\u2014': 0.15,
};
const AT_END: Readonly<Record<string, number>> = {
  '-': 0.5,
  '\u2010': 0.5,
  '.': 0.7,
  ',': 0.5,
  ':': 0.5,
  ';': 0.3,
  '!': 0.1,
  '?': 0.1,
  ')': 0.1,
  ']': 0.1,
  '\u201d': 0.3,
  '\u2019': 0.4,
  '\u00bb': 0.2,
  '\u203a': 0.2,
  // As German closes.
  '\u201c': 0.3,
  '\u2018': 0.4,
  '\u00ab': 0.2,
  '\u2039': 0.2,
  '\u2014': 0.15,
  '\u2013': 0.2,
};

/** The UTF-16 units of all of them. */
export const HANGING_MARKS: readonly number[] = [...new Set([...Object.keys(AT_START), ...Object.keys(AT_END)])].map(
  (mark) => mark.charCodeAt(0),
);

/** Shares by UTF-16 unit, 0 for what stands inside. */
const START_SHARES = sharesOf(AT_START);
const END_SHARES = sharesOf(AT_END);

function sharesOf(shares: Readonly<Record<string, number>>): Float64Array {
  const table = new Float64Array(0x2100);
  for (const [character, share] of Object.entries(shares)) table[character.charCodeAt(0)] = share;
  return table;
}

/** How far a line that starts with a UTF-16 unit hangs out. */
export function hangAtStart(fount: Fount, unit: number): number {
  return hangOf(fount, unit, START_SHARES);
}

/** How far a line that ends with a UTF-16 unit hangs out. */
export function hangAtEnd(fount: Fount, unit: number): number {
  return hangOf(fount, unit, END_SHARES);
}

function hangOf({ face, scale }: Fount, unit: number, shares: Float64Array): number {
  const share = shares[unit] ?? 0;
  return share === 0 ? 0 : share * face.advanceOf(face.glyphOf(unit)) * scale;
}
