/** Page boxes (ISO 32000-1, 14.11.2). In: a trimmed page and the bleed; out: rectangles in the file's coordinates. */
import type { Points } from '#base';
import type { Page } from '#page';

type Box = readonly [left: number, bottom: number, right: number, top: number];

export interface PageBoxes {
  readonly media: Box;
  readonly trim: Box;
}

/**
 * Without bleed the sheet is the trimmed page. With bleed it is wider by it once and taller by it twice: there is ink
 * beyond the three outer edges, none at the spine, which is left of a recto and right of a verso.
 */
export function boxesOf(page: Page, bleed: Points): PageBoxes {
  const { width, height } = page.size;
  const left = page.side === 'verso' ? bleed : 0;
  return {
    media: [0, 0, rounded(width + bleed), rounded(height + 2 * bleed)],
    trim: [left, bleed, rounded(left + width), rounded(bleed + height)],
  };
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
