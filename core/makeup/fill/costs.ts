/**
 * What a page end costs. The figures rank evils against each other; one unit means nothing by itself. Sources of the
 * rules: FACTS T-09 (no hyphen at the end of a recto), T-14 (last page of four to five lines), T-16 (facing pages of equal
 * depth, spreads a line or two short allowed).
 */
import type { Side } from '#page';

/** White lines at the foot of a page that is not the section's last. */
const SHORT = [0, 10, 45, 160, 400] as const;
const SHORTER_BY_THE_LINE = 250;
/** Facing pages that differ, times the square of the lines. */
const UNEQUAL = 30;
const HYPHEN_AT_TURN = 70;
const HYPHEN_AT_FOLD = 3;
/** A section's last page, by its lines. */
const SCANT_LAST = [0, 500, 400, 250, 40] as const;
/** A note that runs on under the next page. */
export const NOTE_RUNS_ON = 120;
/** A page end where none may be: nothing else was left. */
export const FORCED = 1e6;
/** A page that takes a paragraph at another length. */
const VARIANT = 8;
const VARIANT_LOOKS = 0.4;
/** Beyond this mean badness of its lines a paragraph is not worth it. */
const VARIANT_WORST = 110;

export interface PageEnd {
  readonly side: Side;
  readonly short: number;
  /** White lines of the facing verso, null where there is none in this section. */
  readonly facing: number | null;
  readonly hyphenated: boolean;
  readonly last: boolean;
  /** Grid lines that the page's rows take. */
  readonly used: number;
  readonly first: boolean;
}

/** The cost of ending a page so, the penalty of its last row left out. */
export function costOfEnd(end: PageEnd): number {
  if (end.last) return end.first ? 0 : (SCANT_LAST[end.used] ?? 0);
  let cost = SHORT[end.short] ?? SHORTER_BY_THE_LINE * (end.short - 2);
  if (end.facing !== null) cost += UNEQUAL * (end.short - end.facing) ** 2;
  if (end.hyphenated) cost += end.side === 'recto' ? HYPHEN_AT_TURN : HYPHEN_AT_FOLD;
  return cost;
}

/** The cost of setting a paragraph to another length, from demerits (TeX's scale); infinite where it would look bad. */
export function costOfVariant(variant: { readonly demerits: number; readonly lines: number }, base: number): number {
  const badness = Math.sqrt(Math.max(0, variant.demerits - base) / variant.lines);
  return badness > VARIANT_WORST ? Number.POSITIVE_INFINITY : VARIANT + badness * VARIANT_LOOKS;
}
