/** The bookmarks of the finished file. In: the plan; out: a tree of headings with the page and height they stand at. */

import type { PageIndex, Points } from '#base';
import { type EditionView, sectionLabel, type ViewSection } from '#book';
import type { PrintDesign } from '#design';
import type { PlannedPage } from './arrange.ts';
import { headingStyle, openerOf } from './collect/opener.ts';
import { isListed } from './order.ts';

export interface OutlineEntry {
  readonly title: string;
  readonly page: PageIndex;
  /** Height of the place on the page, from its top. */
  readonly y: Points;
  readonly children: readonly OutlineEntry[];
}

interface Growing {
  readonly title: string;
  readonly page: PageIndex;
  readonly y: Points;
  readonly children: Growing[];
}

/** Sections with a heading, and the title page; chapters stand under their parts. */
export function outlineOf(
  view: EditionView,
  pages: readonly PlannedPage[],
  design: PrintDesign,
): readonly OutlineEntry[] {
  const top: Growing[] = [];
  const parts = new Map<string, Growing>();
  for (const page of pages) {
    if (!page.content?.first || !isBookmarked(page.section)) continue;
    const style = headingStyle(openerOf(design, page.section.kind), view.metadata.language);
    const entry: Growing = { title: sectionLabel(page.section, style), page: page.index, y: 0, children: [] };
    if (page.section.kind === 'part') parts.set(page.section.id, entry);
    const part = page.section.part ? parts.get(page.section.part) : undefined;
    (part ? part.children : top).push(entry);
  }
  return top;
}

function isBookmarked(section: ViewSection): boolean {
  return (
    isListed(section) || section.kind === 'titlePage' || section.kind === 'contents' || section.kind === 'copyright'
  );
}
