/** How a line's stretch is judged. In: its adjustment ratio; out: its class and its demerits, and the way back. */
import type { BreakSettings } from '../settings.ts';

/** Demerits of a line that is stretched by a ratio and ends at a space. */
export function demeritsAt(ratio: number, { linePenalty }: BreakSettings): number {
  return (linePenalty + 100 * ratio ** 3) ** 2;
}

/** The ratio by which a line may be stretched without more demerits: the other way round. */
export function loosest(demerits: number, { linePenalty }: BreakSettings): number {
  return Math.cbrt(Math.max(0, Math.sqrt(demerits) - linePenalty) / 100);
}

/** The paper's classes: 0 tight, 1 decent, 2 loose, 3 very loose. */
export function fitness(ratio: number): number {
  if (ratio < -0.5) return 0;
  if (ratio <= 0.5) return 1;
  return ratio <= 1 ? 2 : 3;
}
