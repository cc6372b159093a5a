/** What is kept of books beside their files: earlier states, copies of bases, and what is cleared away again. */
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeEach, describe, expect, it } from 'vitest';
import { assetIdOf } from '#base';
import { assetRecord } from '#book';
import { projectState, VERSION, writeProject } from '#project';
import { sweepBeside } from '../../electron/store/atomic.ts';
import { Backups } from '../../electron/store/backups.ts';
import { type OpenBook, Store } from '../../electron/store/index.ts';
import { JOURNAL_FILE } from '../../electron/store/journal.ts';
import { LOCK_FILE } from '../../electron/store/lock.ts';
import { recordOf } from '../../electron/store/records.ts';
import { freshFolder } from '../e2e/command.ts';
import { gained, START, titled, titleIn } from './shelf.ts';

let folder: string;
let data: string;
let path: string;
let clock: number;

beforeEach(() => {
  folder = freshFolder();
  data = join(folder, 'data');
  path = join(folder, 'harbour.reglet');
  clock = Date.now();
  writeFileSync(path, writeProject(START()));
});

const store = (): Store => new Store({ folder: data, now: () => clock });

async function opened(at = path, from = store()): Promise<OpenBook> {
  return gained(await from.open(at));
}

/** The program is gone, and what it held is free. */
async function crashed(open: OpenBook): Promise<void> {
  await open.settled();
  rmSync(join(data, 'journals', open.id, LOCK_FILE));
}

describe('earlier states', () => {
  it('are the same whichever link leads to the book', async () => {
    const link = join(folder, 'link.reglet');
    symlinkSync(path, link);
    const open = await opened(link);
    open.apply([titled('One')]);
    await open.save();
    const [through, straight] = [await store().backups(link), await store().backups(path)];
    expect(through).toHaveLength(1);
    expect(straight).toEqual(through);
    await open.close(false);
  });

  it('take no more room than they may, though the newest is always kept', async () => {
    const size = statSync(path).size;
    const backups = new Backups(join(data, 'backups'), 2.5 * size);
    for (const minute of [1, 2, 3, 4]) {
      utimesSync(path, new Date(minute * 60_000), new Date(minute * 60_000));
      await backups.keep(path);
    }
    expect((await backups.list(path)).map(({ savedAt }) => savedAt)).toEqual([240_000, 180_000]);
    const tight = new Backups(join(data, 'tight'), size / 2);
    await tight.keep(path);
    expect(await tight.list(path)).toHaveLength(1);
  });

  it('are not pushed out by saves that have nothing new', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    await open.save();
    const before = statSync(path, { bigint: true });
    expect(await open.save()).toEqual({ ok: true, value: { kind: 'saved' } });
    const after = statSync(path, { bigint: true });
    expect([after.ino, after.mtimeNs]).toEqual([before.ino, before.mtimeNs]);
    expect(await store().backups(path)).toHaveLength(1);
    rmSync(path);
    await open.save();
    expect(titleIn(path)).toBe('One');
    await open.close(false);
  });
});

describe('what is left', () => {
  it('can be taken up by one program only', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    await crashed(open);
    const [first, second] = await Promise.all([store().recover(open.id), store().recover(open.id)]);
    expect([first.ok, second.ok].sort()).toEqual([false, true]);
    const refused = first.ok ? second : first;
    expect(refused).toMatchObject({ problem: 'This unsaved work is open in another window.' });
  });

  it('is cleared away where the file holds all of it, but not while someone may be taking it', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    await open.settled();
    const journal = join(data, 'journals', open.id);
    const copy = join(folder, 'copy');
    mkdirSync(copy);
    const names = readdirSync(journal).filter((name) => name !== LOCK_FILE);
    for (const name of names) writeFileSync(join(copy, name), readFileSync(join(journal, name)));
    await open.close(true);
    const empty = join(data, 'journals', 'empty');
    mkdirSync(empty);
    expect(await store().unsaved()).toEqual([]);
    expect(existsSync(empty)).toBe(true);
    clock += 120_000;
    expect(await store().unsaved()).toEqual([]);
    expect(existsSync(empty)).toBe(false);
    mkdirSync(journal);
    for (const name of names) writeFileSync(join(journal, name), readFileSync(join(copy, name)));
    clock += 120_000;
    expect(await store().unsaved()).toHaveLength(1);
    expect(existsSync(journal)).toBe(true);
  });

  it('of a newer version, or spoilt from its first bytes, is neither offered nor thrown away', async () => {
    const strange = join(data, 'journals', 'strange');
    mkdirSync(strange, { recursive: true });
    writeFileSync(join(strange, 'changes.journal'), 'not a journal of ours');
    clock += 120_000;
    expect(await store().unsaved()).toEqual([]);
    expect(await store().recover('strange')).toMatchObject({ ok: false });
    expect(existsSync(strange)).toBe(true);
  });

  it('begins from what the author saw, though the file was changed before the first change', async () => {
    const open = await opened();
    writeFileSync(path, writeProject({ ...START(), metadata: { ...START().metadata, title: 'Theirs' } }));
    open.apply([{ kind: 'setMetadata', set: { subtitle: 'Mine' } }]);
    await crashed(open);
    const back = await store().recover(open.id);
    expect(back.ok && back.value.book.metadata).toMatchObject({ title: START().metadata.title, subtitle: 'Mine' });
    expect(titleIn(path)).toBe('Theirs');
  });

  it('knows the file of a first save that was stopped before the journal could end', async () => {
    const adopted = await store().adopt(START());
    if (!adopted.ok) throw new RangeError(adopted.problem);
    const open = adopted.value;
    open.apply([titled('One')]);
    await open.settled();
    const journal = join(data, 'journals', open.id);
    const before = new Map(readdirSync(journal).map((name) => [name, readFileSync(join(journal, name))]));
    const other = join(folder, 'first.reglet');
    await open.save(other);
    const records = [
      { kind: 'saving', version: 1, path: other, state: projectState(readFileSync(other)) },
      { kind: 'change', version: 2, at: clock, change: titled('Two') },
    ];
    mkdirSync(journal);
    for (const [name, bytes] of before) if (name !== LOCK_FILE) writeFileSync(join(journal, name), bytes);
    appendFileSync(join(journal, JOURNAL_FILE), Buffer.concat(records.map(recordOf)));
    expect(await store().unsaved()).toMatchObject([{ path: other, changes: 1, fileChanged: false }]);
    const back = await store().recover(open.id);
    if (!back.ok) throw new RangeError(back.problem);
    expect(await back.value.save()).toEqual({ ok: true, value: { kind: 'saved' } });
    expect(titleIn(other)).toBe('Two');
    await back.value.close(false);
  });

  it('holds the pictures that were brought in', async () => {
    const bytes = new Uint8Array(50_000).map((_, at) => at * 11);
    const facts = { id: assetIdOf(bytes), mediaType: 'image/png', name: 'weir.png', pixels: null };
    const open = await opened();
    open.apply([{ kind: 'putAsset', asset: assetRecord({ ...facts, bytes }) }]);
    await open.save();
    open.apply([titled('One')]);
    await crashed(open);
    const back = await store().recover(open.id);
    expect(back.ok && back.value.book.assets.get(facts.id)?.bytes).toEqual(bytes);
    expect(back.ok && back.value.book.metadata.title).toBe('One');
  });
});

describe('changes made while a save is under way', () => {
  it('are in the journal that begins with it', async () => {
    const open = await opened();
    open.apply([titled('0')]);
    const saving = { under: true };
    const saved = open.save().finally(() => {
      saving.under = false;
    });
    let last = 0;
    for (; saving.under; await setImmediate()) open.apply([titled(String(++last))]);
    await saved;
    open.apply([titled(String(++last))]);
    const inFile = Number(titleIn(path));
    expect([inFile < last, open.dirty]).toEqual([true, true]);
    await crashed(open);
    expect(readdirSync(join(data, 'journals', open.id)).filter((name) => name.startsWith('base-'))).toHaveLength(1);
    expect(await store().unsaved()).toMatchObject([{ changes: last - inFile, fileChanged: false }]);
    const back = await store().recover(open.id);
    expect(back.ok && back.value.book.metadata.title).toBe(String(last));
  });
});

describe('a file that a newer version wrote', () => {
  const newer = (title: string): Uint8Array => {
    const entries = unzipSync(writeProject({ ...START(), metadata: { ...START().metadata, title } }));
    const manifest = JSON.parse(strFromU8(entries['manifest.json'] ?? new Uint8Array())) as object;
    return zipSync({ ...entries, 'manifest.json': strToU8(JSON.stringify({ ...manifest, version: VERSION + 1 })) });
  };

  it('is refused in a sentence, and not touched', async () => {
    const bytes = newer('Theirs');
    writeFileSync(path, bytes);
    expect(await store().open(path)).toEqual({
      ok: false,
      problem: `harbour.reglet: This book was saved by a newer version of Reglet (format ${VERSION + 1}; this version reads up to ${VERSION}).`,
    });
    expect(new Uint8Array(readFileSync(path))).toEqual(bytes);
    expect(readdirSync(folder)).toEqual(['harbour.reglet']);
  });

  it('is not saved over unasked, and what was left of ours still comes back', async () => {
    const open = await opened();
    open.apply([titled('Mine')]);
    writeFileSync(path, newer(START().metadata.title));
    expect(await open.save()).toMatchObject({ ok: true, value: { kind: 'changedOutside' } });
    const bytes = newer('Theirs');
    writeFileSync(path, bytes);
    expect(await open.save()).toMatchObject({ ok: true, value: { kind: 'changedOutside' } });
    await crashed(open);
    const back = await store().recover(open.id);
    expect(back.ok && back.value.book.metadata.title).toBe('Mine');
    expect(new Uint8Array(readFileSync(path))).toEqual(bytes);
  });
});

describe('what a stopped save left beside a book', () => {
  it('is swept when it is old, and nothing else', async () => {
    const names = [
      '.harbour.reglet.0123456789ab.part',
      '.harbour.reglet.fresh.part',
      '.other.reglet.0123456789ab.part',
    ];
    for (const name of names) writeFileSync(join(folder, name), 'x');
    await sweepBeside(path, clock);
    expect(names.filter((name) => existsSync(join(folder, name)))).toEqual(names);
    await sweepBeside(path, clock + 2 * 60 * 60 * 1000);
    expect(names.filter((name) => existsSync(join(folder, name)))).toEqual(names.slice(1));
  });
});
