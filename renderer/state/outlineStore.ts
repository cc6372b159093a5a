/**
 * The rows of the open book, kept fresh. In: books, changes, pages, findings, exports; out: rows for running order, fore-edge
 * and foot. Typing shows in them after a moment, so that a key costs the lists nothing.
 */
import type { Node } from 'prosemirror-model';
import type { SectionId } from '#base';
import type { BookStore } from './bookStore.ts';
import type { LayoutStore } from './layoutStore.ts';
import { outlineOf, type SectionRow } from './outline.ts';
import type { PressStore } from './pressStore.ts';
import { Store } from './store.ts';

export interface OutlineStoreParts {
  readonly books: BookStore;
  readonly layout: LayoutStore;
  readonly press: PressStore;
  /** Calls back after some milliseconds. */
  readonly after: (milliseconds: number, call: () => void) => void;
}

/** Milliseconds that words and pages of the lists may lag behind. */
const LAG = 200;

export class OutlineStore extends Store<readonly SectionRow[]> {
  private waiting = false;
  private exported: ReadonlyMap<SectionId, Node> | null = null;
  private pressed: ReadonlyMap<SectionId, Node> | null = null;

  constructor(private readonly parts: OutlineStoreParts) {
    super([]);
    const { books, layout, press } = parts;
    books.onOpen(() => {
      this.exported = null;
      this.refresh();
    });
    books.onChange((_book, change) => (change.kind === 'editText' ? this.refreshSoon() : this.refresh()));
    layout.subscribe(() => this.refreshSoon());
    press.subscribe(() => this.followPress());
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
    const { pages, findings, count } = this.parts.layout.get();
    const known = count > 0 ? pages.slice(0, count) : [];
    this.become(book ? outlineOf({ book, pages: known, findings, exported: this.exported }, this.get()) : []);
  }

  /** What an export began with is what was exported once it has ended well. */
  private followPress(): void {
    const { running, ended } = this.parts.press.get();
    if (running) this.pressed ??= this.sectionsNow();
    else if (this.pressed) {
      if (ended?.kind === 'done') this.exported = this.pressed;
      this.pressed = null;
      this.refresh();
    }
  }

  private sectionsNow(): ReadonlyMap<SectionId, Node> {
    const sections = this.parts.books.get()?.book.text.children ?? [];
    return new Map(sections.map((section) => [section.attrs['id'] as SectionId, section]));
  }
}
