/** Whether ink runs over the trimmed edge. In: a page; out: the question a printer asks first of its file. */
import type { Page, PageItem } from './page.ts';

/** Positions beyond the edge by less than this are rounding. */
const SLACK = 0.01;

/** Whether a picture runs over an edge of its page. */
export function runsOver(item: PageItem, { size }: Pick<Page, 'size'>): boolean {
  if (item.kind !== 'image') return false;
  const { x, y, width, height } = item.clip ?? item;
  return x < -SLACK || y < -SLACK || x + width > size.width + SLACK || y + height > size.height + SLACK;
}

/** Whether any page needs bleed. */
export function needBleed(pages: readonly Page[]): boolean {
  return pages.some((page) => page.items.some((item) => runsOver(item, page)));
}
