/** The part of a copy that one line shows. In: pieces and cuts; out: what it shows of the words at its ends. */
import { type Copy, valueAt } from './copy.ts';
import type { WordPart } from './cuts.ts';
import type { Segment } from './segments.ts';

/** A stretch of copy: whole pieces, and parts of words at its ends. */
export interface Stretch {
  readonly copy: Copy;
  /** First piece, and the offset in its word at which the stretch begins. */
  readonly fromPiece: number;
  readonly fromCut: number;
  /** The piece that is not on the line any more, unless a cut in it says how much of its word is. */
  readonly toPiece: number;
  readonly toCut: number;
  /** Whether a hyphen is added. */
  readonly divided: boolean;
  /** The glyphs of the parts of words at its ends, as far as they have been shaped. */
  readonly firstPart: readonly Segment[] | null;
  readonly lastPart: readonly Segment[] | null;
}

/** A stretch that is filled in, line by line. */
export type OpenStretch = { -readonly [Key in keyof Stretch]: Stretch[Key] };

const NO_COPY = null as unknown as Copy;

/** One with nothing in it yet. */
export function openStretch(): OpenStretch {
  const parts = { firstPart: null, lastPart: null };
  return { copy: NO_COPY, fromPiece: 0, fromCut: 0, toPiece: 0, toCut: 0, divided: false, ...parts };
}

/** Lets go what a stretch holds: the copy of a book that is closed goes with it. */
export function closeStretch(stretch: OpenStretch): void {
  stretch.copy = NO_COPY;
  stretch.firstPart = stretch.lastPart = null;
}

/** The part that a stretch shows of the word at a place in it. */
export function partAt(stretch: Stretch, index: number): WordPart {
  const { copy, fromPiece, fromCut, toPiece, toCut, divided } = stretch;
  const cut = index === toPiece;
  return {
    from: index === fromPiece ? fromCut : 0,
    to: cut ? toCut : copy.words.textLengthOf(valueAt(copy, index)),
    hyphen: cut && divided,
  };
}

/** One past the last piece that shows on the line. */
export function endPiece({ toPiece, toCut }: Stretch): number {
  return toCut > 0 ? toPiece + 1 : toPiece;
}
