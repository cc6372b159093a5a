/**
 * Spreads: which pages lie side by side, and where on the table. In: a page count, sizes and the room there is; out: pages
 * and places in CSS pixels. A book opens on a recto alone: page 0, then 1 and 2, and so on.
 */
import type { PageIndex, Points, Rect, Size } from '#base';

/** CSS pixels to a point at 100 per cent: 96 to the inch (CSS Values 4, "absolute lengths"). */
export const PIXELS_PER_POINT = 96 / 72;

export type Facing = 'facing' | 'single';

/** Per cent of the printed size, or as large as the room allows: the whole spread, or its width. */
export type Zoom = number | 'fit' | 'width';

export const ZOOM_STEPS: readonly number[] = [50, 75, 100, 125, 150, 200, 300, 400];

/** Per cent, by wheel or fingers. */
export const SMALLEST_ZOOM = 25;
export const LARGEST_ZOOM = 800;

export interface Spread {
  readonly verso: PageIndex | null;
  readonly recto: PageIndex | null;
}

/** How many spreads there are. */
export function spreadCount(pages: number, facing: Facing): number {
  return facing === 'single' ? pages : Math.floor(pages / 2) + (pages === 0 ? 0 : 1);
}

/** The spread on which a page lies. */
export function spreadOf(page: PageIndex, facing: Facing): number {
  return facing === 'single' ? page : Math.ceil(page / 2);
}

/** The pages of a spread; null where the book has none on that side. */
export function spreadAt(at: number, pages: number, facing: Facing): Spread {
  const existing = (page: number): PageIndex | null => (page >= 0 && page < pages ? page : null);
  if (facing === 'single')
    return at % 2 === 0 ? { verso: null, recto: existing(at) } : { verso: existing(at), recto: null };
  return { verso: existing(2 * at - 1), recto: existing(2 * at) };
}

export interface PlacedPage extends Rect {
  readonly index: PageIndex;
}

/** A spread laid on the table: all lengths in CSS pixels from the table's top left. */
export interface SpreadPlan {
  /** The room that the spread needs with its surroundings; at least the room there is. */
  readonly table: Size;
  readonly pages: readonly PlacedPage[];
  /** Where the spread begins, with the side that may be empty. */
  readonly origin: { readonly x: number; readonly y: number };
  /** Pixels to a point. */
  readonly scale: number;
}

export interface SpreadRequest {
  readonly spread: Spread;
  readonly facing: Facing;
  /** The trimmed size of the pages. */
  readonly page: Size;
  readonly room: Size;
  readonly zoom: Zoom;
  /** What is shown beyond the trim, in points. */
  readonly around: Points;
}

/** Quiet table around the spread. */
const MARGIN = 24;

/** Lays a spread in the middle of its room. With facing pages, a page that is missing leaves its side empty. */
export function planSpread({ spread, facing, page, room, zoom, around }: SpreadRequest): SpreadPlan {
  const across = facing === 'facing' ? 2 : 1;
  const wide = page.width * across + 2 * around;
  const high = page.height + 2 * around;
  const filling = (room.width - 2 * MARGIN) / wide;
  const fitting = zoom === 'width' ? filling : Math.min(filling, (room.height - 2 * MARGIN) / high);
  const scale = typeof zoom === 'string' ? Math.max(0.1, fitting) : (zoom / 100) * PIXELS_PER_POINT;
  const table = {
    width: Math.max(room.width, Math.ceil(wide * scale) + 2 * MARGIN),
    height: Math.max(room.height, Math.ceil(high * scale) + 2 * MARGIN),
  };
  const [width, height] = [page.width * scale, page.height * scale];
  const left = Math.round((table.width - width * across) / 2);
  const y = Math.round((table.height - height) / 2);
  const middle = facing === 'facing' ? left + width : left;
  const pages: PlacedPage[] = [];
  if (spread.verso !== null) pages.push({ index: spread.verso, x: left, y, width, height });
  if (spread.recto !== null) pages.push({ index: spread.recto, x: middle, y, width, height });
  return { table, pages, origin: { x: left, y }, scale };
}

/**
 * How far the room has to be scrolled so that what stands under a point of it stays there when another plan takes the place
 * of the one before. In: CSS pixels from the room's top left; out: the same.
 */
export function scrollKeeping(
  point: { readonly x: number; readonly y: number },
  before: SpreadPlan & { readonly scrolled: { readonly x: number; readonly y: number } },
  after: SpreadPlan,
): { readonly x: number; readonly y: number } {
  const along = (axis: 'x' | 'y'): number => {
    const points = (before.scrolled[axis] + point[axis] - before.origin[axis]) / before.scale;
    return after.origin[axis] + points * after.scale - point[axis];
  };
  return { x: along('x'), y: along('y') };
}

/** Per cent of the printed size, of pixels to a point. */
export function percentOf(scale: number): number {
  return (scale / PIXELS_PER_POINT) * 100;
}

/** The next step of the zoom in a direction, from whatever per cent it is now; where there is none, what it is. */
export function nextZoom(now: number, direction: 1 | -1): number {
  const steps = direction === 1 ? ZOOM_STEPS : [...ZOOM_STEPS].reverse();
  return steps.find((step) => (direction === 1 ? step > now + 0.5 : step < now - 0.5)) ?? now;
}
