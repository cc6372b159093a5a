/**
 * A book being worked on: the host's own copy, which every change reaches. In: changes, and the wish to save; out: the book,
 * a journal of what the file does not hold yet, and files written whole.
 */

import { constants } from 'node:fs';
import { copyFile, open, rename, stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { failure, type Outcome, success } from '#base';
import { applyChange, type Book, type Change } from '#book';
import { projectState, writeProject } from '#project';
import type { KeptBook, Saving } from '../host/keeping.ts';
import { replaceFile } from './atomic.ts';
import type { Backups } from './backups.ts';
import { BASE_FILE, Journal, type JournalHead, type JournalRecord } from './journal.ts';
import { Lock } from './lock.ts';
import { savingProblem } from './problems.ts';
import { type Stamp, sameStamp, stampOf, stateAt } from './stamp.ts';

export interface OpenBookParts {
  readonly id: string;
  /** The journal's folder; it exists while there is something in it. */
  readonly folder: string;
  readonly backups: Backups;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  readonly book: Book;
  /** Hash of the book as it begins; the journal's changes count from there. */
  readonly state: string;
  readonly path: string | null;
  readonly stamp: Stamp | null;
  /** Called when the book is closed: its journal is no longer held. */
  readonly closed: () => void;
  /** Changes read back from a journal of an earlier run, applied to `book` in turn. */
  readonly journal: readonly JournalRecord[];
}

/** The version that a session begins with. */
const FIRST_VERSION = 0;

export class OpenBook implements KeptBook {
  readonly id: string;
  private current: Book;
  private count = FIRST_VERSION;
  private savedCount: number;
  private savedTime: number | null;
  private place: string | null;
  private stamp: Stamp | null;
  private base: { readonly book: Book; readonly state: string; readonly version: number };
  private journal: Journal | null = null;
  private lock: Lock | null = null;
  /** What must happen one after the other: saves, and copies of the base. */
  private queue: Promise<unknown> = Promise.resolve();

  /** Throws the system's error where the journal can't be begun. */
  constructor(private readonly parts: OpenBookParts) {
    this.id = parts.id;
    this.current = parts.book;
    this.place = parts.path;
    this.stamp = parts.stamp;
    this.savedTime = parts.stamp?.modifiedAt ?? null;
    this.base = { book: parts.book, state: parts.state, version: FIRST_VERSION };
    this.savedCount = parts.path === null ? -1 : FIRST_VERSION;
    if (parts.journal.length > 0) this.replay(parts.journal);
    else if (parts.path === null) this.beginJournal();
  }

  get book(): Book {
    return this.current;
  }

  /** Counts the changes of this session. */
  get version(): number {
    return this.count;
  }

  get path(): string | null {
    return this.place;
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
    const journal = this.journal ?? this.beginJournal();
    for (const change of changes) {
      journal.write({ kind: 'change', version: ++this.count, at: this.parts.now(), change });
    }
    this.current = book;
    return success(this.count);
  }

  /**
   * Saves to the book's own file or to another, which becomes its own.
   * @param overwrite also over a file that someone else changed. A RangeError for a book that has no file and is given none.
   */
  save(path: string | null = null, overwrite = false): Promise<Outcome<Saving>> {
    return this.inTurn(() => this.saveNow(path === null ? this.place : resolve(path), overwrite));
  }

  /** Whether the file is no longer as it was read or written, and when it was changed. */
  async changedOutside(): Promise<number | null> {
    const { place, stamp } = this;
    if (place === null || stamp === null) return null;
    const now = await stampOf(place);
    if (now === null || sameStamp(now, stamp)) return null;
    if ((await stateAt(place)) !== this.base.state) return now.modifiedAt;
    this.stamp = now;
    return null;
  }

  /** When what stands at `target` was changed by someone else; null where there is nothing that is not ours. */
  private async foreignAt(target: string): Promise<number | null> {
    if (target === this.place && this.stamp !== null) return this.changedOutside();
    return (await stampOf(target))?.modifiedAt ?? null;
  }

  /** Closes the book. Work that was not saved stays in the journal to be offered again, unless it is given up. */
  async close(discard: boolean): Promise<void> {
    await this.queue;
    this.lock?.release();
    if (this.dirty && !discard) this.journal?.close();
    else this.journal?.end();
    this.journal = null;
    this.parts.closed();
  }

  /** Resolves when all that was begun is on the disk. */
  async settled(): Promise<void> {
    await this.queue;
    this.journal?.flush();
  }

  private async saveNow(target: string | null, overwrite: boolean): Promise<Outcome<Saving>> {
    if (target === null) throw new RangeError('a book that was never saved needs a path');
    const changed = overwrite ? null : await this.foreignAt(target);
    if (changed !== null) return success({ kind: 'changedOutside', path: target, modifiedAt: changed });
    const { current: book, count: version } = this;
    const bytes = writeProject(book);
    const state = projectState(bytes) ?? '';
    try {
      this.journal?.write({ kind: 'saving', version, state });
      this.journal?.flush();
      await replaceFile(target, bytes, { ready: (old) => this.parts.backups.keep(old) });
    } catch (problem) {
      return failure(savingProblem(target, problem));
    }
    this.place = target;
    this.stamp = await stampOf(target);
    this.savedTime = this.stamp?.modifiedAt ?? this.parts.now();
    this.savedCount = version;
    this.base = { book, state, version };
    await this.turnPage();
    return success({ kind: 'saved' });
  }

  /** After a save the journal begins anew; where nothing came after, it ends. */
  private async turnPage(): Promise<void> {
    if (!this.journal) return;
    if (this.dirty) {
      await this.keepBase();
      this.journal.begun(this.head());
      return;
    }
    this.lock?.release();
    this.journal.end();
    this.journal = null;
    this.lock = null;
  }

  private head(): JournalHead {
    const { state, version } = this.base;
    const title = this.base.book.metadata.title;
    return { kind: 'head', format: 1, title, path: this.place, base: state, version };
  }

  private beginJournal(): Journal {
    const journal = Journal.begin(this.parts.folder, this.head());
    this.journal = journal;
    this.lock = Lock.take(this.parts.folder);
    void this.inTurn(() => this.keepBase());
    return journal;
  }

  /** Goes on with what an earlier run left: its changes, numbered anew from the base. */
  private replay(records: readonly JournalRecord[]): void {
    for (const record of records) {
      if (record.kind !== 'change') continue;
      const applied = applyChange(this.current, record.change);
      if (!applied.ok) throw new RangeError(`a change of the journal does not fit: ${applied.problem}`);
      this.current = applied.value.book;
      this.count++;
    }
    const changes = records.filter((record) => record.kind === 'change');
    const numbered = changes.map((record, at) => ({ ...record, version: FIRST_VERSION + 1 + at }));
    this.journal = Journal.resume(this.parts.folder, [this.head(), ...numbered]);
    this.lock = Lock.take(this.parts.folder);
    void this.inTurn(() => this.keepBase());
  }

  /** Keeps the book that the changes begin from beside them: whatever becomes of its file, they can be replayed. */
  private async keepBase(): Promise<void> {
    const { book } = this.base;
    const base = join(this.parts.folder, BASE_FILE);
    try {
      if (
        this.place !== null &&
        this.stamp !== null &&
        sameStamp((await stampOf(this.place)) ?? this.stamp, this.stamp)
      ) {
        const copied = `${base}.copy`;
        await copyFile(this.place, copied, constants.COPYFILE_FICLONE);
        await replaceWith(copied, base);
      } else await replaceFile(base, writeProject(book));
    } catch (problem) {
      // The journal was ended meanwhile, or its disk is full: the file itself is still the base.
      if (await stat(this.parts.folder).catch(() => null)) savingProblem(base, problem);
    }
  }

  private inTurn<Result>(work: () => Promise<Result>): Promise<Result> {
    const done = this.queue.then(work);
    this.queue = done.catch(() => {});
    return done;
  }
}

async function replaceWith(copied: string, target: string): Promise<void> {
  const file = await open(copied, 'r+');
  await file.sync().finally(() => file.close());
  await rename(copied, target);
}
