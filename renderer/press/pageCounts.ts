/**
 * The page counts of all print editions, not only of the one in proof. In: the layout worker's replies; out: counts by
 * edition. Editions that nobody looks at are made up one after the other while the press desk is open.
 */
import type { EditionId } from '#base';
import { Store, type Workbench } from '../state/index.ts';

export type PageCounts = ReadonlyMap<EditionId, number>;

export class PageCountStore extends Store<PageCounts> {
  private waiting: EditionId[] = [];
  private asked: EditionId | null = null;
  private users = 0;

  constructor(private readonly workbench: Workbench) {
    super(new Map());
    const { books, link } = workbench;
    books.onOpen(() => this.become(new Map()));
    books.onChange((_book, change) => {
      if (this.users > 0 && change.kind !== 'setMetadata') this.countAll();
    });
    link.listen((reply) => {
      if (reply.kind === 'book') this.take(reply.edition, reply.count);
    });
  }

  /** Counts all editions, and goes on counting until the returned function is called. */
  readonly use = (): (() => void) => {
    this.users++;
    this.countAll();
    return () => {
      this.users--;
      if (this.users === 0) this.waiting = [];
    };
  };

  private take(edition: EditionId, count: number): void {
    if (this.get().get(edition) !== count) this.become(new Map(this.get()).set(edition, count));
    if (edition === this.asked) this.asked = null;
    this.next();
  }

  /** The edition in proof comes by itself; the others are asked for in turn. */
  private countAll(): void {
    const { books, place } = this.workbench;
    const shown = place.get().printEdition;
    const editions = books.get()?.book.editions ?? [];
    this.waiting = editions.filter((each) => each.kind === 'print' && each.id !== shown).map((each) => each.id);
    if (this.workbench.layout.get().stage === 'resting') this.next();
  }

  private next(): void {
    const { link } = this.workbench;
    if (this.asked !== null || this.users === 0) return;
    const edition = this.waiting.shift();
    if (edition === undefined) return;
    this.asked = edition;
    link.worker?.layout(edition, null);
    // The edition in proof is asked for last, so that its pages are at hand again.
    if (this.waiting.length === 0) {
      const { printEdition } = this.workbench.place.get();
      if (printEdition !== null) this.waiting.push(printEdition);
    }
  }
}

const stores = new WeakMap<Workbench, PageCountStore>();

/** The counts of a workbench. */
export function pageCountsOf(workbench: Workbench): PageCountStore {
  let store = stores.get(workbench);
  if (!store) {
    store = new PageCountStore(workbench);
    stores.set(workbench, store);
  }
  return store;
}
