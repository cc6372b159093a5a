import type { Fount } from '../../core/paragraph/text/fount.ts';
import type { WordCase } from '../../core/paragraph/text/wordCase.ts';

/** A word of a case, shaped. */
export function shapedWord(words: WordCase, text: string, fount: Fount, leftward = false): number {
  const word = words.single(text, fount, leftward);
  words.shapeNew();
  return word;
}
