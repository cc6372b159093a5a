/** Disks that fail: what was kept before stays kept, what can't be kept is refused in a sentence, and all goes on afterwards. */
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Book, Change } from '#book';
import { readProject, writeProject } from '#project';
import { type OpenBook, Store } from '../../electron/store/index.ts';
import { JOURNAL_FILE } from '../../electron/store/journal.ts';
import { LOCK_FILE } from '../../electron/store/lock.ts';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { freshFolder } from '../e2e/command.ts';

/** How many more bytes the disk of the journal takes, whether it can be flushed, and what was seen of it. */
const disk = vi.hoisted(() => ({
  room: Number.POSITIVE_INFINITY,
  flushes: true,
  /** How many folders can still be flushed before one can't. */
  folders: Number.POSITIVE_INFINITY,
  failed: 0,
  renamed: 0,
}));

vi.mock('node:fs', async (original) => {
  const fs = await original<typeof import('node:fs')>();
  const full = (): Error => Object.assign(new Error('no space left'), { code: 'ENOSPC' });
  const failed = (): NodeJS.ErrnoException => Object.assign(new Error('input/output error'), { code: 'EIO' });
  return {
    ...fs,
    writeSync: (file: number, bytes: Uint8Array, at = 0): number => {
      if (disk.room <= 0) throw full();
      const written = fs.writeSync(file, bytes, at, Math.min(bytes.length - at, disk.room));
      disk.room -= written;
      return written;
    },
    fdatasync: (file: number, done: (problem: NodeJS.ErrnoException | null) => void): void => {
      if (disk.flushes) fs.fdatasync(file, done);
      else {
        disk.failed++;
        done(failed());
      }
    },
    fsyncSync: (file: number): void => {
      if (fs.fstatSync(file).isDirectory() && disk.folders-- === 0) throw failed();
      fs.fsyncSync(file);
    },
    renameSync: (from: string, to: string): void => {
      disk.renamed++;
      fs.renameSync(from, to);
    },
  };
});

const START = (): Book => bookValue(book(chapter('One', p('A lamp.')), chapter('Two', p('A weir.'))));

const titled = (title: string): Change => ({ kind: 'setMetadata', set: { title } });

let folder: string;
let data: string;
let path: string;

beforeEach(() => {
  folder = freshFolder();
  data = join(folder, 'data');
  path = join(folder, 'harbour.reglet');
  writeFileSync(path, writeProject(START()));
});

afterEach(() => {
  disk.room = Number.POSITIVE_INFINITY;
  disk.flushes = true;
  disk.folders = Number.POSITIVE_INFINITY;
  disk.failed = 0;
});

const store = (): Store => new Store({ folder: data, now: () => Date.now() });

async function opened(): Promise<OpenBook> {
  const result = await store().open(path);
  if (!result.ok) throw new RangeError(result.problem);
  return result.value;
}

function journalOf(open: OpenBook): string {
  return join(data, 'journals', open.id, JOURNAL_FILE);
}

/** What the next run of the program brings back. */
async function broughtBack(open: OpenBook): Promise<Book> {
  await open.settled();
  rmSync(join(data, 'journals', open.id, LOCK_FILE));
  const back = await store().recover(open.id);
  if (!back.ok) throw new RangeError(back.problem);
  await back.value.close(false);
  return back.value.book;
}

describe('a journal on a full disk', () => {
  it('refuses the change, and keeps what came before and what comes after', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    await open.settled();
    const length = statSync(journalOf(open)).size;
    for (const room of [0, 3, 40]) {
      disk.room = room;
      const refused = open.apply([titled('Two'), titled('Three')]);
      expect(refused).toEqual({
        ok: false,
        problem: "The change was not made, since its journal can't be kept: the disk is full.",
      });
      expect([open.book.metadata.title, open.version]).toEqual(['One', 1]);
      expect(statSync(journalOf(open)).size).toBe(length);
    }
    disk.room = Number.POSITIVE_INFINITY;
    expect(open.apply([titled('Four')])).toEqual({ ok: true, value: 2 });
    expect((await broughtBack(open)).metadata.title).toBe('Four');
  });

  it('refuses the first change too, and leaves the book as it is', async () => {
    const open = await opened();
    disk.room = 10;
    expect(open.apply([titled('One')])).toMatchObject({ ok: false });
    expect([open.book.metadata.title, open.dirty]).toEqual([START().metadata.title, false]);
    disk.room = Number.POSITIVE_INFINITY;
    expect(open.apply([titled('Two')])).toEqual({ ok: true, value: 1 });
    expect((await broughtBack(open)).metadata.title).toBe('Two');
  });

  it.each([0, 1])(
    'whose folders can not be flushed is begun anew, with a copy of what it begins from: %i',
    async (before) => {
      const open = await opened();
      disk.folders = before;
      expect(open.apply([titled('One')])).toMatchObject({ ok: false });
      expect([open.book.metadata.title, open.dirty]).toEqual([START().metadata.title, false]);
      disk.folders = Number.POSITIVE_INFINITY;
      expect(open.apply([titled('Two')])).toEqual({ ok: true, value: 1 });
      await open.settled();
      expect(readdirSync(join(data, 'journals', open.id)).filter((name) => name.startsWith('base-'))).toHaveLength(1);
      expect((await broughtBack(open)).metadata.title).toBe('Two');
    },
  );

  it('does not stand in the way of a save', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    await open.settled();
    disk.room = 0;
    expect(await open.save()).toEqual({ ok: true, value: { kind: 'saved' } });
    const read = readProject(readFileSync(path));
    expect(read.ok && read.value.metadata.title).toBe('One');
    await open.close(false);
    expect(await store().unsaved()).toEqual([]);
  });

  it('lets no book in that it could not keep', async () => {
    disk.room = 0;
    const refused = await store().adopt(START());
    expect(refused).toMatchObject({ ok: false, problem: expect.stringMatching(/^The book was not opened.*full\.$/) });
    expect(readdirSync(join(data, 'journals'))).toEqual([]);
  });
});

describe('a disk that can not be flushed', () => {
  it('has the journal written anew with the next change', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    await open.settled();
    disk.flushes = false;
    open.apply([titled('Two')]);
    await vi.waitFor(() => expect(disk.failed).toBe(1));
    disk.flushes = true;
    const before = disk.renamed;
    open.apply([titled('Three')]);
    open.apply([titled('Four')]);
    expect(disk.renamed).toBe(before + 1);
    expect((await broughtBack(open)).metadata.title).toBe('Four');
  });
});

describe('places that can not be written', () => {
  it('a file that is marked as not to be written is left alone', async () => {
    chmodSync(path, 0o444);
    const open = await opened();
    open.apply([titled('One')]);
    const before = readFileSync(path);
    expect(await open.save()).toEqual({
      ok: false,
      problem: 'harbour.reglet could not be saved: it is marked as not to be written.',
    });
    expect(readFileSync(path)).toEqual(before);
    expect(await open.save(join(folder, 'other.reglet'))).toEqual({ ok: true, value: { kind: 'saved' } });
    await open.close(false);
  });

  it('a file where the journals should be is no reason to crash', async () => {
    mkdirSync(data);
    writeFileSync(join(data, 'journals'), 'a letter');
    expect(await store().adopt(START())).toMatchObject({ ok: false });
    const open = await opened();
    expect(open.apply([titled('One')])).toMatchObject({ ok: false, problem: expect.stringMatching(/\.$/) });
    expect(await store().unsaved()).toEqual([]);
    expect(existsSync(path)).toBe(true);
  });

  it('an earlier state that can not be kept stops no save of our own, but one over what others wrote', async () => {
    mkdirSync(data);
    writeFileSync(join(data, 'backups'), 'a letter');
    const open = await opened();
    open.apply([titled('One')]);
    expect(await open.save()).toEqual({ ok: true, value: { kind: 'saved' } });
    const theirs = writeProject({ ...START(), metadata: { ...START().metadata, title: 'Theirs' } });
    writeFileSync(path, theirs);
    open.apply([titled('Two')]);
    expect(await open.save(null, true)).toMatchObject({ ok: false });
    expect(new Uint8Array(readFileSync(path))).toEqual(theirs);
    await open.close(true);
  });
});
