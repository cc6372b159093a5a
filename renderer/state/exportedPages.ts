/**
 * Which pages are other than they were last printed. In: the exports of the book, with the marks of their pages; out: whether a
 * page is among them. A page that only moved on, with another folio, is the page that it was.
 */
import type { EditionId } from '#base';
import type { ExportRecord } from '#host';
import { type Page, pageMark } from '#page';
import type { PressStore } from './pressStore.ts';
import { lastState } from './sinceExport.ts';

export interface ExportedPagesParts {
  readonly press: Pick<PressStore, 'get'>;
}

export class ExportedPages {
  private history: readonly ExportRecord[] = [];
  private readonly exported = new Map<EditionId, ReadonlySet<string> | null>();
  private readonly marks = new WeakMap<Page, string>();

  constructor(private readonly parts: ExportedPagesParts) {}

  /** Whether the pages of an edition are known as they were last made. */
  has(edition: EditionId): boolean {
    return this.pagesOf(edition) !== null;
  }

  /** Whether a page is none of those that were made; false where none was. */
  changed(edition: EditionId, page: Page): boolean {
    const exported = this.pagesOf(edition);
    return exported !== null && !exported.has(this.markOf(page));
  }

  private pagesOf(edition: EditionId): ReadonlySet<string> | null {
    const { history } = this.parts.press.get();
    if (history !== this.history) {
      this.history = history;
      this.exported.clear();
    }
    let pages = this.exported.get(edition);
    if (pages === undefined) {
      const marks = lastState(history, edition)?.state.pages;
      pages = marks ? new Set(marks) : null;
      this.exported.set(edition, pages);
    }
    return pages;
  }

  private markOf(page: Page): string {
    let mark = this.marks.get(page);
    if (mark === undefined) {
      mark = pageMark(page);
      this.marks.set(page, mark);
    }
    return mark;
  }
}
