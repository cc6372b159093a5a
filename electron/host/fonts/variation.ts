/**
 * The cuts of a variable font that a book is set in. In: its `fvar` table and what the font is by default; out: places on its
 * axes, each with weight and slope. Fields after the OpenType specification 1.9 ("fvar"); RangeError for a damaged table.
 */

/** A face that a variable font becomes once its axes are pinned. */
export interface Cut {
  readonly weight: number;
  readonly italic: boolean;
  readonly axes: Readonly<Record<string, number>>;
}

interface Axis {
  readonly tag: string;
  readonly least: number;
  readonly usual: number;
  readonly most: number;
}

/** What book families consist of. */
const WEIGHTS = [400, 700];
const MOST_AXES = 64;

/** Regular and bold, as far as the weight axis goes, upright and slanted where an axis does that; else the font itself. */
export function cutsOf(fvar: DataView, plain: { readonly weight: number; readonly italic: boolean }): readonly Cut[] {
  const axes = axesIn(fvar);
  const weights = weightsOf(axes.get('wght'), plain.weight);
  const slopes = slopesOf(axes, plain.italic);
  return weights.flatMap((weight) =>
    slopes.map(({ italic, axes: slope }) => ({
      weight: weight.value,
      italic,
      axes: { ...(weight.pinned ? { wght: weight.value } : {}), ...slope },
    })),
  );
}

function axesIn(fvar: DataView): ReadonlyMap<string, Axis> {
  const [first, count, size] = [fvar.getUint16(4), Math.min(fvar.getUint16(8), MOST_AXES), fvar.getUint16(10)];
  const axes = new Map<string, Axis>();
  for (let at = 0; at < count; at++) {
    const record = first + at * size;
    const tag = String.fromCharCode(...[0, 1, 2, 3].map((letter) => fvar.getUint8(record + letter)));
    const [least = 0, usual = 0, most = 0] = [4, 8, 12].map((place) => fvar.getInt32(record + place) / 65536);
    axes.set(tag, { tag, least, usual, most });
  }
  return axes;
}

function weightsOf(
  axis: Axis | undefined,
  own: number,
): readonly { readonly value: number; readonly pinned: boolean }[] {
  if (!axis) return [{ value: own, pinned: false }];
  const reached = WEIGHTS.map((weight) => Math.min(Math.max(weight, axis.least), axis.most));
  return [...new Set(reached)].map((value) => ({ value: Math.round(value), pinned: true }));
}

interface Slope {
  readonly italic: boolean;
  readonly axes: Readonly<Record<string, number>>;
}

function slopesOf(axes: ReadonlyMap<string, Axis>, own: boolean): readonly Slope[] {
  const upright: Slope = { italic: own, axes: {} };
  const [italic, slant] = [axes.get('ital'), axes.get('slnt')];
  if (own) return [upright];
  if (italic && italic.most > 0) return [upright, { italic: true, axes: { ital: italic.most } }];
  // Letters that lean to the right have a negative angle.
  if (slant && slant.least < 0) return [upright, { italic: true, axes: { slnt: slant.least } }];
  return [upright];
}
