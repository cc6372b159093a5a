/**
 * What the kernel asks about words and copy (`kernel/assembly/outside.ts`): whatever is rare, and whatever wants the font
 * engine or the rules for text. Out: a case of words with its kernel.
 */
import type { KernelHost } from '../kernel/kernel.ts';
import { ENDINGS, kindAt, spaceKerning, valueAt, WORD } from './copy.ts';
import { findCuts, findTornCuts, partWidth } from './cuts.ts';
import type { Fount } from './fount.ts';
import { jointOf, mayBreakAtSpace } from './opportunities.ts';
import { traitsOf } from './traits.ts';
import { type HeldPieces, WordCase } from './wordCase.ts';

const LETTER = /[\p{L}\p{N}]/u;
const LETTERS = /[\p{L}\p{N}]/gu;

/** An empty case of words. */
export function openCase(founts: readonly Fount[]): WordCase {
  return new WordCase(founts, hostOf);
}

function hostOf(words: WordCase): KernelHost {
  const held = (): HeldPieces => {
    if (!words.held) throw new RangeError('the kernel has no copy');
    return words.held;
  };
  /** Whatever reads the kernel's memory must look anew where things lie. */
  const renewed = (): WordCase => {
    words.renew();
    return words;
  };
  return {
    traitsOf: (from, to) => traitsOf(words.text, from, to),
    jointOf: (before, after) => {
      const joint = jointOf(renewed().token(before), words.token(after));
      return joint === null ? 0 : ENDINGS.indexOf(joint);
    },
    mayBreak: (before, after) => mayBreakAtSpace(renewed().token(before), words.token(after)),
    has: (fount, unit) => words.fountOf(fount).face.has(unit),
    hasJoints: (word) => renewed().fount(word).jointsIn(words.token(word)).length > 0,
    divide: (word) => renewed().divide(word),
    findCuts: (word, divided) => findCuts(renewed(), word, divided !== 0),
    findTornCuts: (word, divided) => findTornCuts(renewed(), word, divided !== 0),
    kerning: (fount, left, right) => words.fountOf(fount).kerning(left, right),
    partWidth: (word, from, to, hyphen) => partWidth(renewed(), word, { from, to, hyphen: hyphen !== 0 }),
    spaceKerning: (piece) => spaceKerning(renewed(), held(), piece),
    touchesLetters: (piece) => touchesLetters(renewed(), held(), piece),
    lettersFrom: (piece, cut) => lettersFrom(renewed(), held(), { piece, cut }),
  };
}

/** Whether the word at a place goes on in another style: its parts by themselves are no words to divide. */
function touchesLetters(words: WordCase, pieces: HeldPieces, index: number): boolean {
  const word = words.textOf(valueAt(pieces, index));
  if (index > 0 && kindAt(pieces, index - 1) === WORD) {
    const before = words.textOf(valueAt(pieces, index - 1));
    if (LETTER.test(before.at(-1)!) && LETTER.test(word[0] ?? '')) return true;
  }
  if (index + 1 >= pieces.count || kindAt(pieces, index + 1) !== WORD) return false;
  const after = words.textOf(valueAt(pieces, index + 1));
  return LETTER.test(after[0] ?? '') && LETTER.test(word.at(-1) ?? '');
}

/** Letters from a place to the end of the copy. */
function lettersFrom(
  words: WordCase,
  pieces: HeldPieces,
  { piece, cut }: { readonly piece: number; readonly cut: number },
): number {
  let letters = 0;
  for (let index = piece; index < pieces.count; index++) {
    if (kindAt(pieces, index) !== WORD) continue;
    const text = words.textOf(valueAt(pieces, index));
    letters += text.slice(index === piece ? cut : 0).match(LETTERS)?.length ?? 0;
  }
  return letters;
}
