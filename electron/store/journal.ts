/**
 * The journal of one open book: every change as it is made, so that a crash loses nothing. In: a folder in the app's data,
 * a head that names the base (the book as it was last saved, or as it came in), changes; out: a file that grows by a record
 * for each change.
 *
 * A record is handed to the system before the change is acknowledged: a killed program loses none. The disk is flushed
 * within `FLUSH_AFTER`: a power cut loses at most that much.
 */
import {
  closeSync,
  fdatasync,
  fdatasyncSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Change } from '#book';
import { flushFolderSync } from './atomic.ts';
import { readRecords, recordOf } from './records.ts';

/** Milliseconds between a change and the flush of the disk. */
const FLUSH_AFTER = 250;

export const JOURNAL_FILE = 'changes.journal';

/** The first record. */
export interface JournalHead {
  readonly kind: 'head';
  readonly format: 1;
  readonly title: string;
  /** The book's own file, null for one that was never saved. */
  readonly path: string | null;
  /** Hash of the book that the changes begin from (`projectState`). */
  readonly base: string;
  /** The version of the session at the base: changes count on from it. */
  readonly version: number;
}

export interface ChangeRecord {
  readonly kind: 'change';
  readonly version: number;
  /** Milliseconds since 1970. */
  readonly at: number;
  readonly change: Change;
}

/** A save is about to put a file in its place: from then on that file holds this version. */
export interface SavingRecord {
  readonly kind: 'saving';
  readonly version: number;
  readonly path: string;
  /** Hash of the book in it. */
  readonly state: string;
}

export type JournalRecord = JournalHead | ChangeRecord | SavingRecord;

export class Journal {
  /** null while it is closed; it is opened again with the next write. */
  private file: number | null = null;
  private timer: NodeJS.Timeout | null = null;
  /** How many bytes hold whole records. */
  private length = 0;
  /** Whether bytes of a write that failed may stand behind the whole records. */
  private torn = false;
  /** Whether a flush failed: then the system may have let go of what it was handed. */
  private unsure = false;

  private constructor(private readonly folder: string) {}

  /** Begins a journal in a folder, in the place of the one that may be there. Throws the system's error. */
  static begin(folder: string, head: JournalHead, changes: readonly ChangeRecord[] = []): Journal {
    const journal = new Journal(folder);
    journal.renew(bytesOf([head, ...changes]));
    return journal;
  }

  /** Writes records, all or none: what a full disk cut off is taken back. Throws the system's error. */
  write(records: readonly Exclude<JournalRecord, JournalHead>[]): void {
    const bytes = bytesOf(records);
    if (this.unsure) this.renew(this.bytes());
    if (this.torn) this.mend();
    this.torn = true;
    try {
      writeAll(this.opened(), bytes);
    } catch (problem) {
      this.mend();
      throw problem;
    }
    this.torn = false;
    this.length += bytes.length;
    this.timer ??= setTimeout(() => this.flushSoon(), FLUSH_AFTER).unref();
  }

  /** The book was saved at the head's version: the journal begins anew from there, with what came after. */
  begun(head: JournalHead): void {
    const records = readRecords(this.bytes()).values as JournalRecord[];
    const later = records.filter((record) => record.kind === 'change' && record.version > head.version);
    this.renew(bytesOf([head, ...later]));
  }

  /** Flushes the disk now. */
  flush(): void {
    this.stopTimer();
    fdatasyncSync(this.opened());
  }

  /** Closes the journal, flushed. */
  close(): void {
    try {
      this.flush();
    } finally {
      this.letGo();
    }
  }

  /** Closes the journal and throws it away: all of it is saved, or given up. */
  end(): void {
    this.stopTimer();
    this.letGo();
    rmSync(this.path, { force: true });
  }

  private get path(): string {
    return join(this.folder, JOURNAL_FILE);
  }

  private opened(): number {
    this.file ??= openSync(this.path, 'a');
    return this.file;
  }

  private letGo(): void {
    const { file } = this;
    this.file = null;
    if (file !== null) closeSync(file);
  }

  private bytes(): Uint8Array {
    return readFileSync(this.path).subarray(0, this.length);
  }

  /**
   * Writes the journal anew beside the old one, flushed, and puts it in its place. The old one is closed first: not every
   * system replaces a file that is open.
   */
  private renew(bytes: Uint8Array): void {
    const beside = `${this.path}.new`;
    writeFlushed(beside, bytes);
    this.letGo();
    renameSync(beside, this.path);
    this.length = bytes.length;
    this.torn = false;
    this.unsure = false;
    flushFolderSync(this.folder);
  }

  private mend(): void {
    // By its name: Windows cuts no file that is open for appending.
    truncateSync(this.path, this.length);
    this.torn = false;
  }

  private flushSoon(): void {
    this.timer = null;
    const { file } = this;
    if (file === null) return;
    fdatasync(file, (problem) => {
      // A file that was replaced meanwhile was flushed when that happened.
      if (problem && file === this.file) this.unsure = true;
    });
  }

  private stopTimer(): void {
    if (this.timer) clearTimeout(this.timer);
    this.timer = null;
  }
}

function bytesOf(records: readonly JournalRecord[]): Uint8Array {
  return Buffer.concat(records.map(recordOf));
}

function writeFlushed(path: string, bytes: Uint8Array): void {
  const file = openSync(path, 'w');
  try {
    writeAll(file, bytes);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function writeAll(file: number, bytes: Uint8Array): void {
  let at = 0;
  while (at < bytes.length) at += writeSync(file, bytes, at);
}
