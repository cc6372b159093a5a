/**
 * Marks that may hang into the margin (optical alignment). In: a character; out: the share of its width that stands
 * outside. The shares are those that a widely used microtypography package for TeX has as its defaults (from memory).
 */
import type { Fount } from './fount.ts';
import { caseOf } from './word.ts';

const AT_START: Readonly<Record<string, number>> = {
  '\u201c': 0.3,
  '\u2018': 0.3,
  '\u00ab': 0.2,
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
  '\u2014': 0.15,
  '\u2013': 0.2,
};

/** How far a line that starts with a text hangs out. */
export function hangAtStart(fount: Fount, text: string): number {
  return shareOf(AT_START, fount, text[0]);
}

/** How far a line that ends with a text hangs out. */
export function hangAtEnd(fount: Fount, text: string): number {
  return shareOf(AT_END, fount, text[text.length - 1]);
}

function shareOf(shares: Readonly<Record<string, number>>, fount: Fount, character: string | undefined): number {
  const share = character === undefined ? undefined : shares[character];
  return share ? share * caseOf(fount).word(character!).width : 0;
}
