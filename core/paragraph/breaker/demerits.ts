/** How a line's stretch is judged. In: its adjustment ratio; out: its demerits, and the way back. */
import type { BreakSettings } from '../settings.ts';

/**
 * How bad a line is by its ratio alone: the paper's cube, which makes light of small differences. Departing from it, tight
 * lines count for less: a space that is a quarter narrower is seen less than one that is half as wide again.
 */
export function badnessOf(ratio: number, { shrinkBadness }: BreakSettings): number {
  const cube = 100 * ratio * ratio * ratio;
  return cube < 0 ? -cube * shrinkBadness : cube;
}

/** Demerits of a line that is stretched by a ratio and ends at a space. */
export function demeritsAt(ratio: number, settings: BreakSettings): number {
  return (settings.linePenalty + badnessOf(ratio, settings)) ** 2;
}

/** The ratio by which a line may be stretched without more demerits: the other way round. */
export function loosest(demerits: number, { linePenalty }: BreakSettings): number {
  return Math.cbrt(Math.max(0, Math.sqrt(demerits) - linePenalty) / 100);
}
