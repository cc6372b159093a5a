/**
 * What of some pages a specimen shows. In: pages, the place that matters, how much is shown; out: the pages as they lie on
 * the specimen's canvas, or null where none shows the place.
 */
import type { Page } from '#page';
import { lineOf } from '../proof/index.ts';
import type { LaidPage, Laying } from './specimenCanvas.ts';
import type { Excerpt, Subject } from './subjects.ts';

/** CSS pixels: the room in the panel, the heights of lines and of a page's head, a page that is shown whole. */
const ROOM = 336;
const LINES = 200;
const HEAD = 264;
const WHOLE = 208;
const GAP = 6;

export function excerptOf(
  pages: readonly (Page | undefined)[],
  { section, block }: Subject,
  excerpt: Excerpt,
): Laying | null {
  // A section's own anchor leads to its first page.
  const line = lineOf(pages, { block: block ?? String(section), offset: 0 }, section);
  const page = line && pages.find((each) => each?.index === line.page);
  if (!line || !page) return null;
  switch (excerpt) {
    case 'spread':
      return spread(
        page,
        pages.find((each) => each !== undefined && isFacing(page, each)),
      );
    case 'page':
      return whole(page);
    case 'head':
      return part(page, HEAD, 0);
    case 'lines':
      return part(page, LINES, line.y + line.height / 2);
  }
}

/** A verso and the recto after it. */
function isFacing(page: Page, other: Page): boolean {
  return other.index === page.index + (page.side === 'verso' ? 1 : -1);
}

function spread(page: Page, facing: Page | undefined): Laying {
  const width = (ROOM - GAP) / 2;
  const x = (each: Page): number => (each.side === 'verso' ? 0 : width + GAP);
  const shown = facing ? [page, facing] : [page];
  return {
    width: ROOM,
    height: heightOf(page, width),
    pages: shown.map((each) => ({ page: each, x: x(each), y: 0, width })),
  };
}

function whole(page: Page): Laying {
  return { width: ROOM, height: heightOf(page, WHOLE), pages: [{ page, x: (ROOM - WHOLE) / 2, y: 0, width: WHOLE }] };
}

/** As wide as the room, with a height of the page in the middle of what is seen. */
function part(page: Page, height: number, middle: number): Laying {
  const full = heightOf(page, ROOM);
  const top = Math.min(Math.max(0, full - height), Math.max(0, (middle * ROOM) / page.size.width - height / 2));
  const laid: LaidPage = { page, x: 0, y: -top, width: ROOM };
  return { width: ROOM, height: Math.min(height, full), pages: [laid] };
}

function heightOf({ size }: Page, width: number): number {
  return (width * size.height) / size.width;
}
