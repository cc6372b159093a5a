/** Trim sizes as values: the trade's list, and the nearest name for a size. */
import { inches, type Points, type Size } from '#base';
import { TRIM_TABLE } from './data/trims.ts';

export interface Trim extends Size {
  readonly id: string;
  readonly name: string;
}

export const trims: readonly Trim[] = TRIM_TABLE.map((each) => ({
  id: each.id,
  name: each.name,
  width: inches(each.width),
  height: inches(each.height),
}));

/** The trim of that id; a RangeError for an unknown one. */
export function trim(id: string): Trim {
  const found = trims.find((each) => each.id === id);
  if (!found) throw new RangeError(`unknown trim ${JSON.stringify(id)}`);
  return found;
}

/** The trim that a size is, within `tolerance` points (millimetre and inch names differ by that much), or null. */
export function trimOf(size: Size, tolerance: Points = 1): Trim | null {
  const near = (each: Trim): boolean =>
    Math.abs(each.width - size.width) <= tolerance && Math.abs(each.height - size.height) <= tolerance;
  return trims.find(near) ?? null;
}
