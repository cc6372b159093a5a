/**
 * The journal of one open book: every change as it is made, so that a crash loses nothing. In: a folder in the app's data,
 * a base (the book as it was last saved, or as it came in), changes; out: a file that grows by a record for each change.
 *
 * A record is handed to the system before the change is acknowledged: a killed program loses none. The disk is flushed
 * within `FLUSH_AFTER`: a power cut loses at most that much.
 */
import {
  closeSync,
  fdatasync,
  fdatasyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Change } from '#book';
import { recordOf } from './records.ts';

/** Milliseconds between a change and the flush of the disk. */
const FLUSH_AFTER = 250;

export const JOURNAL_FILE = 'changes.journal';
export const BASE_FILE = 'base.reglet';
export const LOCK_FILE = 'held.json';

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

export type JournalRecord =
  | JournalHead
  | { readonly kind: 'change'; readonly version: number; readonly at: number; readonly change: Change }
  /** A save is about to take the file's place: from then on the file holds this version. */
  | { readonly kind: 'saving'; readonly version: number; readonly state: string };

export class Journal {
  private file: number;
  private timer: NodeJS.Timeout | null = null;
  /** Records since the head, for whoever begins the journal anew after a save. */
  private records: JournalRecord[] = [];

  private constructor(
    readonly folder: string,
    file: number,
  ) {
    this.file = file;
  }

  /** Begins a journal in a folder. Throws the system's error. */
  static begin(folder: string, head: JournalHead): Journal {
    mkdirSync(folder, { recursive: true });
    return new Journal(folder, newFile(folder, [head]));
  }

  /** Goes on with a journal that was read back, its torn end cut off. */
  static resume(folder: string, records: readonly JournalRecord[]): Journal {
    const journal = new Journal(folder, newFile(folder, records));
    journal.records = records.filter((record) => record.kind !== 'head');
    return journal;
  }

  write(record: Exclude<JournalRecord, JournalHead>): void {
    writeAll(this.file, recordOf(record));
    this.records.push(record);
    this.timer ??= setTimeout(() => this.flushSoon(), FLUSH_AFTER).unref();
  }

  /** The book was saved at a version: the journal begins anew from there, with what came after. */
  begun(head: JournalHead): void {
    const later = this.records.filter((record) => record.kind === 'change' && record.version > head.version);
    const old = this.file;
    this.file = newFile(this.folder, [head, ...later]);
    this.records = later;
    closeSync(old);
  }

  /** Flushes the disk now. */
  flush(): void {
    if (this.timer) clearTimeout(this.timer);
    this.timer = null;
    fdatasyncSync(this.file);
  }

  close(): void {
    this.flush();
    closeSync(this.file);
  }

  /** Closes the journal and throws it away: all of it is saved, or given up. */
  end(): void {
    if (this.timer) clearTimeout(this.timer);
    closeSync(this.file);
    rmSync(this.folder, { recursive: true, force: true });
  }

  private flushSoon(): void {
    const { file } = this;
    this.timer = null;
    // A file that was replaced meanwhile was flushed when that happened.
    fdatasync(file, () => {});
  }
}

/** Writes a journal's first records as a file of their own and puts it in the place of the old one. */
function newFile(folder: string, records: readonly JournalRecord[]): number {
  const path = join(folder, JOURNAL_FILE);
  const beside = `${path}.new`;
  writeFileSync(beside, Buffer.concat(records.map(recordOf)), { flush: true });
  renameSync(beside, path);
  return openSync(path, 'a');
}

function writeAll(file: number, bytes: Uint8Array): void {
  let at = 0;
  while (at < bytes.length) at += writeSync(file, bytes, at);
}
