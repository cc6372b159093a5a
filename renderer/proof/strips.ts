/**
 * Where two states of a page differ. In: a page before and after a change; out: strips across the page outside of which both
 * show the same. A key moves the letters of a few lines: the others need no new ink.
 */
import type { Points } from '#base';
import type { GlyphRun, Page, PageItem } from '#page';

/** A strip across a page, in points from its top. */
export interface Strip {
  readonly top: Points;
  readonly bottom: Points;
}

/** How far the ink of an item reaches; null for one without ink. */
export type ReachOf = (page: Page, item: PageItem) => Strip | null;

/** Above this share of the page's height, painting all of it is simpler. */
const MOST = 0.5;

/** The strips that differ, from the top, none touching another; null where the page is better painted anew. */
export function changedStrips(before: Page, after: Page, reachOf: ReachOf): readonly Strip[] | null {
  const { width, height } = after.size;
  if (before.side !== after.side || before.size.width !== width || before.size.height !== height) return null;
  const changed = merged(reachesOfChanged(before, after, reachOf));
  const sum = changed.reduce((total, { top, bottom }) => total + bottom - top, 0);
  return sum > height * MOST ? null : changed;
}

function reachesOfChanged(before: Page, after: Page, reachOf: ReachOf): readonly Strip[] {
  const known = new Map<string, PageItem[]>();
  for (const item of before.items) {
    const place = placeOf(item);
    const there = known.get(place);
    if (there) there.push(item);
    else known.set(place, [item]);
  }
  const reaches: (Strip | null)[] = [];
  for (const item of after.items) {
    const there = known.get(placeOf(item)) ?? [];
    const at = there.findIndex((each) => sameInk(before, each, after, item));
    if (at < 0) reaches.push(reachOf(after, item));
    else there.splice(at, 1);
  }
  for (const there of known.values()) reaches.push(...there.map((item) => reachOf(before, item)));
  return reaches.filter((each) => each !== null);
}

function placeOf({ kind, x, y }: PageItem): string {
  return `${kind} ${x} ${y}`;
}

/** Whether two items at one place look the same. Where in the text they stand is not seen. */
function sameInk(before: Page, one: PageItem, after: Page, other: PageItem): boolean {
  if (one.kind === 'glyphs' && other.kind === 'glyphs') return sameRun(before, one, after, other);
  return JSON.stringify({ ...one, at: null }) === JSON.stringify({ ...other, at: null });
}

function sameRun(before: Page, one: GlyphRun, after: Page, other: GlyphRun): boolean {
  const { count } = one;
  if (one.face !== other.face || one.size !== other.size || count !== other.count) return false;
  if ((one.grey ?? 0) !== (other.grey ?? 0) || (one.scale ?? 1) !== (other.scale ?? 1)) return false;
  for (let at = 0; at < count; at++) {
    const [from, to] = [one.start + at, other.start + at];
    if (before.glyphs[from] !== after.glyphs[to] || before.advances[from] !== after.advances[to]) return false;
    if (offsetOf(before, from * 2) !== offsetOf(after, to * 2)) return false;
    if (offsetOf(before, from * 2 + 1) !== offsetOf(after, to * 2 + 1)) return false;
  }
  return true;
}

function offsetOf({ offsets }: Page, at: number): number {
  return offsets?.[at] ?? 0;
}

function merged(strips: readonly Strip[]): readonly Strip[] {
  const result: Strip[] = [];
  for (const strip of [...strips].sort((one, other) => one.top - other.top)) {
    const last = result.at(-1);
    if (last && strip.top <= last.bottom) {
      result[result.length - 1] = { top: last.top, bottom: Math.max(last.bottom, strip.bottom) };
    } else result.push(strip);
  }
  return result;
}
