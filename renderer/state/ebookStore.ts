/**
 * The section in view as the ebook has it. In: the worker's replies, and whether anyone is looking; out: the section's
 * document. It follows typing a moment behind, so that the text and the print proof go first.
 */
import type { EditionId, SectionId } from '#base';
import type { EbookReply, WorkerReply } from '../worker/index.ts';
import type { BookStore } from './bookStore.ts';
import type { LayoutLink } from './layoutLink.ts';
import type { PlaceStore } from './placeStore.ts';
import { Store } from './store.ts';

export interface EbookState {
  readonly edition: EditionId | null;
  readonly section: SectionId | null;
  /** null until it has come, or where the ebook leaves the section out: `absent` tells which. */
  readonly proof: EbookReply['proof'];
  readonly absent: boolean;
}

const NOTHING: EbookState = { edition: null, section: null, proof: null, absent: false };

/** Milliseconds of quiet after a change before the section is asked for. */
const QUIET = 120;

export interface EbookStoreParts {
  readonly books: BookStore;
  readonly place: PlaceStore;
  readonly link: LayoutLink;
  /** Calls back after some milliseconds; gives what calls it off. */
  readonly after: (milliseconds: number, call: () => void) => () => void;
}

export class EbookStore extends Store<EbookState> {
  private watchers = 0;
  private callOff: () => void = () => undefined;
  private asked = '';

  constructor(private readonly parts: EbookStoreParts) {
    super(NOTHING);
    parts.books.onChange(() => this.askSoon());
    parts.books.onOpen(() => this.forget());
    parts.place.subscribe(() => this.askIfElsewhere());
    parts.link.listen((reply) => this.receive(reply));
  }

  /** Keeps the section up to date until the returned function is called. */
  watch(): () => void {
    this.watchers++;
    this.asked = '';
    this.askIfElsewhere();
    return () => {
      this.watchers--;
    };
  }

  private forget(): void {
    this.asked = '';
    this.become(NOTHING);
    this.askIfElsewhere();
  }

  private askSoon(): void {
    if (this.watchers === 0) return;
    this.callOff();
    this.callOff = this.parts.after(QUIET, () => this.ask());
  }

  private askIfElsewhere(): void {
    const { ebookEdition, section } = this.parts.place.get();
    if (`${ebookEdition} ${section}` !== this.asked) this.ask();
  }

  private ask(): void {
    const { ebookEdition, section } = this.parts.place.get();
    const { worker } = this.parts.link;
    if (this.watchers === 0 || !worker || ebookEdition === null || section === null) return;
    this.asked = `${ebookEdition} ${section}`;
    worker.ebook(ebookEdition, section);
  }

  private receive(reply: WorkerReply): void {
    // What is set anew when pages begin elsewhere shows in the screen's page marks.
    if (reply.kind === 'ready') this.ask();
    if (reply.kind !== 'ebook' || `${reply.edition} ${reply.section}` !== this.asked) return;
    const { edition, section, proof } = reply;
    this.become({ edition, section, proof, absent: proof === null });
  }
}
