/**
 * A paragraph's copy, ready to be set: its pieces in order (words, spaces, note marks, forced breaks), each with its place
 * in the flat text, and whether a line may end there.
 */
import type { MissingCharacter, StyledText } from '../types.ts';
import type { Fount } from './fount.ts';
import type { CutKind } from './opportunities.ts';
import { type HeldPieces, NONE, type WordCase } from './wordCase.ts';

/** What a piece is. A space may be one that holds what stands around it together. */
export const WORD = 0;
export const SPACE = 1;
export const HOLDING_SPACE = 2;
export const MARK = 3;
export const LINE_BREAK = 4;

/** Whether a line may end at a space, or before any other piece, and how such an end looks. */
export type Ending = CutKind | 'space' | 'none';

/** Endings by their codes. */
export const ENDINGS: readonly Ending[] = ['none', 'space', 'hyphen', 'dash', 'other'];
export const NO_END = 0;
export const SPACE_END = 1;

// A piece in one number: its kind, the code of its ending, and above these its word or the number of its fount.
const CODE = 7;
const ENDING_SHIFT = 3;
const VALUE_SHIFT = 6;

export interface Directions {
  readonly pieces: Uint8Array;
  readonly base: number;
}

export interface Copy {
  readonly text: StyledText;
  /** Number of pieces. */
  readonly count: number;
  /** The pieces: see `kindAt`, `endingAt` and `valueAt`. */
  readonly pieces: Int32Array;
  /** Flat-text offset of each piece. */
  readonly offsets: Int32Array;
  /** Span that each piece comes from, null where all come from the first. */
  readonly spans: Int32Array | null;
  readonly words: WordCase;
  readonly founts: readonly Fount[];
  /** Where something runs from right to left: the level of each piece, and of the paragraph. */
  readonly directions: Directions | null;
  /** Whether it has references to notes, and stretches with links or strikes over them. */
  readonly hasMarks: boolean;
  /** Whether it begins with a dash and a space, as speech does in many languages. */
  readonly opensWithDash: boolean;
  readonly hasCovers: boolean;
  /** Numbers of its lists of breaks that the kernel keeps, as `BreakSearch` counts them; null where it keeps none. */
  lists: number[] | null;
}

/** What a piece is. */
export function kindAt({ pieces }: HeldPieces, index: number): number {
  return pieces[index]! & CODE;
}

/** The code of a piece's ending: an index into `ENDINGS`. */
export function endingAt({ pieces }: HeldPieces, index: number): number {
  return (pieces[index]! >> ENDING_SHIFT) & CODE;
}

/** The word of a word or a mark, the number of a space's fount. */
export function valueAt({ pieces }: HeldPieces, index: number): number {
  return pieces[index]! >> VALUE_SHIFT;
}

/** Whether a piece is a space of either kind. */
export function isSpace(copy: Copy, index: number): boolean {
  const kind = kindAt(copy, index);
  return kind === SPACE || kind === HOLDING_SPACE;
}

/**
 * Whether a space keeps its width, and no line ends at it: after a dash that opens a speech, so that speeches begin one below
 * the other.
 */
export function isFixedSpace(copy: Copy, index: number): boolean {
  return index === 1 && copy.opensWithDash;
}

/** The word at a place, also that of a note mark; `NONE` for anything else. */
export function wordAt(pieces: HeldPieces, index: number): number {
  if (index < 0 || index >= pieces.count) return NONE;
  const kind = kindAt(pieces, index);
  return kind === WORD || kind === MARK ? valueAt(pieces, index) : NONE;
}

export function spanAt(copy: Copy, index: number): number {
  return copy.spans ? copy.spans[index]! : 0;
}

/** Length of a piece in the flat text. */
export function lengthAt(copy: Copy, index: number): number {
  return kindAt(copy, index) === WORD ? copy.words.lengthOf(valueAt(copy, index)) : 1;
}

/** Natural width of the space at a place, with what the face kerns between it and its neighbours. */
export function spaceWidth(copy: Copy, index: number): number {
  const fount = copy.founts[valueAt(copy, index)]!;
  return fount.spaceWidth + (fount.kernsSpaces ? spaceKerning(copy.words, copy, index) : 0);
}

/** What its fount kerns between the space at a place and its neighbours. */
export function spaceKerning(words: WordCase, pieces: HeldPieces, index: number): number {
  const fount = words.fountOf(valueAt(pieces, index));
  const before = wordAt(pieces, index - 1);
  const after = wordAt(pieces, index + 1);
  if (before === NONE || after === NONE || words.fount(before) !== fount || words.fount(after) !== fount) return 0;
  return fount.face.spaceKerning(words.textOf(before), words.textOf(after), fount.setting) * fount.scale;
}

/** Letterspace after the last letter of the word at a place. */
export function trackingAt(copy: Copy, index: number): number {
  const word = wordAt(copy, index);
  return word === NONE ? 0 : copy.words.fount(word).tracking;
}

const NOTHING_MISSING: readonly MissingCharacter[] = [];

/** Characters that no face has, each at its first place. */
export function missingIn(copy: Copy): readonly MissingCharacter[] {
  const { words, text } = copy;
  if (!words.lacks) return NOTHING_MISSING;
  const missing: MissingCharacter[] = [];
  for (let index = 0; index < copy.count; index++) {
    const word = wordAt(copy, index);
    if (word === NONE) continue;
    for (const { codePoint, at } of words.rareOf(word)?.missing ?? []) {
      if (missing.some((known) => known.codePoint === codePoint)) continue;
      const offset = copy.offsets[index]! + words.sourceOf(word, at);
      missing.push({ codePoint, at: { block: text.block, offset } });
    }
  }
  return missing;
}
