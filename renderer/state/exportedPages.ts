/**
 * What changed since the last export. In: exports and the pages as they stood when each began; out: whether a page differs
 * from the one that was made. Knows the edition in proof, and only while the window is open.
 */
import type { EditionId } from '#base';
import type { Page } from '#page';
import type { BookStore } from './bookStore.ts';
import type { LayoutStore } from './layoutStore.ts';
import type { PressStore } from './pressStore.ts';

type Pages = readonly (Page | undefined)[];

export interface ExportedPagesParts {
  readonly books: Pick<BookStore, 'onOpen'>;
  readonly layout: Pick<LayoutStore, 'get'>;
  readonly press: Pick<PressStore, 'get' | 'subscribe'>;
}

export class ExportedPages {
  private readonly exported = new Map<EditionId, Pages>();
  private pressed: { readonly edition: EditionId; readonly pages: Pages } | null = null;
  private readonly marks = new WeakMap<Page, string>();

  constructor(private readonly parts: ExportedPagesParts) {
    parts.books.onOpen(() => {
      this.exported.clear();
      this.pressed = null;
    });
    parts.press.subscribe(() => this.followPress());
  }

  /** Whether an edition was exported since the book was opened. */
  has(edition: EditionId): boolean {
    return this.exported.has(edition);
  }

  /** Whether the page differs from the one in its place that was exported; false where nothing was. */
  changed(edition: EditionId, page: Page): boolean {
    const exported = this.exported.get(edition);
    if (!exported) return false;
    const before = exported[page.index];
    return before !== page && (!before || this.markOf(before) !== this.markOf(page));
  }

  /** What an export began with is what was made once it has ended well. */
  private followPress(): void {
    const { running, ended } = this.parts.press.get();
    const { edition, pages } = this.parts.layout.get();
    if (running) {
      if (edition !== null && running.editions.includes(edition)) this.pressed ??= { edition, pages };
    } else if (this.pressed) {
      if (ended?.kind === 'done') this.exported.set(this.pressed.edition, this.pressed.pages);
      this.pressed = null;
    }
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
