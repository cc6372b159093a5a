/**
 * Where books are kept: opened, taken in, and brought back after a crash. In: the app's data folder; out: open books, each
 * with its journal, and what earlier runs did not save.
 */
import { randomUUID } from 'node:crypto';
import { readdir, readFile, rm, stat } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { failure, type Outcome, success } from '#base';
import type { Book } from '#book';
import type { Backup, UnsavedWork } from '#host';
import { projectState, stateOf } from '#project';
import type { BookKeeper } from '../host/keeping.ts';
import { sha256 } from '../services/hash.ts';
import { sweepBeside } from './atomic.ts';
import { Backups } from './backups.ts';
import { isHeld } from './lock.ts';
import { FIRST_VERSION, OpenBook, type OpenBookParts } from './openBook.ts';
import { journalProblem, readingProblem } from './problems.ts';
import type { Base } from './safekeeping.ts';
import { bookIn, type Stamp, stampOf } from './stamp.ts';
import { readLeft } from './unsaved.ts';

/** The largest project file that is read. */
const LARGEST = 2 ** 30;

/** Milliseconds that an empty journal's folder is left alone. */
const CLEARED_AFTER = 60_000;

export interface StoreOptions {
  /** The app's data folder. */
  readonly folder: string;
  /** Milliseconds since 1970. */
  readonly now: () => number;
}

export class Store implements BookKeeper {
  private readonly earlier: Backups;
  private readonly journals: string;
  private readonly held = new Set<string>();

  constructor(private readonly options: StoreOptions) {
    this.earlier = new Backups(join(options.folder, 'backups'));
    this.journals = join(options.folder, 'journals');
  }

  /** Opens a project file. */
  async open(path: string): Promise<Outcome<OpenBook>> {
    const place = resolve(path);
    const read = await this.read(place);
    if (!read.ok) return read;
    await sweepBeside(place, this.options.now());
    const parts = this.parts(randomUUID(), { ...read.value, path: place });
    return success(this.holding(OpenBook.ofFile(parts)));
  }

  /** Opens a project file that came as bytes, as a book that has no file yet. */
  async openBytes(name: string, bytes: Uint8Array): Promise<Outcome<OpenBook>> {
    const book = bookIn(bytes);
    return book.ok ? this.adopt(book.value) : failure(`${name}: ${book.problem}`);
  }

  /** Takes in a book that has no file yet: an import, the demo, a back-up. It is kept before this resolves. */
  async adopt(book: Book): Promise<Outcome<OpenBook>> {
    const state = stateOf(book, sha256);
    const parts = this.parts(randomUUID(), { book, state, path: null, stamp: null });
    try {
      return success(this.holding(await OpenBook.adopted(parts)));
    } catch (problem) {
      return failure(journalProblem('The book was not opened', this.journals, problem));
    }
  }

  backups(path: string): Promise<readonly Backup[]> {
    return this.earlier.list(resolve(path));
  }

  /** Opens a back-up of a book's file as a new book without a file. */
  async openBackup(path: string, id: string): Promise<Outcome<OpenBook>> {
    const file = await this.earlier.fileOf(resolve(path), id);
    if (file === null) return failure('This earlier state is no longer kept.');
    const read = await this.read(file);
    return read.ok ? this.adopt(read.value.book) : read;
  }

  /** What earlier runs left unsaved, the latest first. Folders in which nothing was left are cleared away. */
  async unsaved(): Promise<readonly UnsavedWork[]> {
    const found: UnsavedWork[] = [];
    for (const id of await this.leftIds()) {
      const left = await readLeft(join(this.journals, id));
      if (left === 'nothing') await this.clear(id);
      if (typeof left === 'string') continue;
      const { title, path, lastChangeAt, changes, fileChanged } = left;
      found.push({ id, title, path, lastChangeAt, changes: changes.length, fileChanged });
    }
    return found.sort((one, other) => other.lastChangeAt - one.lastChangeAt);
  }

  /** Brings back what an earlier run left: the base with every whole change of its journal. */
  async recover(id: string): Promise<Outcome<OpenBook>> {
    const left = (await this.leftIds()).includes(id) ? await readLeft(join(this.journals, id)) : 'nothing';
    if (typeof left === 'string') return failure('This unsaved work is no longer there.');
    const { base: book, state, path, changes, fileChanged } = left;
    if (book === null) {
      return failure(`The changes to “${left.title}” can't be brought back: the book that they begin from is gone.`);
    }
    // A file that was changed by others is not known again: saving over it asks.
    const stamp = path === null || fileChanged ? null : await stampOf(path);
    try {
      const open = OpenBook.recovered(this.parts(id, { book, state, path, stamp }), changes);
      return open ? success(this.holding(open)) : failure('This unsaved work is open in another window.');
    } catch (problem) {
      return failure(journalProblem('The book was not opened', this.journals, problem));
    }
  }

  /** Gives up what an earlier run left. */
  async discard(id: string): Promise<Outcome<null>> {
    if (!(await this.leftIds()).includes(id)) return failure('This unsaved work is no longer there.');
    await rm(join(this.journals, id), { recursive: true, force: true });
    return success(null);
  }

  private parts(id: string, base: Omit<Base, 'version'>): OpenBookParts {
    return {
      id,
      folder: join(this.journals, id),
      backups: this.earlier,
      now: this.options.now,
      base: { ...base, version: FIRST_VERSION },
      closed: () => this.held.delete(id),
    };
  }

  private holding(book: OpenBook): OpenBook {
    this.held.add(book.id);
    return book;
  }

  /** Takes away a folder that no one holds and in which nothing was left, once it is certain that no one is just taking it. */
  private async clear(id: string): Promise<void> {
    const folder = join(this.journals, id);
    const about = await stat(folder).catch(() => null);
    if (about && this.options.now() - about.mtimeMs > CLEARED_AFTER) await rm(folder, { recursive: true, force: true });
  }

  private async leftIds(): Promise<readonly string[]> {
    const names = await readdir(this.journals).catch(() => []);
    const now = this.options.now();
    return names.filter((id) => !this.held.has(id) && !isHeld(join(this.journals, id), now));
  }

  private async read(path: string): Promise<Outcome<{ book: Book; state: string; stamp: Stamp | null }>> {
    try {
      const about = await stat(path);
      const name = basename(path);
      if (about.isDirectory()) return failure(`${name} is a folder, not a book.`);
      if (!about.isFile()) return failure(`${name} is not a file.`);
      if (about.size > LARGEST) return failure(`${name} is larger than 1 GB and was not opened.`);
      const stamp = await stampOf(path);
      const bytes = await readFile(path);
      const book = bookIn(bytes);
      if (!book.ok) return failure(`${name}: ${book.problem}`);
      return success({ book: book.value, state: projectState(bytes) ?? '', stamp });
    } catch (problem) {
      return failure(readingProblem(path, problem));
    }
  }
}
