/**
 * The rows of the open book, kept fresh. In: books, changes, pages, findings, exports; out: rows for running order, fore-edge
 * and foot. Typing shows in them after a moment, so that a key costs the lists nothing.
 */
import type { BookStore } from './bookStore.ts';
import type { LayoutStore } from './layoutStore.ts';
import { outlineOf, type SectionRow } from './outline.ts';
import type { PlaceStore } from './placeStore.ts';
import type { SinceExportStore } from './sinceExport.ts';
import { SteadyRows } from './steadyRows.ts';
import { Store } from './store.ts';

export interface OutlineStoreParts {
  readonly books: BookStore;
  readonly layout: LayoutStore;
  readonly place: Pick<PlaceStore, 'get' | 'subscribe'>;
  readonly since: Pick<SinceExportStore, 'get' | 'subscribe'>;
  /** Calls back after some milliseconds. */
  readonly after: (milliseconds: number, call: () => void) => void;
}

/** Milliseconds that words and pages of the lists may lag behind. */
const LAG = 200;

export class OutlineStore extends Store<readonly SectionRow[]> {
  /** For long lists. */
  readonly steady: SteadyRows;
  private waiting = false;
  private edition: string | null = null;

  constructor(private readonly parts: OutlineStoreParts) {
    super([]);
    const { books, layout, place, since } = parts;
    this.steady = new SteadyRows(parts.after);
    this.subscribe(() => this.steady.follow(this.get()));
    books.onOpen(() => this.refresh());
    books.onChange((_book, change) => {
      this.steady.stir();
      if (change.kind === 'editText') this.refreshSoon();
      else this.refresh();
    });
    layout.subscribe(() => this.refreshSoon());
    since.subscribe(() => this.refresh());
    place.subscribe(() => {
      if (place.get().printEdition !== this.edition) this.refresh();
    });
  }

  private refreshSoon(): void {
    if (this.waiting) return;
    this.waiting = true;
    this.parts.after(LAG, () => {
      this.waiting = false;
      this.refresh();
    });
  }

  private refresh(): void {
    const book = this.parts.books.get()?.book;
    const { layout, place, since } = this.parts;
    const { pages, findings, count } = layout.get();
    this.edition = place.get().printEdition;
    const changed = new Set(this.edition === null ? [] : since.get().get(this.edition)?.changes.sections);
    const known = count > 0 ? pages.slice(0, count) : [];
    this.become(book ? outlineOf({ book, pages: known, findings, changed }, this.get()) : []);
  }
}
