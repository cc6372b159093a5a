/**
 * What has changed in each edition since it was last made. In: the book's exports with the marks that they left, and the book of
 * the moment; out: by edition, when it was made and what reads otherwise now. Typing shows after a moment, and marking a long
 * book for the first time is done piece by piece.
 */
import type { EditionId } from '#base';
import { type Book, changesSince, type EditionChanges, editionMarks, fingerprint } from '#book';
import type { EditionState, ExportRecord } from '#host';
import type { BookStore } from './bookStore.ts';
import type { PressStore } from './pressStore.ts';
import { Store } from './store.ts';

export interface SinceExport {
  /** Milliseconds since 1970. */
  readonly at: number;
  readonly changes: EditionChanges;
}

export type SinceExports = ReadonlyMap<EditionId, SinceExport>;

export interface SinceExportParts {
  readonly books: Pick<BookStore, 'get' | 'onOpen' | 'onChange'>;
  readonly press: Pick<PressStore, 'get' | 'subscribe'>;
  /** Calls back after some milliseconds. */
  readonly after: (milliseconds: number, call: () => void) => void;
}

/** Milliseconds that what has changed may lag behind. */
const LAG = 250;

/** Sections marked in one go: some milliseconds' worth. */
const AT_ONCE = 6;

const NOTHING: SinceExports = new Map();

export class SinceExportStore extends Store<SinceExports> {
  private history: readonly ExportRecord[] = [];
  private waiting = false;
  /** Sections of the open book that were marked once; marking them again costs what has changed in them. */
  private marked = 0;

  constructor(private readonly parts: SinceExportParts) {
    super(NOTHING);
    const { books, press } = parts;
    books.onOpen(() => {
      this.marked = 0;
      this.history = [];
      this.become(NOTHING);
    });
    books.onChange(() => {
      if (this.history.length > 0) this.refreshIn(LAG);
    });
    press.subscribe(() => this.followPress());
  }

  private followPress(): void {
    const { history } = this.parts.press.get();
    if (history === this.history) return;
    this.history = history;
    this.refreshIn(0);
  }

  private refreshIn(milliseconds: number): void {
    if (this.waiting) return;
    this.waiting = true;
    this.parts.after(milliseconds, () => {
      this.waiting = false;
      this.refresh();
    });
  }

  private refresh(): void {
    const book = this.parts.books.get()?.book;
    if (!book) return;
    const sections = book.text.children;
    if (this.history.length > 0 && this.marked < sections.length) {
      for (const section of sections.slice(this.marked, this.marked + AT_ONCE)) fingerprint(section);
      this.marked += AT_ONCE;
      this.refreshIn(0);
    } else this.become(same(this.get(), sinceOf(book, this.history)));
  }
}

function sinceOf(book: Book, history: readonly ExportRecord[]): SinceExports {
  const since = new Map<EditionId, SinceExport>();
  for (const { id } of book.editions) {
    const last = lastState(history, id);
    if (!last) continue;
    const before = { settings: last.state.settings, sections: new Map(last.state.sections) };
    since.set(id, { at: last.at, changes: changesSince(before, editionMarks(book, id)) });
  }
  return since;
}

/** The state in which an edition was last made, and when; null where none is known. */
export function lastState(
  history: readonly ExportRecord[],
  edition: EditionId,
): { readonly at: number; readonly state: EditionState } | null {
  for (const { at, editions } of history) {
    const state = editions.find((each) => each.edition === edition)?.state;
    if (state) return { at, state };
  }
  return null;
}

/** The old value where the new one says the same: nobody has to look again. */
function same(old: SinceExports, now: SinceExports): SinceExports {
  return JSON.stringify([...old]) === JSON.stringify([...now]) ? old : now;
}
