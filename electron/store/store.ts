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
import { projectState, readProject, writeProject } from '#project';
import type { BookKeeper } from '../host/keeping.ts';
import { sweepBeside } from './atomic.ts';
import { Backups } from './backups.ts';
import { isHeld } from './lock.ts';
import { OpenBook, type OpenBookParts } from './openBook.ts';
import { journalProblem, readingProblem } from './problems.ts';
import { type Stamp, stampOf } from './stamp.ts';
import { type Left, readLeft } from './unsaved.ts';

/** The largest project file that is read. */
const LARGEST = 2 ** 30;

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
    const { book, state, stamp } = read.value;
    return this.begin({ book, state, path: place, stamp });
  }

  /** Opens a project file that came as bytes, as a book that has no file yet. */
  async openBytes(name: string, bytes: Uint8Array): Promise<Outcome<OpenBook>> {
    const book = readProject(bytes);
    return book.ok ? this.adopt(book.value) : failure(`${name}: ${book.problem}`);
  }

  /** Takes in a book that has no file yet: an import, the demo, a back-up. Its journal holds it at once. */
  async adopt(book: Book): Promise<Outcome<OpenBook>> {
    return this.begin({ book, state: projectState(writeProject(book)) ?? '', path: null, stamp: null });
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

  /** What earlier runs left unsaved, the latest first. */
  async unsaved(): Promise<readonly UnsavedWork[]> {
    const found: UnsavedWork[] = [];
    for (const id of await this.leftIds()) {
      const left = await readLeft(join(this.journals, id));
      if (!left) continue;
      const { title, path, lastChangeAt, changes, fileChanged } = left;
      found.push({ id, title, path, lastChangeAt, changes: changes.length, fileChanged });
    }
    return found.sort((one, other) => other.lastChangeAt - one.lastChangeAt);
  }

  /** Brings back what an earlier run left: the base with every whole change of its journal. */
  async recover(id: string): Promise<Outcome<OpenBook>> {
    const left = (await this.leftIds()).includes(id) ? await readLeft(join(this.journals, id)) : null;
    if (!left) return failure('This unsaved work is no longer there.');
    if (left.base === null) {
      return failure(`The changes to “${left.title}” can't be brought back: the book that they begin from is gone.`);
    }
    const { base: book, state, path, changes: journal } = left;
    return this.opened({ id, book, state, path, stamp: await this.stampFor(left), journal });
  }

  /** Gives up what an earlier run left. */
  async discard(id: string): Promise<Outcome<null>> {
    if (!(await this.leftIds()).includes(id)) return failure('This unsaved work is no longer there.');
    await rm(join(this.journals, id), { recursive: true, force: true });
    return success(null);
  }

  private begin(of: Pick<OpenBookParts, 'book' | 'state' | 'path' | 'stamp'>): Outcome<OpenBook> {
    return this.opened({ ...of, id: randomUUID(), journal: [] });
  }

  private opened(of: Omit<OpenBookParts, 'folder' | 'backups' | 'now' | 'closed'>): Outcome<OpenBook> {
    const { now } = this.options;
    try {
      const closed = (): void => void this.held.delete(of.id);
      const folder = join(this.journals, of.id);
      const book = new OpenBook({ ...of, folder, backups: this.earlier, now, closed });
      this.held.add(of.id);
      return success(book);
    } catch (problem) {
      return failure(journalProblem(this.journals, problem));
    }
  }

  /**
   * The stamp of the file that work was left on. A file that was changed by others keeps none of ours: saving then asks.
   */
  private async stampFor(left: Left): Promise<Stamp | null> {
    if (left.path === null) return null;
    const stamp = await stampOf(left.path);
    return stamp && left.fileChanged ? { ...stamp, mark: 'changed outside' } : stamp;
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
      const book = readProject(bytes);
      if (!book.ok) return failure(`${name}: ${book.problem}`);
      return success({ book: book.value, state: projectState(bytes) ?? '', stamp });
    } catch (problem) {
      return failure(readingProblem(path, problem));
    }
  }
}
