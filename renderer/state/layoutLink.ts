/**
 * Keeps the layout worker in step with the window. In: books that are opened, changes, the edition and section in view; out:
 * requests to the worker, whose replies go to the layout store.
 */
import type { Book, Change } from '#book';
import type { BundledFace, OpenedBook } from '#host';
import {
  LayoutClient,
  startLayoutWorker,
  type WorkerFace,
  type WorkerPort,
  type WorkerReply,
  workerFaces,
} from '../worker/index.ts';
import type { BookStore } from './bookStore.ts';
import type { FontStore } from './fontStore.ts';
import type { LayoutStore } from './layoutStore.ts';
import type { PlaceStore } from './placeStore.ts';

export interface LayoutLinkParts {
  readonly books: BookStore;
  readonly place: PlaceStore;
  readonly layout: LayoutStore;
  readonly fonts: readonly BundledFace[];
  readonly installed: FontStore;
  /** The window's address, to which fonts and modules are relative. */
  readonly base: string;
  readonly startWorker?: () => WorkerPort;
}

export class LayoutLink {
  private client: LayoutClient | null = null;
  /** A worker that waits for its book. */
  private spare: WorkerPort | null = null;
  private readonly hearers = new Set<(reply: WorkerReply) => void>();
  private asked = '';
  /** Families of this computer that the worker was sent, or that there is no sending. */
  private readonly sent = new Set<string>();
  private designs: Book['designs'] | null = null;

  constructor(private readonly parts: LayoutLinkParts) {
    const { books, place } = parts;
    books.onOpen((opened) => this.open(opened));
    books.onChange((book, change) => this.change(book, change));
    books.subscribe(() => {
      if (!books.get()) this.close();
    });
    place.subscribe(() => this.askIfElsewhere());
    parts.installed.subscribe(() => this.fontsChanged());
  }

  /** Starts a worker before there is a book, and lets it load what every book needs. */
  warmUp(): void {
    if (this.client || this.spare) return;
    const { fonts, base, startWorker = startLayoutWorker } = this.parts;
    this.spare = startWorker();
    this.spare.postMessage({ kind: 'warm', faces: workerFaces(fonts), base });
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
    const { layout, fonts, base, installed, startWorker = startLayoutWorker } = this.parts;
    this.close();
    layout.begin();
    const client = new LayoutClient(this.spare ?? startWorker(), (reply) => this.receive(reply));
    this.spare = null;
    this.client = client;
    const wanted = installed.wanted(book.designs);
    const begin = (): void => {
      if (this.client === client) client.open(book, [...workerFaces(fonts), ...this.facesFor(wanted)], base);
    };
    // A book in a font of this computer waits for it, rather than being laid out twice.
    if (wanted.length === 0 || installed.get()) begin();
    else installed.load().then(begin, begin);
    this.askIfElsewhere();
  }

  /** The faces of families that the worker was not sent before. */
  private facesFor(families: readonly string[]): readonly WorkerFace[] {
    const fresh = families.filter((family) => !this.sent.has(family));
    const faces = this.parts.installed.faces(fresh);
    for (const { family } of faces) this.sent.add(family);
    return faces.map((face) => ({ ...face, fallback: false, installed: true }));
  }

  /** Sends the worker fonts for designs that are tried or about to be taken up. */
  need(families: readonly string[]): void {
    const faces = this.facesFor(families);
    if (faces.length === 0 || !this.client) return;
    this.client.addFaces(faces);
    this.ask();
  }

  private close(): void {
    this.client?.close();
    this.client = null;
    this.asked = '';
    this.sent.clear();
  }

  private change(book: Book, change: Change): void {
    if (book.designs !== this.designs) this.designsChanged(book.designs);
    this.client?.change(change);
    this.ask();
  }

  /** A design may be in a font that no design was in before: the worker gets it first. */
  private designsChanged(designs: Book['designs']): void {
    this.designs = designs;
    const { installed } = this.parts;
    const wanted = installed.wanted(designs);
    if (wanted.length === 0) return;
    if (installed.get()) this.need(wanted);
    // The store tells of the fonts once it has them.
    else installed.load().catch(ignored);
  }

  /** A font that the book waits for may have been installed meanwhile. */
  private fontsChanged(): void {
    const book = this.parts.books.get()?.book;
    if (book && this.client) this.need(this.parts.installed.wanted(book.designs));
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

/** A host that tells of no fonts leaves the book in those that stand in for them, which a finding says. */
function ignored(): void {}
