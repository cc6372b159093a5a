/**
 * Places at which words can be cut, as columns of numbers. In: lists of cuts, one for a word; out: the place of a list's
 * first cut. A list goes on to the cut that is marked as its last.
 */
import { grown } from '../grown.ts';

/** How a cut looks: codes of `ENDINGS`, and two that no text offers. */
export const HYPHENED = 2;
export const DASH = 3;
export const OTHER = 4;
export const DIVISION = 5;
export const TORN = 6;
export const KIND = 7;
/** The division stands inside a compound that has a hyphen of its own. */
export const COMPOUND = 8;
/** The last cut of its list. */
export const LAST = 16;

/** One cut's lengths, in text sizes: of the word up to there, as part of the whole; what cutting adds to the first part, and to the rest. */
export const CUT_WIDTH = 0;
export const CUT_END = 1;
export const CUT_START = 2;
export const CUT_STRIDE = 3;

const FIRST_CUTS = 4096;

export class CutColumns {
  count = 0;
  /** Offset in the word's text. */
  places = new Uint16Array(FIRST_CUTS);
  /** Kind and marks. */
  kinds = new Uint8Array(FIRST_CUTS);
  lengths = new Float64Array(FIRST_CUTS * CUT_STRIDE);
  /** First cuts of the lists that hold tears as well, by the word, and whether it may be divided. */
  readonly torn = new Map<string, number>();

  /** Adds a cut to the list that is being made; gives it. */
  add(place: number, kind: number): number {
    const at = this.count++;
    if (at === this.places.length) this.widen();
    this.places[at] = place;
    this.kinds[at] = kind;
    return at;
  }

  /** Ends the list of the cuts added last. */
  end(): void {
    this.kinds[this.count - 1]! |= LAST;
  }

  private widen(): void {
    this.places = grown(this.places, this.count);
    this.kinds = grown(this.kinds, this.count);
    this.lengths = grown(this.lengths, this.places.length * CUT_STRIDE);
  }
}
