/** What a run left behind. In: a journal's folder, which may hold anything; out: the base and the changes, or null. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { applyChange, type Book, type Change } from '#book';
import { projectState } from '#project';
import { type ChangeRecord, JOURNAL_FILE, type JournalHead, type JournalRecord, type SavingRecord } from './journal.ts';
import { readRecords } from './records.ts';
import { baseFile } from './safekeeping.ts';
import { bookIn } from './stamp.ts';

export interface Left {
  readonly title: string;
  readonly path: string | null;
  /** Milliseconds since 1970; 0 where nothing was changed. */
  readonly lastChangeAt: number;
  /** The changes that the base does not hold, as far as the journal is whole and they fit. */
  readonly changes: readonly ChangeRecord[];
  /** The book that they begin from, null if it is gone, and its state. */
  readonly base: Book | null;
  readonly state: string;
  readonly fileChanged: boolean;
}

/** `nothing`: all of it is in the book's file. `unreadable`: it is none of this version's, or spoilt from its first bytes. */
export type Reading = Left | 'nothing' | 'unreadable';

/** Reads what was left. */
export async function readLeft(folder: string): Promise<Reading> {
  const bytes = await readFile(join(folder, JOURNAL_FILE)).catch(() => null);
  if (!bytes) return 'nothing';
  const [head, ...records] = readRecords(bytes).values as JournalRecord[];
  if (!isHead(head)) return 'unreadable';
  const start = await startOf(folder, head, records);
  const later = records.filter(isChange).filter((record) => record.version > start.version);
  const changes = start.base ? fitting(start.base, later) : later;
  if (changes.length === 0 && start.file) return 'nothing';
  return {
    title: start.base?.metadata.title ?? head.title,
    path: start.path,
    lastChangeAt: changes.at(-1)?.at ?? 0,
    changes,
    base: start.base,
    state: start.state,
    fileChanged: start.path !== null && !start.file,
  };
}

interface Start {
  readonly base: Book | null;
  readonly state: string;
  readonly version: number;
  readonly path: string | null;
  /** Whether the book's own file is the start. */
  readonly file: boolean;
}

/**
 * Where the changes begin: at the file that a save of the journal wrote, or that the book was read from, if it is still as
 * it was then; else at the copy of the base beside the journal.
 */
async function startOf(folder: string, head: JournalHead, records: readonly JournalRecord[]): Promise<Start> {
  const { path, base: state, version } = head;
  const places = path === null ? savesIn(records) : [...savesIn(records), { path, state, version }];
  const files = new Map<string, Uint8Array | null>();
  for (const place of places) {
    if (!files.has(place.path)) files.set(place.path, await readFile(place.path).catch(() => null));
    const book = bookOfState(files.get(place.path) ?? null, place.state);
    if (book) return { ...place, base: book, file: true };
  }
  const copy = await readFile(join(folder, baseFile(state))).catch(() => null);
  return { base: bookOfState(copy, state), state, version, path, file: false };
}

/** The saves that were begun, the latest first: the last that was finished is the one whose file is as it says. */
function savesIn(records: readonly JournalRecord[]): readonly SavingRecord[] {
  return records.filter(isSaving).reverse();
}

function bookOfState(bytes: Uint8Array | null, state: string): Book | null {
  const book = bytes && projectState(bytes) === state ? bookIn(bytes) : null;
  return book?.ok ? book.value : null;
}

/** The changes up to the first that does not fit, which only a spoilt disk or another version can bring about. */
function fitting(base: Book, records: readonly ChangeRecord[]): readonly ChangeRecord[] {
  let book: Book | null = base;
  for (const [at, { change }] of records.entries()) {
    book = after(book, change);
    if (!book) return records.slice(0, at);
  }
  return records;
}

/** The book after a change that may be anything; null where it can't be made. */
function after(book: Book, change: Change): Book | null {
  try {
    const applied = applyChange(book, change);
    return applied.ok ? applied.value.book : null;
  } catch (problem) {
    if (problem instanceof RangeError || problem instanceof TypeError) return null;
    throw problem;
  }
}

function isHead(record: JournalRecord | undefined): record is JournalHead {
  return (
    record?.kind === 'head' &&
    record.format === 1 &&
    typeof record.base === 'string' &&
    typeof record.version === 'number' &&
    (record.path === null || typeof record.path === 'string')
  );
}

function isChange(record: JournalRecord): record is ChangeRecord {
  const { kind, version, at, change } = record as Partial<ChangeRecord>;
  return kind === 'change' && typeof version === 'number' && typeof at === 'number' && isObject(change);
}

function isSaving(record: JournalRecord): record is SavingRecord {
  const { kind, version, path, state } = record as Partial<SavingRecord>;
  return kind === 'saving' && typeof version === 'number' && typeof path === 'string' && typeof state === 'string';
}

function isObject(value: Change | undefined): boolean {
  return typeof value === 'object' && value !== null;
}
