/**
 * Places on pages and places in the text. In: a page with a point on it, or an anchor; out: the anchor there, or the line
 * that holds it.
 */
import type { Anchor, BlockId, PageIndex, Points, Rect, SectionId } from '#base';
import type { GlyphRun, ImageItem, Page, PathItem } from '#page';

type Pages = readonly (Page | undefined)[];
type Anchored = (GlyphRun | ImageItem | PathItem) & { readonly at: Anchor };

/** The place in the text that a point of a page belongs to: the nearest line's nearest character. Null on a page of none. */
export function anchorAt(page: Page, x: Points, y: Points): Anchor | null {
  let best: Anchored | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const item of page.items) {
    if (!isText(item)) continue;
    const distance = distanceTo(boxOf(page, item), x, y);
    if (distance >= least) continue;
    best = item;
    least = distance;
  }
  if (!best) return null;
  return best.kind === 'glyphs'
    ? { block: best.at.block, offset: best.at.offset + characterAt(page, best, x) }
    : best.at;
}

/** Height counts more than width: who clicks beside a line means that line. */
const HEIGHT_COUNTS = 8;

function distanceTo(box: Rect, x: number, y: number): number {
  const across = Math.max(box.x - x, 0, x - box.x - box.width);
  const down = Math.max(box.y - y, 0, y - box.y - box.height);
  return across + down * HEIGHT_COUNTS;
}

/** Index into the run's text of the character whose glyph's nearer edge is nearest. */
function characterAt(page: Page, run: GlyphRun, x: Points): number {
  const { advances, clusters } = page;
  const end = run.start + run.count;
  const leftward = run.count > 1 && clusters[run.start]! > clusters[end - 1]!;
  let pen = run.x;
  for (let at = run.start; at < end; at++) {
    const advance = advances[at]!;
    if (x < pen + advance / 2) {
      if (!leftward) return clusters[at]!;
      return at === run.start ? run.text.length : clusters[at - 1]!;
    }
    pen += advance;
  }
  return leftward ? clusters[end - 1]! : run.text.replace(/\u00AD$/, '').length;
}

/** A line of text as it stands on a page, in points. */
export interface PlacedLine extends Rect {
  readonly page: PageIndex;
}

/** The line on which an anchor stands; null where no page has it. `section`: where the anchor is known to be. */
export function lineOf(pages: Pages, anchor: Anchor, section: SectionId | null = null): PlacedLine | null {
  let nearest: { readonly page: Page; readonly item: Anchored } | null = null;
  for (const page of pages) {
    if (!page || (section !== null && page.section !== section)) continue;
    if (!blocksOf(page).has(anchor.block)) continue;
    for (const item of page.items) {
      if (!isText(item) || item.at.block !== anchor.block || item.at.offset > anchor.offset) continue;
      if (!nearest || item.at.offset >= nearest.item.at.offset) nearest = { page, item };
    }
  }
  if (!nearest) return section === null ? null : beginningOf(pages, section, anchor);
  return lineAround(nearest.page, nearest.item);
}

/** A section's own anchor leads to its opener. */
function beginningOf(pages: Pages, section: SectionId, anchor: Anchor): PlacedLine | null {
  if (String(anchor.block) !== String(section)) return null;
  const opener = pages.find((page) => page?.section === section && !page.blank);
  const first = opener?.items.find(isText);
  return opener && first ? lineAround(opener, first) : null;
}

/** All that stands on the item's line, from its first glyph to its last. */
function lineAround(page: Page, item: Anchored): PlacedLine {
  const own = boxOf(page, item);
  let [left, right] = [own.x, own.x + own.width];
  for (const other of page.items) {
    if (!isText(other) || other.kind !== 'glyphs' || item.kind !== 'glyphs') continue;
    if (other.at.block !== item.at.block || Math.abs(other.y - item.y) > item.size * 0.6) continue;
    const box = boxOf(page, other);
    left = Math.min(left, box.x);
    right = Math.max(right, box.x + box.width);
  }
  return { page: page.index, x: left, y: own.y, width: right - left, height: own.height };
}

function isText(item: Page['items'][number]): item is Anchored {
  return 'at' in item && item.at !== undefined && !('furniture' in item && item.furniture);
}

/** Shares of the size that a line reaches above and below its baseline. */
const ABOVE = 0.8;
const BELOW = 0.3;

function boxOf(page: Page, item: Anchored): Rect {
  if (item.kind !== 'glyphs') return item;
  let width = 0;
  for (let at = item.start; at < item.start + item.count; at++) width += page.advances[at]!;
  return { x: item.x, y: item.y - item.size * ABOVE, width, height: item.size * (ABOVE + BELOW) };
}

const blocks = new WeakMap<Page, ReadonlySet<BlockId>>();

/** The blocks that a page shows something of. */
function blocksOf(page: Page): ReadonlySet<BlockId> {
  let found = blocks.get(page);
  if (!found) {
    found = new Set(page.items.flatMap((item) => (isText(item) ? [item.at.block] : [])));
    blocks.set(page, found);
  }
  return found;
}

/** Whether a page shows something of the anchor's block. */
export function shows(page: Page, { block }: Anchor): boolean {
  return blocksOf(page).has(block);
}

/** The page with a folio, as printed or as it would be; null for none. Arabic figures come before roman ones of a name. */
export function pageOfFolio(pages: Pages, wanted: string): PageIndex | null {
  const label = wanted.trim().toLowerCase();
  return pages.find((page) => page?.folio.label.toLowerCase() === label)?.index ?? null;
}
