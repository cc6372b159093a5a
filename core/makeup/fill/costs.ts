/**
 * What a page costs: the figures rank evils against each other; one unit means nothing by itself. Sources of the rules:
 * FACTS T-09 (no hyphen at the end of a recto), T-13 (two lines at least on each side of a page end), T-14 (last page of
 * four to five lines), T-16 (facing pages of equal depth; a spread may run a line long or a line or two short; spreads that
 * follow each other differ by a line at most). From the dearest to the cheapest:
 *
 *   a page end where none may be            only where nothing else is left
 *   a last page of one to four lines        500 400 250 40
 *   facing pages that differ                320 for a line, 420 for two, 470 for more
 *   a hyphen at the end of a recto          180
 *   a note that runs on                     120
 *   an opening a line higher or lower       100, where the section is in need
 *   a spread next to one that is longer      60 for each line of difference after the first
 *   white at the foot                         8 for a line, 45 for two, then steeply more
 *   a line more than the frame holds          6
 *   a paragraph at another length             5 and more, by what its lines lose
 *   a hyphen at the end of a verso            3
 *   a pair of lines cut off a paragraph       2
 */

/** White lines at the foot of a page that is not the section's last. */
export const SHORT = [0, 8, 45, 160, 400] as const;
/** Each of them, less two, where there are more. */
export const SHORTER_BY_THE_LINE = 250;
/** A line below the frame: half a spread that runs long. */
export const LONG = 6;
/**
 * Facing pages that differ, by lines: beyond three the difference is seen once and for all. As dear as a spread of three
 * lines too few, so that one of two lines too few, which T-16 lets pass, always goes before.
 */
export const UNEQUAL = [0, 320, 420, 470] as const;
/** A spread that differs from the one before it, for each line after the first, three at most. */
export const UNEVEN_SPREADS = 60;
export const HYPHEN_AT_TURN = 180;
export const HYPHEN_AT_FOLD = 3;
/** A section's last page, by its lines. */
export const SCANT_LAST = [0, 500, 400, 250, 40] as const;
/** A note that runs on under the next page. */
export const NOTE_RUNS_ON = 120;
/** A page end where none may be: nothing else was left. */
export const FORCED = 1e6;
/** A page that ends after the first two lines of a paragraph, or before its last two. */
export const LONE_PAIR = 2;
/** A paragraph at another length: at least, for what its lines lose in evenness, and for each that becomes loose. */
const VARIANT_LEAST = 5;
const VARIANT_LOOKS = 0.35;
const VARIANT_LOOSE_LINE = 8;
/** Beyond this mean badness of its lines a paragraph is not worth it. */
const VARIANT_WORST = 150;

/**
 * A section is in need whose pages cost as much at their best: facing pages differ in it, or a word is divided over a leaf.
 * Then its opening may give or take a line, which the pages after it share in. Who turns from one opening to another does
 * not see it; who has two uneven pages before him does. Where a page ends that must not, it would not help.
 */
export const NEED = HYPHEN_AT_TURN;
export const OPENING_MOVED = 100;

/** The figures that the search works with, in the order of `kernel/assembly/prices.ts`. */
export const PRICES: readonly number[] = [
  LONG,
  UNEVEN_SPREADS,
  HYPHEN_AT_TURN,
  HYPHEN_AT_FOLD,
  NOTE_RUNS_ON,
  FORCED,
  LONE_PAIR,
  VARIANT_LEAST,
  SHORTER_BY_THE_LINE,
  ...SHORT,
  ...SCANT_LAST,
  ...UNEQUAL,
];

/** The looks of a paragraph at another length. */
export interface VariantLooks {
  /** Demerits on TeX's scale, and how many lines share them. */
  readonly demerits: number;
  readonly lines: number;
  /** Loose lines that the paragraph has more of than at its best. */
  readonly loose: number;
}

/** The cost of setting a paragraph to another length; infinite where it would look bad. `base` are its demerits at best. */
export function costOfVariant(looks: VariantLooks, base: number): number {
  if (looks.demerits > mostDemerits(looks.lines, base)) return Number.POSITIVE_INFINITY;
  const badness = Math.sqrt(Math.max(0, looks.demerits - base) / looks.lines);
  return VARIANT_LEAST + badness * VARIANT_LOOKS + looks.loose * VARIANT_LOOSE_LINE;
}

/**
 * Demerits that a paragraph set to so many lines may have, where at its best it has `base` and its other length is to cost
 * less than `dearest`.
 */
export function mostDemerits(lines: number, base: number, dearest = Number.POSITIVE_INFINITY): number {
  const worst = Math.min(VARIANT_WORST, Math.max(0, dearest - VARIANT_LEAST) / VARIANT_LOOKS);
  return base + worst ** 2 * lines;
}
