/**
 * The book that is open. In: an opened book and changes; out: the book of the moment, its undo, and how safe it is. Every
 * change goes to the host in order, and to those who mirror the book.
 */
import { failure, type Outcome, success } from '#base';
import { applyChange, type Book, type Change, History } from '#book';
import { type BookSession, bookOfMessage, type Host, type ImportedManuscript, type Kept, type OpenedBook } from '#host';
import { Sender } from './sender.ts';
import { Store } from './store.ts';

export interface BookState {
  readonly session: BookSession;
  readonly book: Book;
  /** Changes made since the book was opened. */
  readonly version: number;
  readonly kept: Kept;
  /** Changes that the host has not confirmed yet; they are on their way. */
  readonly unsent: number;
  /** The report of the import, while the book is fresh from a manuscript. */
  readonly imported: ImportedManuscript | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Why changes can't be kept any more, or null. Nothing more is taken in while it stands. */
  readonly problem: string | null;
}

/** Who made a change: `undo`, `redo`, or a name that the maker gives itself to know its own changes again. */
export type ChangeOrigin = string;

export interface ApplyOptions {
  /** Changes with the same word, one after the other, are undone together. */
  readonly merge?: string;
  readonly origin?: ChangeOrigin;
}

/** Hears a change after it was made, with the book that it led to. */
export type ChangeListener = (book: Book, change: Change, origin: ChangeOrigin) => void;

export interface BookStoreParts {
  readonly host: Pick<Host, 'change'>;
  /** Calls back once the next frame has been drawn. */
  readonly later: (send: () => void) => void;
}

export class BookStore extends Store<BookState | null> {
  private history = new History();
  private sender: Sender | null = null;
  private readonly changeListeners = new Set<ChangeListener>();
  private readonly openListeners = new Set<(opened: OpenedBook) => void>();

  constructor(private readonly parts: BookStoreParts) {
    super(null);
  }

  /** The open book. Throws RangeError where none is. */
  get current(): BookState {
    const state = this.get();
    if (!state) throw new RangeError('no book is open');
    return state;
  }

  /** Puts an opened book in place of the one before. */
  open(opened: OpenedBook): void {
    const { session, kept, imported } = opened;
    this.history = new History();
    this.sender = new Sender({
      host: this.parts.host,
      session,
      later: this.parts.later,
      onProblem: (problem) => this.patch(session, { problem }),
      onProgress: () => this.patch(session, { unsent: this.sender?.unsent ?? 0 }),
    });
    this.become({
      session,
      book: bookOfMessage(opened.book),
      version: 0,
      kept,
      unsent: 0,
      imported,
      canUndo: false,
      canRedo: false,
      problem: null,
    });
    for (const listener of [...this.openListeners]) listener(opened);
  }

  close(): void {
    this.sender = null;
    this.become(null);
  }

  /** Makes a change: the next book is there at once, the host learns of it after the frame. */
  apply(change: Change, { merge, origin = 'window' }: ApplyOptions = {}): Outcome<null> {
    return this.make(change, origin, (inverse) => this.history.record(change, inverse, merge ?? null));
  }

  undo(): Outcome<null> {
    return this.retrace(this.history.undo(), 'undo');
  }

  redo(): Outcome<null> {
    return this.retrace(this.history.redo(), 'redo');
  }

  /** Ends a run of changes that are undone together. */
  seal(): void {
    this.history.seal();
  }

  /** Hears every change until the returned function is called. */
  onChange(listener: ChangeListener): () => void {
    this.changeListeners.add(listener);
    return () => this.changeListeners.delete(listener);
  }

  /** Hears of every book that is opened until the returned function is called. */
  onOpen(listener: (opened: OpenedBook) => void): () => void {
    this.openListeners.add(listener);
    return () => this.openListeners.delete(listener);
  }

  /** Whether the host has everything; waits for what is under way. */
  async settled(): Promise<boolean> {
    return (await this.sender?.settled()) ?? true;
  }

  /** Tries to hand over again what could not be kept. */
  async tryAgain(): Promise<boolean> {
    const { session } = this.current;
    this.patch(session, { problem: null });
    return (await this.sender?.again()) ?? true;
  }

  /**
   * The host tells where the book stands on disk.
   * @param version the changes that it knew of then; the file can't hold those made since.
   */
  setKept(session: BookSession, kept: Kept, version?: number): void {
    const state = this.get();
    if (state?.session !== session) return;
    const isBehind = state.unsent > 0 || (version ?? state.version) < state.version;
    this.patch(session, { kept: { ...kept, dirty: kept.dirty || isBehind } });
  }

  /** The import was looked through and agreed to. */
  acceptImport(): void {
    this.patch(this.current.session, { imported: null });
  }

  private make(change: Change, origin: ChangeOrigin, record: (inverse: Change) => void): Outcome<null> {
    const state = this.current;
    if (state.problem !== null) return failure(state.problem);
    const applied = applyChange(state.book, change);
    if (!applied.ok) return applied;
    record(applied.value.inverse);
    this.sender?.push(change);
    const { canUndo, canRedo } = this.history;
    const { book } = applied.value;
    const unsent = this.sender?.unsent ?? 0;
    const kept = { ...state.kept, dirty: true };
    this.become({ ...state, book, version: state.version + 1, kept, unsent, canUndo, canRedo });
    for (const listener of [...this.changeListeners]) listener(book, change, origin);
    return success(null);
  }

  private retrace(change: Change | null, origin: ChangeOrigin): Outcome<null> {
    return change === null ? success(null) : this.make(change, origin, () => undefined);
  }

  private patch(session: BookSession, some: Partial<BookState>): void {
    const state = this.get();
    if (state?.session === session) this.become({ ...state, ...some });
  }
}
