/** One line's measure. In: the places at which lines end, two of them and the measure; out: how the line fills its width. */
import { type LineWidths, WORST_RATIO } from './place.ts';
import {
  AFTER,
  BEFORE,
  BOXES_AFTER,
  BOXES_BEFORE,
  FILL,
  SHRINK_AFTER,
  SHRINK_BEFORE,
  STRETCH_AFTER,
  STRETCH_BEFORE,
  STRIDE,
} from './places.ts';

export interface LineFit {
  /** Width of the content as it is, with what the breaks add. */
  readonly natural: number;
  /** Width of the line's place. */
  readonly measure: number;
  /** 0 natural, 1 fully stretched, -1 fully shrunk. */
  readonly ratio: number;
  /** Share of its stretch or shrink that each glue gets: the ratio, but more where boxes have given all they may. */
  readonly spaces: number;
  /** Factor on the width of boxes. */
  readonly scale: number;
  /**
   * What the spaces of a justified line that is stretched beyond measure get more than `COMFORTABLE` of their stretch: what
   * else could take it should.
   */
  readonly excess: number;
  /** How far the line runs over at its tightest. */
  readonly overfull: number;
  /** Whether the line is meant to fill its place exactly: no last line, no ragged one. */
  readonly justified: boolean;
}

export interface LineEnds {
  /** See `places.ts`. */
  readonly breaks: Float64Array;
  readonly place: LineWidths;
  /** Which line of the paragraph, from 0. */
  readonly ordinal: number;
  /** The break before the line and the one at its end. */
  readonly start: number;
  readonly end: number;
}

/** Share of its stretch that a space is brought back to where letterspacing comes to help. */
const COMFORTABLE = 0.96;

/** Rounding errors of sums stay below this. */
const NIL = 1e-7;

export function lineOf({ breaks: sums, place, ordinal, start, end }: LineEnds): LineFit {
  const from = start * STRIDE;
  const to = end * STRIDE;
  const natural = sums[to + BEFORE]! - sums[from + AFTER]!;
  const measure = place.widths[Math.min(ordinal, place.widths.length - 1)]!;
  const room = measure - natural;
  const boxes = sums[to + BOXES_BEFORE]! - sums[from + BOXES_AFTER]!;
  const stretch = sums[to + STRETCH_BEFORE]! - sums[from + STRETCH_AFTER]!;
  const shrink = sums[to + SHRINK_BEFORE]! - sums[from + SHRINK_AFTER]!;
  const filled = stretch >= FILL / 2;
  if (place.ragged > 0) return raggedFit(natural, measure, filled ? FILL : place.ragged);
  const glue = room >= 0 ? stretch : shrink;
  const give = place.scaling * boxes;
  const elastic = glue + give;
  const ratio = ratioOf(room, elastic);
  const overfull = ratio < -1 - NIL ? -room - elastic : 0;
  const justified = !filled || room < 0;
  let spaces = ratio;
  if (ratio > 1) spaces = glue > 0 ? (room - give) / glue : 0;
  else if (ratio < -1) spaces = -1;
  const scale = 1 + Math.max(-1, Math.min(1, ratio)) * place.scaling;
  const excess = justified && ratio > 1 && glue > 0 && place.scaling > 0 ? room - give - COMFORTABLE * glue : 0;
  return { natural, measure, ratio: Math.max(-1, ratio), spaces, scale, excess, overfull, justified };
}

function ratioOf(room: number, elastic: number): number {
  if (Math.abs(room) < NIL) return 0;
  return elastic > 0 ? Math.min(WORST_RATIO, room / elastic) : Math.sign(room) * WORST_RATIO;
}

function raggedFit(natural: number, measure: number, stretch: number): LineFit {
  const room = measure - natural;
  const overfull = room < -NIL ? -room : 0;
  const ratio = Math.max(0, room / stretch);
  return { natural, measure, ratio, spaces: 0, scale: 1, excess: 0, overfull, justified: false };
}
