/**
 * Keeps books in memory and saves them whole: for a host without a data folder. In: paths, bytes, books; out: open books.
 * What was not saved does not outlive the program, and there are no back-ups.
 */
import { stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { failure, type Outcome, success } from '#base';
import { applyChange, type Book, type Change } from '#book';
import { readProject, writeProject } from '#project';
import type { BookKeeper, KeptBook, Saving } from './keeping.ts';
import { readWhole } from './paths.ts';
import { wholeOrSentence } from './smallFiles.ts';

const LARGEST_BOOK = 2 ** 30;

export class MemoryKeeper implements BookKeeper {
  constructor(private readonly now: () => number) {}

  async open(path: string): Promise<Outcome<KeptBook>> {
    const stamp = await stampOf(path);
    const read = await readWhole(path, LARGEST_BOOK);
    if (!read.ok) return read;
    const book = bookIn(basename(path), read.value);
    return book.ok ? success(new MemoryBook({ book: book.value, path, stamp, now: this.now })) : book;
  }

  async openBytes(name: string, bytes: Uint8Array): Promise<Outcome<KeptBook>> {
    const book = bookIn(name, bytes);
    return book.ok ? this.adopt(book.value) : book;
  }

  async adopt(book: Book): Promise<Outcome<KeptBook>> {
    return success(new MemoryBook({ book, path: null, stamp: null, now: this.now }));
  }

  async unsaved(): Promise<readonly []> {
    return [];
  }

  async recover(): Promise<Outcome<KeptBook>> {
    return failure('There is no such work left.');
  }

  async discard(): Promise<Outcome<null>> {
    return success(null);
  }

  async backups(): Promise<readonly []> {
    return [];
  }

  async openBackup(): Promise<Outcome<KeptBook>> {
    return failure('There is no such back-up.');
  }
}

function bookIn(name: string, bytes: Uint8Array): Outcome<Book> {
  const book = readProject(bytes);
  return book.ok ? book : failure(`${name}: ${book.problem}`);
}

interface MemoryBookParts {
  readonly book: Book;
  readonly path: string | null;
  readonly stamp: Stamp | null;
  readonly now: () => number;
}

class MemoryBook implements KeptBook {
  book: Book;
  path: string | null;
  savedAt: number | null;
  dirty: boolean;
  version = 0;
  private stamp: Stamp | null;
  private readonly now: () => number;

  constructor({ book, path, stamp, now }: MemoryBookParts) {
    this.book = book;
    this.path = path;
    this.stamp = stamp;
    this.now = now;
    this.savedAt = stamp?.modifiedAt ?? null;
    this.dirty = path === null;
  }

  apply(changes: readonly Change[]): Outcome<number> {
    const applied = applyChange(this.book, { kind: 'group', changes });
    if (!applied.ok) return applied;
    this.book = applied.value.book;
    this.version += changes.length;
    this.dirty = true;
    return success(this.version);
  }

  async save(path: string | null, overwrite: boolean): Promise<Outcome<Saving>> {
    const target = path ?? this.path;
    if (target === null) throw new RangeError('a book that was never saved needs a path');
    const there = await stampOf(target);
    const ours = target === this.path ? this.stamp : null;
    if (there && there.stamp !== ours?.stamp && !overwrite) {
      return success({ kind: 'changedOutside', path: target, modifiedAt: there.modifiedAt });
    }
    const { book } = this;
    const written = await wholeOrSentence(target, writeProject(book));
    if (!written.ok) return written;
    this.path = target;
    this.stamp = await stampOf(target);
    this.savedAt = this.now();
    this.dirty = this.book !== book;
    return success({ kind: 'saved' });
  }

  async close(): Promise<void> {}
}

interface Stamp {
  readonly stamp: string;
  readonly modifiedAt: number;
}

async function stampOf(path: string): Promise<Stamp | null> {
  const about = await stat(path).catch(() => null);
  if (!about) return null;
  return { stamp: `${about.ino} ${about.size} ${about.mtimeMs}`, modifiedAt: Math.round(about.mtimeMs) };
}
