/**
 * A book being worked on: the host's own copy, which every change reaches. In: changes, and the wish to save; out: the book,
 * a journal of what the file does not hold yet, and files written whole.
 */
import { resolve } from 'node:path';
import { failure, type Outcome, success } from '#base';
import { applyChange, type Book, type Change } from '#book';
import { projectAside } from '#project';
import type { KeptBook, Saving } from '../host/keeping.ts';
import { isWriteProtected, replaceFile } from './atomic.ts';
import type { Backups } from './backups.ts';
import type { ChangeRecord, SavingRecord } from './journal.ts';
import { QUICKLY } from './packing.ts';
import { isOfDisk, journalProblem, protectedProblem, savingProblem } from './problems.ts';
import { type Base, Safekeeping } from './safekeeping.ts';
import { type Stamp, sameStamp, stampOf, stateAt } from './stamp.ts';

export interface OpenBookParts {
  readonly id: string;
  /** Where the book is kept safe; the folder exists while there is something in it. */
  readonly folder: string;
  readonly backups: Backups;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** The book as it begins, and the file that holds it. */
  readonly base: Base;
  /** Called when the book is closed: what it left may be offered again. */
  readonly closed: () => void;
}

/** The version that a session begins with. */
export const FIRST_VERSION = 0;

/** Stands for the version that the file holds where it holds none of this session's. */
const NOWHERE = -1;

export class OpenBook implements KeptBook {
  readonly id: string;
  private current: Book;
  private count: number;
  private base: Base;
  private savedCount: number;
  private savedTime: number | null;
  private readonly safe: Safekeeping;
  /** What must happen one after the other: saves, and copies of the base. */
  private queue: Promise<unknown> = Promise.resolve();

  private constructor(private readonly parts: OpenBookParts) {
    const { id, base, folder, now } = parts;
    this.id = id;
    this.base = base;
    this.current = base.book;
    this.count = base.version;
    this.savedCount = base.path !== null && base.stamp !== null ? base.version : NOWHERE;
    this.savedTime = base.stamp?.modifiedAt ?? null;
    this.safe = new Safekeeping(folder, now);
  }

  /** Opens a book that is as its file has it: its journal begins with the first change. */
  static ofFile(parts: OpenBookParts): OpenBook {
    return new OpenBook(parts);
  }

  /** Takes in a book that no file holds: it is kept before this resolves. Rejects with the system's error. */
  static async adopted(parts: OpenBookParts): Promise<OpenBook> {
    const book = new OpenBook(parts);
    book.safe.take();
    try {
      await book.safe.copyBase(parts.base);
      book.safe.begin(parts.base);
    } catch (problem) {
      book.safe.end();
      throw problem;
    }
    return book;
  }

  /**
   * Goes on with what an earlier run left: changes that fit, numbered anew. null where another program has it by now.
   * Throws the system's error.
   */
  static recovered(parts: OpenBookParts, records: readonly ChangeRecord[]): OpenBook | null {
    const book = new OpenBook(parts);
    if (!book.safe.take()) return null;
    try {
      book.replay(records);
    } catch (problem) {
      book.safe.leave();
      throw problem;
    }
    return book;
  }

  get book(): Book {
    return this.current;
  }

  /** Counts the changes of this session. */
  get version(): number {
    return this.count;
  }

  get path(): string | null {
    return this.base.path;
  }

  /** When the file was last written by us or read, null if never: milliseconds since 1970. */
  get savedAt(): number | null {
    return this.savedTime;
  }

  /** Whether there is something that the file does not hold. */
  get dirty(): boolean {
    return this.savedCount !== this.count;
  }

  /**
   * Makes changes, all or none, and writes each into the journal before it answers.
   * @returns the version afterwards.
   */
  apply(changes: readonly Change[]): Outcome<number> {
    let book = this.current;
    for (const change of changes) {
      const applied = applyChange(book, change);
      if (!applied.ok) return applied;
      book = applied.value.book;
    }
    const at = this.parts.now();
    const records = changes.map(
      (change, index): ChangeRecord => ({ kind: 'change', version: this.count + 1 + index, at, change }),
    );
    try {
      if (!this.safe.begun) this.beginJournal();
      this.safe.write(records);
    } catch (problem) {
      return failure(journalProblem('The change was not made', this.parts.folder, problem));
    }
    this.count += changes.length;
    this.current = book;
    return success(this.count);
  }

  /**
   * Saves to the book's own file or to another, which becomes its own.
   * @param overwrite also over a file that someone else changed. A RangeError for a book that has no file and is given none.
   */
  save(path: string | null = null, overwrite = false): Promise<Outcome<Saving>> {
    const target = path === null ? null : resolve(path);
    return this.inTurn(() => this.saveNow(target ?? this.path, overwrite));
  }

  /** Whether the file is no longer as it was read or written, and when it was changed. */
  async changedOutside(): Promise<number | null> {
    const { path, stamp, state } = this.base;
    if (path === null) return null;
    const now = await stampOf(path);
    if (now === null || (stamp !== null && sameStamp(now, stamp))) return null;
    if (stamp === null || (await stateAt(path)) !== state) return now.modifiedAt;
    this.base = { ...this.base, stamp: now };
    return null;
  }

  /** Closes the book. Work that was not saved stays in the journal to be offered again, unless it is given up. */
  async close(discard: boolean): Promise<void> {
    await this.queue;
    try {
      if (this.dirty && !discard) this.safe.leave();
      else this.safe.end();
    } finally {
      this.parts.closed();
    }
  }

  /** Resolves when all that was begun is on the disk. */
  async settled(): Promise<void> {
    await this.queue;
    this.safe.flush();
  }

  private async saveNow(target: string | null, overwrite: boolean): Promise<Outcome<Saving>> {
    if (target === null) throw new RangeError('a book that was never saved needs a path');
    if (await this.isSaved(target)) return success({ kind: 'saved' });
    const changed = overwrite ? null : await this.foreignAt(target);
    if (changed !== null) return success({ kind: 'changedOutside', path: target, modifiedAt: changed });
    if (await isWriteProtected(target)) return failure(protectedProblem(target));
    const { current: book, count: version } = this;
    const { parts, state } = await projectAside(book, QUICKLY);
    this.announce({ kind: 'saving', version, path: target, state });
    let stamp: Stamp;
    try {
      stamp = await replaceFile(target, parts, { ready: (old) => this.keepEarlier(old, overwrite) });
    } catch (problem) {
      return failure(savingProblem(target, problem));
    }
    this.base = { book, state, version, path: target, stamp };
    this.savedTime = stamp.modifiedAt;
    this.savedCount = version;
    await this.turnPage();
    return success({ kind: 'saved' });
  }

  /** Whether a file holds the book as it is: then nothing is written, and no earlier state is pushed out. */
  private async isSaved(target: string): Promise<boolean> {
    if (this.dirty || target !== this.path || this.base.stamp === null) return false;
    const now = await stampOf(target);
    return now !== null && sameStamp(now, this.base.stamp);
  }

  /** When what stands at `target` was changed by someone else; null where there is nothing that is not ours. */
  private async foreignAt(target: string): Promise<number | null> {
    if (target === this.path) return this.changedOutside();
    return (await stampOf(target))?.modifiedAt ?? null;
  }

  /** The earlier state becomes a back-up. One of our own may fail to, where its disk is full; another's may not be lost. */
  private async keepEarlier(old: string, isOthers: boolean): Promise<void> {
    try {
      await this.parts.backups.keep(old);
    } catch (problem) {
      if (isOthers || !isOfDisk(problem)) throw problem;
    }
  }

  /** Tells the journal what the file is about to hold. A journal that can't be written is no reason not to save. */
  private announce(saving: SavingRecord): void {
    if (!this.safe.begun) return;
    try {
      this.safe.write([saving]);
      this.safe.flush();
    } catch (problem) {
      if (!isOfDisk(problem)) throw problem;
    }
  }

  /**
   * After a save the journal begins anew; where nothing came after, it ends. If it can't, the old one stands: it was told of
   * the save.
   */
  private async turnPage(): Promise<void> {
    if (!this.safe.begun) return;
    try {
      if (this.dirty) await this.safe.goOn(this.base);
      else this.safe.end();
    } catch (problem) {
      if (!isOfDisk(problem)) throw problem;
    }
  }

  private beginJournal(): void {
    this.safe.begin(this.base);
    this.copyBaseSoon();
  }

  private replay(records: readonly ChangeRecord[]): void {
    const numbered = records.map((record, at) => ({ ...record, version: this.base.version + 1 + at }));
    for (const { change } of numbered) {
      const applied = applyChange(this.current, change);
      if (!applied.ok) throw new RangeError(`a change of the journal does not fit: ${applied.problem}`);
      this.current = applied.value.book;
      this.count++;
    }
    this.safe.begin(this.base, numbered);
    this.copyBaseSoon();
  }

  /** Until the copy is there, and where its disk is full, the file itself is the base. */
  private copyBaseSoon(): void {
    const { base } = this;
    void this.inTurn(() =>
      this.safe.copyBase(base).catch((problem: unknown) => {
        if (!isOfDisk(problem)) throw problem;
      }),
    );
  }

  private inTurn<Result>(work: () => Promise<Result>): Promise<Result> {
    const done = this.queue.then(work);
    this.queue = done.catch(() => {});
    return done;
  }
}
