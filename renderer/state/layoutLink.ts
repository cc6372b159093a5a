/**
 * Keeps the layout worker in step with the window. In: books that are opened, changes, the edition and section in view; out:
 * requests to the worker, whose replies go to the layout store.
 */
import type { Change } from '#book';
import type { BundledFace, OpenedBook } from '#host';
import { LayoutClient, startLayoutWorker, type WorkerPort, type WorkerReply, workerFaces } from '../worker/index.ts';
import type { BookStore } from './bookStore.ts';
import type { LayoutStore } from './layoutStore.ts';
import type { PlaceStore } from './placeStore.ts';

export interface LayoutLinkParts {
  readonly books: BookStore;
  readonly place: PlaceStore;
  readonly layout: LayoutStore;
  readonly fonts: readonly BundledFace[];
  /** The window's address, to which fonts and modules are relative. */
  readonly base: string;
  readonly startWorker?: () => WorkerPort;
}

export class LayoutLink {
  private client: LayoutClient | null = null;
  private readonly hearers = new Set<(reply: WorkerReply) => void>();
  private asked = '';

  constructor(private readonly parts: LayoutLinkParts) {
    const { books, place } = parts;
    books.onOpen((opened) => this.open(opened));
    books.onChange((_book, change) => this.change(change));
    books.subscribe(() => {
      if (!books.get()) this.close();
    });
    place.subscribe(() => this.askIfElsewhere());
  }

  /** The worker at work, for requests beyond pages; null where no book is open. */
  get worker(): LayoutClient | null {
    return this.client;
  }

  /** Hears every reply of the worker until the returned function is called. */
  listen(hearer: (reply: WorkerReply) => void): () => void {
    this.hearers.add(hearer);
    return () => this.hearers.delete(hearer);
  }

  private open({ book }: OpenedBook): void {
    const { layout, fonts, base, startWorker = startLayoutWorker } = this.parts;
    this.close();
    layout.begin();
    this.client = new LayoutClient(startWorker(), (reply) => this.receive(reply));
    this.client.open(book, workerFaces(fonts), base);
    this.askIfElsewhere();
  }

  private close(): void {
    this.client?.close();
    this.client = null;
    this.asked = '';
  }

  private change(change: Change): void {
    this.client?.change(change);
    this.ask();
  }

  private receive(reply: WorkerReply): void {
    this.parts.layout.receive(reply);
    for (const hearer of [...this.hearers]) hearer(reply);
  }

  /** Another edition or section came into view. */
  private askIfElsewhere(): void {
    const { printEdition, section } = this.parts.place.get();
    if (`${printEdition} ${section}` !== this.asked) this.ask();
  }

  private ask(): void {
    const { printEdition, section } = this.parts.place.get();
    if (!this.client || printEdition === null) return;
    this.asked = `${printEdition} ${section}`;
    this.parts.layout.ask(printEdition);
    this.client.layout(printEdition, section);
  }
}
