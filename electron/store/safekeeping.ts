/**
 * What keeps an open book safe until its file holds it: a folder with the journal of its changes, a copy of the base that
 * they begin from, and a lock. In: the base, changes, news of saves; out: a folder from which `readLeft` brings back the book.
 */
import { rmSync } from 'node:fs';
import { readdir, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Book } from '#book';
import { projectAside } from '#project';
import { copyWhole, flushFolderSync, replaceFile } from './atomic.ts';
import { type ChangeRecord, Journal, type JournalHead, type JournalRecord } from './journal.ts';
import { Lock } from './lock.ts';
import { QUICKLY } from './packing.ts';
import { type Stamp, sameStamp, stampOf } from './stamp.ts';

/** The book that changes begin from. */
export interface Base {
  readonly book: Book;
  /** Its hash (`projectState`). */
  readonly state: string;
  /** The version of the session that it is. */
  readonly version: number;
  /** The file that holds it, null where none does, and by what that file is known again. */
  readonly path: string | null;
  readonly stamp: Stamp | null;
}

const BASE = /^base-[0-9a-f]{16}\.reglet$/;

/** The name of the copy of a base. */
export function baseFile(state: string): string {
  return `base-${state.slice(0, 16)}.reglet`;
}

export class Safekeeping {
  private journal: Journal | null = null;
  private lock: Lock | null = null;

  constructor(
    private readonly folder: string,
    private readonly now: () => number,
  ) {}

  /** Whether there is a journal. */
  get begun(): boolean {
    return this.journal !== null;
  }

  /** Takes the folder. False where another program has it. Throws the system's error. */
  take(): boolean {
    this.lock ??= Lock.take(this.folder, this.now());
    return this.lock !== null;
  }

  /** Begins the journal. Throws the system's error. */
  begin(base: Base, changes: readonly ChangeRecord[] = []): void {
    if (!this.take()) throw new RangeError(`${this.folder} is held by another program`);
    const journal = Journal.begin(this.folder, headOf(base), changes);
    try {
      flushFolderSync(dirname(this.folder));
    } catch (problem) {
      // Not begun: the next change begins it anew, with all that goes with it.
      journal.close();
      throw problem;
    }
    this.journal = journal;
  }

  /** Keeps records, all or none, before it returns. Throws the system's error. */
  write(records: readonly Exclude<JournalRecord, JournalHead>[]): void {
    if (!this.journal) throw new RangeError('the journal was not begun');
    this.journal.write(records);
  }

  flush(): void {
    this.journal?.flush();
  }

  /** Keeps a copy of the base: whatever becomes of its file, the changes can be replayed. Rejects with the system's error. */
  async copyBase(base: Base): Promise<void> {
    const copy = join(this.folder, baseFile(base.state));
    if (await stat(copy).catch(() => null)) return;
    const isThere = (): Promise<boolean> => isAt(base);
    if (base.path !== null && (await isThere()) && (await copyWhole(copy, base.path, isThere))) return;
    const { parts } = await projectAside(base.book, QUICKLY);
    await replaceFile(copy, parts);
  }

  /** The file holds the base now, and changes came after: the journal begins anew from there. */
  async goOn(base: Base): Promise<void> {
    await this.copyBase(base);
    this.journal?.begun(headOf(base));
    const names = await readdir(this.folder);
    for (const name of names) {
      if (BASE.test(name) && name !== baseFile(base.state)) await rm(join(this.folder, name), { force: true });
    }
  }

  /** All of it is saved, or given up. At once: the next change may begin another journal in the same place. */
  end(): void {
    this.journal?.end();
    this.journal = null;
    this.lock?.release();
    this.lock = null;
    // On Windows a virus scanner may hold a file for a moment.
    rmSync(this.folder, { recursive: true, force: true, maxRetries: 3, retryDelay: 50 });
  }

  /** Lets go of the folder; what is in it is offered again. */
  leave(): void {
    this.journal?.close();
    this.journal = null;
    this.lock?.release();
    this.lock = null;
  }
}

function headOf({ book, path, state, version }: Base): JournalHead {
  return { kind: 'head', format: 1, title: book.metadata.title, path, base: state, version };
}

/** Whether the base's file is still as it was read or written. */
async function isAt({ path, stamp }: Base): Promise<boolean> {
  const now = path === null ? null : await stampOf(path);
  return now !== null && stamp !== null && sameStamp(now, stamp);
}
