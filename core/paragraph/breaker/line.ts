/** One line's measure. In: a line of a solution and its place; out: how the line fills its width. */
import { type LineWidths, WORST_RATIO } from './place.ts';
import { BOXES, FILL, SHRINK, STRETCH, STRIDE, WIDTH } from './places.ts';

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

/** Share of its stretch that a space is brought back to where letterspacing comes to help. */
const COMFORTABLE = 0.96;

/** Rounding errors of sums stay below this. */
const NIL = 1e-7;

/** A fit to be filled in, again and again: most are looked at once, and a book has tens of thousands. */
export type OpenFit = { -readonly [Key in keyof LineFit]: LineFit[Key] };

export function openFit(): OpenFit {
  return {
    natural: Number.NaN,
    measure: Number.NaN,
    ratio: Number.NaN,
    spaces: Number.NaN,
    scale: Number.NaN,
    excess: Number.NaN,
    overfull: Number.NaN,
    justified: false,
  };
}

/**
 * How a line fills its width.
 * @param lines see `places.ts`. @param ordinal which of them, from 0. @param fit what is filled in and given back.
 */
export function lineOf(lines: Float64Array, place: LineWidths, ordinal: number, fit: OpenFit = openFit()): LineFit {
  const at = ordinal * STRIDE;
  const natural = lines[at + WIDTH]!;
  const measure = measureOf(place, ordinal);
  const room = measure - natural;
  const stretch = lines[at + STRETCH]!;
  const filled = stretch >= FILL / 2;
  fit.natural = natural;
  fit.measure = measure;
  if (place.ragged > 0) {
    fit.ratio = raggedRatio(room, filled ? FILL : place.ragged);
    fit.spaces = fit.excess = 0;
    fit.scale = 1;
    fit.overfull = room < -NIL ? -room : 0;
    fit.justified = false;
    return fit;
  }
  const glue = room >= 0 ? stretch : lines[at + SHRINK]!;
  const give = place.scaling * lines[at + BOXES]!;
  const elastic = glue + give;
  const ratio = ratioOf(room, elastic);
  const justified = !filled || room < 0;
  let spaces = ratio;
  if (ratio > 1) spaces = glue > 0 ? (room - give) / glue : 0;
  else if (ratio < -1) spaces = -1;
  fit.ratio = Math.max(-1, ratio);
  fit.spaces = spaces;
  fit.scale = 1 + Math.max(-1, Math.min(1, ratio)) * place.scaling;
  fit.excess = justified && ratio > 1 && glue > 0 && place.scaling > 0 ? room - give - COMFORTABLE * glue : 0;
  fit.overfull = ratio < -1 - NIL ? -room - elastic : 0;
  fit.justified = justified;
  return fit;
}

/** A line's ratio by itself, which is asked of a whole book's lines: see `LineFit`. */
export function ratioAt(lines: Float64Array, place: LineWidths, ordinal: number): number {
  const at = ordinal * STRIDE;
  const room = measureOf(place, ordinal) - lines[at + WIDTH]!;
  const stretch = lines[at + STRETCH]!;
  if (place.ragged > 0) return raggedRatio(room, stretch >= FILL / 2 ? FILL : place.ragged);
  const glue = room >= 0 ? stretch : lines[at + SHRINK]!;
  return Math.max(-1, ratioOf(room, glue + place.scaling * lines[at + BOXES]!));
}

function measureOf({ widths }: LineWidths, ordinal: number): number {
  return widths[Math.min(ordinal, widths.length - 1)]!;
}

function ratioOf(room: number, elastic: number): number {
  if (Math.abs(room) < NIL) return 0;
  return elastic > 0 ? Math.min(WORST_RATIO, room / elastic) : Math.sign(room) * WORST_RATIO;
}

function raggedRatio(room: number, stretch: number): number {
  return Math.max(0, room / stretch);
}
