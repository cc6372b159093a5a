/** Where in the pages a place of the text stands. In: pages; out: a function from anchor to page and height. */
import type { Anchor, BlockId } from '#base';
import type { Page } from '#page';
import type { Place, PlaceOf } from './request.ts';

interface Mark extends Place {
  readonly offset: number;
}

/** Reads the anchors of the lines that links lead to, once. A section's id leads to the page where the section begins. */
export function placesOf(pages: readonly Page[]): PlaceOf {
  const wanted = linkedBlocks(pages);
  const blocks = new Map<BlockId, Mark[]>();
  const sections = new Map<string, Place>();
  for (const page of pages) {
    if (page.section !== null && !page.blank && !sections.has(page.section)) {
      sections.set(page.section, { page: page.index, y: 0 });
    }
    for (const item of page.items)
      if ('at' in item && item.at && wanted.has(item.at.block)) {
        note(blocks, item.at, { page: page.index, y: topOf(item) });
      }
  }
  return (anchor) => lookUp(blocks.get(anchor.block), anchor.offset) ?? sections.get(anchor.block as string) ?? null;
}

function linkedBlocks(pages: readonly Page[]): ReadonlySet<BlockId> {
  const blocks = new Set<BlockId>();
  for (const page of pages) {
    for (const item of page.items) if (item.kind === 'link' && 'at' in item.target) blocks.add(item.target.at.block);
  }
  return blocks;
}

function note(blocks: Map<BlockId, Mark[]>, at: Anchor, place: Place): void {
  const marks = blocks.get(at.block);
  const mark = { offset: at.offset, ...place };
  if (marks) marks.push(mark);
  else blocks.set(at.block, [mark]);
}

/** A run's y is its baseline: its size above it is the top of the line, near enough for a jump. */
function topOf(item: Page['items'][number]): number {
  return item.kind === 'glyphs' ? item.y - item.size : item.y;
}

/** The last mark at or before the offset. */
function lookUp(marks: readonly Mark[] | undefined, offset: number): Place | null {
  if (!marks) return null;
  let best = marks[0]!;
  for (const mark of marks) if (mark.offset <= offset && mark.offset >= best.offset) best = mark;
  return best;
}
