/**
 * What changed since the last export. In: the pages as they stood when an export began, and as they stand; out: whether a
 * page differs from the one that was made.
 */
import type { EditionId } from '#base';
import type { Page } from '#page';

type Pages = readonly (Page | undefined)[];

export class ExportedPages {
  private readonly pages = new Map<EditionId, Pages>();
  private readonly marks = new WeakMap<Page, string>();

  /** Remembers the pages of an edition that goes to press now. */
  remember(edition: EditionId, pages: Pages): void {
    this.pages.set(edition, pages);
  }

  has(edition: EditionId): boolean {
    return this.pages.has(edition);
  }

  /** Whether the page differs from the one in its place that was exported; false where nothing was. */
  changed(edition: EditionId, page: Page): boolean {
    const exported = this.pages.get(edition);
    if (!exported) return false;
    const before = exported[page.index];
    return before !== page && (!before || this.markOf(before) !== this.markOf(page));
  }

  /** All that is seen of a page, as one string. */
  private markOf(page: Page): string {
    let mark = this.marks.get(page);
    if (mark === undefined) {
      const items = page.items.map((item) => {
        // Where it stands in the text is not seen.
        const { at: _, ...seen } = { at: null, ...item };
        return seen;
      });
      mark = JSON.stringify([
        page.side,
        items,
        [...page.glyphs],
        [...page.advances],
        page.offsets && [...page.offsets],
      ]);
      this.marks.set(page, mark);
    }
    return mark;
  }
}
