/**
 * The books that the window holds open. In: a book that was opened; out: sessions by id, each with the book as it is kept,
 * the pictures it has seen and what it came from.
 */
import { randomBytes } from 'node:crypto';
import { failure, type Outcome, success } from '#base';
import { authorsOf, type Book, type Change } from '#book';
import {
  type BookSession,
  type HostEvent,
  type ImportedManuscript,
  type Kept,
  messageOfBook,
  type OpenedBook,
} from '#host';
import type { KeptBook, Saving } from './keeping.ts';
import type { ManuscriptFile } from './manuscripts.ts';
import { SeenPictures } from './pictures.ts';
import type { RecentBooks } from './recents.ts';
import { FileWatch } from './watch.ts';

export interface SessionParts {
  readonly recents: RecentBooks;
  readonly tell: (event: HostEvent) => void;
  readonly now: () => number;
}

/** Where a new session comes from. */
export interface Origin {
  /** The manuscript, to be read again with other wishes. */
  readonly manuscript: ManuscriptFile | null;
  readonly imported: ImportedManuscript | null;
}

export const NO_MANUSCRIPT: Origin = { manuscript: null, imported: null };

export class Session {
  readonly id: BookSession = randomBytes(12).toString('base64url');
  readonly pictures = new SeenPictures();
  /** Versions that the window knows nothing of: work that was brought back, and what the host itself noted. */
  private first: number;
  /** When the window last changed the book: seconds since 1970-01-01T00:00:00Z, null while it has not. */
  private changedAt: number | null = null;
  private watch: FileWatch | null = null;
  /** Saves under way: one may be asked for before the other has ended. */
  private saves = 0;
  private closed = false;
  private foreEdge: readonly number[] | undefined;

  constructor(
    readonly kept: KeptBook,
    readonly origin: Origin,
    private readonly parts: SessionParts,
  ) {
    this.first = kept.version;
    this.pictures.see(kept.book);
    void this.follow(kept.savedAt);
  }

  /** The changes that this session has seen. */
  get version(): number {
    return this.kept.version - this.first;
  }

  opened(): OpenedBook {
    return {
      session: this.id,
      book: messageOfBook(this.kept.book),
      kept: this.state(),
      imported: this.origin.imported,
    };
  }

  state(): Kept {
    const { path, savedAt, dirty } = this.kept;
    return { path, savedAt, dirty };
  }

  /** Applies changes that were made to the book as it was at `version`. */
  change(version: number, changes: readonly Change[]): Outcome<{ readonly version: number }> {
    if (version !== this.version) {
      return failure(`The window is at change ${version} of this book, but ${this.version} are kept.`);
    }
    const filled = this.pictures.filled(changes);
    if (!filled.ok) return filled;
    const wasDirty = this.kept.dirty;
    const applied = this.kept.apply(filled.value);
    if (!applied.ok) return applied;
    if (changes.length > 0) this.changedAt = Math.floor(this.parts.now() / 1000);
    this.pictures.see(this.kept.book);
    if (!wasDirty) this.tellKept();
    return success({ version: this.version });
  }

  /** The book as it goes out: with the date of its last change. */
  dated(): Book {
    const { book } = this.kept;
    const modified = this.changedAt ?? book.metadata.modified;
    return modified === book.metadata.modified ? book : { ...book, metadata: { ...book.metadata, modified } };
  }

  async save(path: string | null, overwrite: boolean): Promise<Outcome<Saving>> {
    this.noteDate();
    this.saves++;
    try {
      const saving = await this.kept.save(path, overwrite);
      // A book that was closed meanwhile is watched no more, and nobody is told of it.
      if (!this.closed && saving.ok && saving.value.kind === 'saved') {
        // Told when the file is known: whoever writes it from then on is another.
        await this.follow();
        if (!this.closed) this.tellKept();
      }
      return saving;
    } finally {
      this.saves--;
    }
  }

  noteForeEdge(pages: readonly number[]): void {
    this.foreEdge = pages;
    if (this.kept.path !== null) this.parts.recents.noteForeEdge(this.kept.path, pages);
  }

  async close(discard: boolean): Promise<void> {
    this.closed = true;
    this.watch?.close();
    await this.kept.close(discard);
  }

  /** Puts the date of the last change into the book, which the window need not know. */
  private noteDate(): void {
    const { modified } = this.dated().metadata;
    if (modified === this.kept.book.metadata.modified) return;
    if (this.kept.apply([{ kind: 'setMetadata', set: { modified } }]).ok) this.first++;
  }

  private tellKept(): void {
    this.parts.tell({ kind: 'kept', session: this.id, version: this.version, kept: this.state() });
  }

  /**
   * Watches the book's file, which may be a new one, and lists it among the recent books. Resolves when the file is known.
   * @param readAt the time of the file as it was read, milliseconds; null after a save: some disks settle it a little later.
   */
  private follow(readAt: number | null = null): Promise<void> {
    const { path, book } = this.kept;
    if (path === null) return Promise.resolve();
    if (this.watch?.path === path) void this.watch.know();
    else {
      this.watch?.close();
      this.watch = new FileWatch(
        path,
        (modifiedAt) => this.parts.tell({ kind: 'changedOutside', session: this.id, path, modifiedAt }),
        () => this.saves > 0,
        readAt,
      );
    }
    const author = authorsOf(book.metadata).join(', ');
    const { title } = book.metadata;
    this.parts.recents.note({ path, title, author, openedAt: this.parts.now(), foreEdge: this.foreEdge });
    return this.watch.settled;
  }
}

export class Sessions {
  private readonly open = new Map<string, Session>();

  constructor(private readonly parts: SessionParts) {}

  begin(kept: KeptBook, origin: Origin): Session {
    const session = new Session(kept, origin, this.parts);
    this.open.set(session.id, session);
    return session;
  }

  get(id: BookSession): Outcome<Session> {
    const session = this.open.get(id);
    return session ? success(session) : failure('This book is no longer open.');
  }

  async end(session: Session, discard: boolean): Promise<void> {
    this.open.delete(session.id);
    await session.close(discard);
  }

  /** Closes all; what was not saved is offered again. One that can't be closed keeps no other open. */
  async endAll(): Promise<void> {
    const ends = await Promise.allSettled([...this.open.values()].map((session) => this.end(session, false)));
    const failed = ends.find((end) => end.status === 'rejected');
    if (failed) throw failed.reason;
  }
}
