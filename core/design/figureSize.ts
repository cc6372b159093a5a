/**
 * How large a picture is printed. In: its pixels, what was wished of it, the page that it comes to; out: points. Pages are
 * made up by it, and it tells an author at once what a picture will do.
 */
import type { Points, Size } from '#base';
import type { PageFrame } from './frame.ts';
import { defaultPress } from './press.ts';

/** What a figure wishes: where it stands, and how wide as a share of the measure (null for its own width). */
export interface FigureWish {
  /** null in the text, `page` on a page of its own, `bleed` over the edges of its page. */
  readonly place: 'page' | 'bleed' | null;
  readonly width: number | null;
}

/** A picture without a wish of its own is printed at 300 pixels to the inch... */
const FINE = 300;
/** ...or larger, down to this many, where it would be less than `LEAST_SHARE` of the measure. */
const COARSE = 150;
const LEAST_SHARE = 0.6;
/** Lines that a page keeps free beside the tallest figure. */
const ROOM_FOR_CAPTION = 3;
/** Height of capitals: the picture's head stands at the height of a line's capitals. */
export const FIGURE_CAPITALS = 0.65;
/** The shape of a picture whose pixels are not known. */
const UNKNOWN: Size = { width: 3, height: 2 };

/** @param measure the width of the lines that it stands between, where that is not the page's. */
export function figureSize(
  pixels: Size | null,
  { place, width }: FigureWish,
  frame: PageFrame,
  measure: Points = frame.measure,
): Size {
  if (place === 'bleed') return plateSize(frame, pixels ?? UNKNOWN);
  const { leading, size: em, lines } = frame;
  const room = { width: measure, height: (lines - ROOM_FOR_CAPTION - 1) * leading + em * FIGURE_CAPITALS };
  const wish = place === 'page' ? 1 : width;
  const shape = pixels ?? UNKNOWN;
  const wanted = wish === null ? ownWidth(pixels, measure) : Math.min(1, Math.max(0.05, wish)) * measure;
  const scale = Math.min(Math.min(wanted, room.width) / shape.width, room.height / shape.height);
  return { width: shape.width * scale, height: shape.height * scale };
}

/** A picture large enough to leave nothing of a room free; what is too high or too wide of it is cut off. */
export function covering(shape: Size, room: Size): Size {
  const scale = Math.max(room.width / shape.width, room.height / shape.height);
  return { width: shape.width * scale, height: shape.height * scale };
}

/** From the spine to beyond the three outer edges. */
function plateSize({ trim }: PageFrame, shape: Size): Size {
  const { bleed } = defaultPress;
  return covering(shape, { width: trim.width + bleed, height: trim.height + 2 * bleed });
}

function ownWidth(pixels: Size | null, measure: Points): Points {
  if (!pixels) return measure * LEAST_SHARE;
  const fine = (pixels.width / FINE) * 72;
  const coarse = (pixels.width / COARSE) * 72;
  return Math.max(fine, Math.min(coarse, measure * LEAST_SHARE));
}
