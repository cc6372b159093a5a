/**
 * A book being worked on: the mirror that a layout worker keeps. In: changes, never books; out: the pages of an edition, the
 * section in view first. Work is versioned: a change makes every layout that is under way stale, and it stops at its next
 * step.
 */
import { type EditionId, type Outcome, type PageIndex, type SectionId, success } from '#base';
import { applyChange, type Book, type Change } from '#book';
import { keepListsOf, type MadeUp } from '#makeup';
import type { Page } from '#page';
import type { Engine, PrintBook } from './engine.ts';

/** What a layout has to show for a step. */
export type LayoutStep =
  /** The pages of the section in view, where they stood before the change. */
  | { readonly kind: 'section'; readonly version: number; readonly section: SectionId; readonly pages: readonly Page[] }
  /** A section was prepared; nothing to show yet. */
  | { readonly kind: 'progress'; readonly version: number; readonly done: number; readonly of: number }
  /** The whole book. Pages that did not change are the objects of the last time; each is set when it is asked for. */
  | { readonly kind: 'book'; readonly version: number; readonly print: PrintBook }
  /** Pages of the book that are set now, those of the section in view first. */
  | { readonly kind: 'pages'; readonly version: number; readonly pages: readonly Page[] }
  /** All is shown; the time that is left is used for the next layout. */
  | { readonly kind: 'spare'; readonly version: number };

/** Pages set in one step: some milliseconds' worth. */
const STEP = 32;
/** Paragraphs to a step of spare time: a millisecond's worth. */
const SPARE = 64;

export class Session {
  private current: Book;
  private count = 0;
  private readonly latest = new Map<EditionId, MadeUp>();

  constructor(
    private readonly engine: Engine,
    book: Book,
  ) {
    this.current = book;
  }

  get book(): Book {
    return this.current;
  }

  /** Counts the changes; a reply that carries another number is stale. */
  get version(): number {
    return this.count;
  }

  /** The latest layout of an edition that came to its end; null where there is none. */
  madeUp(edition: EditionId): MadeUp | null {
    return this.latest.get(edition) ?? null;
  }

  /** Applies a change and gives its inverse; a change that can't be is a sentence, and nothing happened. */
  apply(change: Change): Outcome<Change> {
    const applied = applyChange(this.current, change);
    if (!applied.ok) return applied;
    this.current = applied.value.book;
    this.count++;
    return success(applied.value.inverse);
  }

  /**
   * Lays an edition out, step by step; whoever runs the steps may take other work between them, and need not run those
   * after the `book` step: they set the pages one after the other. Ends early when a change has made it stale.
   * @param inView the section that is looked at: its pages come first.
   */
  *layout(edition: EditionId, inView: SectionId | null = null): Generator<LayoutStep, void> {
    const { version } = this;
    const stale = (): boolean => this.count !== version;
    const before = this.latest.get(edition);
    if (before && inView !== null) {
      const pages = this.engine.printSection({ book: this.current, edition, previous: before, section: inView });
      if (pages) yield { kind: 'section', version, section: inView, pages };
      if (stale()) return;
    }
    for (const step of this.engine.prepare(this.current, edition, inView)) {
      yield { kind: 'progress', version, ...step };
      if (stale()) return;
    }
    const print = this.engine.print(this.current, edition);
    this.latest.set(edition, print.madeUp);
    yield { kind: 'book', version, print };
    const order = fromView(print.madeUp, inView);
    for (let at = 0; at < order.length && !stale(); at += STEP) {
      yield { kind: 'pages', version, pages: order.slice(at, at + STEP).map(print.madeUp.page) };
    }
    let kept = 0;
    for (const _ of keepListsOf(print.madeUp)) {
      if (stale()) return;
      if (++kept % SPARE === 0) yield { kind: 'spare', version };
    }
  }
}

/** The pages in the order in which they are set: from the section in view to the end, then those before it. */
function fromView({ count, pageOf }: MadeUp, inView: SectionId | null): readonly PageIndex[] {
  const first = (inView === null ? null : pageOf(inView)) ?? 0;
  return Array.from({ length: count }, (_, at) => (first + at) % count);
}
