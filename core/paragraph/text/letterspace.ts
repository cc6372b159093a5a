/**
 * Where a line's letters may be set apart: between those of whole, plain words. In: a stretch of copy; out: how many places
 * it has.
 */
import { PACKED } from '#page';
import { type Copy, kindAt, valueAt, WORD } from './copy.ts';
import type { Stretch } from './stretch.ts';
import { RARE } from './traits.ts';

/** How many spaces between letters a stretch has that may be widened. */
export function letterGaps({ copy, fromPiece, fromCut, toPiece }: Stretch): number {
  const { words } = copy;
  const { glyphs } = words;
  let gaps = 0;
  for (let index = fromCut > 0 ? fromPiece + 1 : fromPiece; index < toPiece; index++) {
    if (!takesSpace(copy, index)) continue;
    const word = valueAt(copy, index);
    const end = (words.endGlyph(word) - 1) * PACKED;
    for (let glyph = words.firstGlyph(word) * PACKED; glyph < end; glyph += PACKED) {
      if (glyphs[glyph]! >>> 16 !== glyphs[glyph + PACKED]! >>> 16) gaps++;
    }
  }
  return gaps;
}

/** Whether the letters of a piece may be set apart: not where a script joins them, or words are more than their letters. */
export function takesSpace(copy: Copy, index: number): boolean {
  const { words } = copy;
  const word = valueAt(copy, index);
  return kindAt(copy, index) === WORD && !words.isLeftward(word) && (words.traitsOf(word) & RARE) === 0;
}
