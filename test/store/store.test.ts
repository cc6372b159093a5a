/** Books on disk: nothing is lost by a crash, nothing half written, and what others do to the file is noticed. */
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Book } from '#book';
import { projectState, writeProject } from '#project';
import { KEPT_STATES } from '../../electron/store/backups.ts';
import { type OpenBook, Store } from '../../electron/store/index.ts';
import { JOURNAL_FILE } from '../../electron/store/journal.ts';
import { LOCK_FILE } from '../../electron/store/lock.ts';
import { readRecords, recordOf } from '../../electron/store/records.ts';
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

/** A store as a new run of the program has it. */
const store = (): Store => new Store({ folder: data, now: () => clock });

async function opened(from: Store = store(), at = path): Promise<OpenBook> {
  return gained(await from.open(at));
}

async function adopted(value: Book, from: Store = store()): Promise<OpenBook> {
  return gained(await from.adopt(value));
}

/** The program is gone: what it held is free. The book is not closed, as after a crash. */
async function crashed(book: OpenBook): Promise<void> {
  await book.settled();
  for (const id of readdirSync(join(data, 'journals'))) rmSync(join(data, 'journals', id, LOCK_FILE), { force: true });
}

/** The one journal that was left. */
async function left(): Promise<{
  id: string;
  title: string;
  changes: number;
  fileChanged: boolean;
  path: string | null;
}> {
  const all = await store().unsaved();
  expect(all).toHaveLength(1);
  if (!all[0]) throw new RangeError('nothing was left');
  return all[0];
}

async function recovered(): Promise<OpenBook> {
  return gained(await store().recover((await left()).id));
}

describe('a saved book', () => {
  it('is written whole, keeps earlier states, and leaves nothing beside it', async () => {
    const open = await opened();
    for (let at = 1; at <= KEPT_STATES + 3; at++) {
      open.apply([titled(`State ${at}`)]);
      expect(await open.save()).toEqual({ ok: true, value: { kind: 'saved' } });
      expect([titleIn(path), open.dirty]).toEqual([`State ${at}`, false]);
    }
    const backups = await store().backups(path);
    expect(backups).toHaveLength(KEPT_STATES);
    const titles = await Promise.all(
      backups.map(async ({ id }) => {
        const earlier = await store().openBackup(path, id);
        return earlier.ok ? earlier.value.book.metadata.title : earlier.problem;
      }),
    );
    expect(titles.sort()).toEqual(Array.from({ length: KEPT_STATES }, (_, at) => `State ${at + 3}`));
    await open.close(false);
    expect(readdirSync(folder).sort()).toEqual(['data', 'harbour.reglet']);
  });

  it('stays behind its link', async () => {
    const link = join(folder, 'link.reglet');
    symlinkSync(path, link);
    const open = await opened(store(), link);
    open.apply([titled('Linked')]);
    await open.save();
    expect([lstatSync(link).isSymbolicLink(), titleIn(path)]).toEqual([true, 'Linked']);
    await open.close(false);
  });

  it('is not touched where the save fails, and the changes stay in the journal', async () => {
    const open = await opened();
    open.apply([titled('New')]);
    const before = readFileSync(path);
    const gone = join(folder, 'missing', 'book.reglet');
    const saved = await open.save(gone);
    expect(saved).toEqual({
      ok: false,
      problem: `book.reglet could not be saved: the folder ${join(folder, 'missing')} is not there.`,
    });
    mkdirSync(join(folder, 'a.reglet'));
    expect((await open.save(join(folder, 'a.reglet'))).ok).toBe(false);
    expect(readFileSync(path)).toEqual(before);
    expect([open.dirty, open.path]).toEqual([true, path]);
    expect(readdirSync(folder).sort()).toEqual(['a.reglet', 'data', 'harbour.reglet']);
    await crashed(open);
    expect((await recovered()).book.metadata.title).toBe('New');
  });

  it('says when someone else changed the file, and can still be saved over it', async () => {
    const open = await opened();
    open.apply([titled('Mine')]);
    writeFileSync(path, writeProject({ ...START(), metadata: { ...START().metadata, title: 'Theirs' } }));
    expect(await open.save()).toMatchObject({ ok: true, value: { kind: 'changedOutside', path } });
    expect(titleIn(path)).toBe('Theirs');
    expect(await open.save(null, true)).toEqual({ ok: true, value: { kind: 'saved' } });
    expect(titleIn(path)).toBe('Mine');
    const [theirs] = await store().backups(path);
    const kept = await store().openBackup(path, theirs?.id ?? '');
    expect(kept.ok && kept.value.book.metadata.title).toBe('Theirs');
    await open.close(false);
  });

  it('is not taken for changed when it was only touched', async () => {
    const open = await opened();
    open.apply([titled('Mine')]);
    utimesSync(path, new Date(1e12), new Date(1e12));
    expect(await open.changedOutside()).toBeNull();
    expect(await open.save()).toEqual({ ok: true, value: { kind: 'saved' } });
    await open.close(false);
  });

  it('does not replace another file unasked', async () => {
    const open = await opened();
    const other = join(folder, 'other.reglet');
    writeFileSync(other, 'a letter');
    expect(await open.save(other)).toMatchObject({ ok: true, value: { kind: 'changedOutside', path: other } });
    expect(readFileSync(other, 'utf8')).toBe('a letter');
    await open.close(false);
  });

  it('keeps the permissions of its file', async () => {
    chmodSync(path, 0o640);
    const open = await opened();
    open.apply([titled('New')]);
    await open.save();
    expect(statSync(path).mode & 0o777).toBe(0o640);
    await open.close(false);
  });
});

describe('after a crash', () => {
  it('every change is offered and comes back, and can be saved to the same file', async () => {
    const open = await opened();
    open.apply([titled('One'), titled('Two')]);
    open.apply([titled('Three')]);
    await crashed(open);
    expect(await left()).toMatchObject({ title: START().metadata.title, path, changes: 3, fileChanged: false });
    const back = await recovered();
    expect([back.book.metadata.title, back.dirty, back.path]).toEqual(['Three', true, path]);
    back.apply([titled('Four')]);
    await crashed(back);
    const again = await recovered();
    expect(again.book.metadata.title).toBe('Four');
    await again.save();
    expect(titleIn(path)).toBe('Four');
    await again.close(false);
    expect(await store().unsaved()).toEqual([]);
  });

  it('a book that was never saved comes back, even without a change', async () => {
    const imported = await adopted(START());
    await crashed(imported);
    const back = await recovered();
    expect(back.book.text.eq(START().text)).toBe(true);
    expect([back.path, back.dirty]).toEqual([null, true]);
    await back.save(join(folder, 'new.reglet'));
    await back.close(false);
    expect(await store().unsaved()).toEqual([]);
  });

  it('changes come back on the state that they were made on, though the file is another by now', async () => {
    const open = await opened();
    open.apply([titled('Mine')]);
    await crashed(open);
    writeFileSync(path, writeProject({ ...START(), metadata: { ...START().metadata, title: 'Theirs' } }));
    expect(await left()).toMatchObject({ changes: 1, fileChanged: true });
    const back = await recovered();
    expect(back.book.metadata.title).toBe('Mine');
    expect(await back.save()).toMatchObject({ ok: true, value: { kind: 'changedOutside' } });
    expect(titleIn(path)).toBe('Theirs');
    await back.close(true);
  });

  it('and when the file is gone', async () => {
    const open = await opened();
    open.apply([titled('Mine')]);
    await crashed(open);
    rmSync(path);
    expect((await recovered()).book.metadata.title).toBe('Mine');
  });

  it('a torn record is dropped, and only it', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    open.apply([titled('Two')]);
    await crashed(open);
    const [id = ''] = readdirSync(join(data, 'journals'));
    const journal = join(data, 'journals', id, JOURNAL_FILE);
    truncateSync(journal, statSync(journal).size - 3);
    const back = await recovered();
    expect(back.book.metadata.title).toBe('One');
    back.apply([titled('Three')]);
    await crashed(back);
    expect((await recovered()).book.metadata.title).toBe('Three');
  });

  it('work of a living program is not offered', async () => {
    const open = await opened();
    open.apply([titled('Mine')]);
    await open.settled();
    expect(await store().unsaved()).toEqual([]);
    clock += 61_000;
    expect(await store().unsaved()).toHaveLength(1);
    await open.close(true);
  });

  it('a save that was made before the journal could begin anew is known', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    await open.settled();
    const [id = ''] = readdirSync(join(data, 'journals'));
    const journal = join(data, 'journals', id, JOURNAL_FILE);
    const before = readFileSync(journal);
    await open.save();
    const saved = writeProject(open.book);
    mkdirSync(join(data, 'journals', id), { recursive: true });
    const saving = recordOf({ kind: 'saving', version: 1, path, state: projectState(saved) });
    const later = recordOf({ kind: 'change', version: 2, at: clock, change: titled('Two') });
    writeFileSync(journal, Buffer.concat([before, saving]));
    expect(await store().unsaved()).toEqual([]);
    writeFileSync(journal, Buffer.concat([before, saving, later]));
    expect(await left()).toMatchObject({ changes: 1, fileChanged: false });
    expect((await recovered()).book.metadata.title).toBe('Two');
  });

  it('may be given up', async () => {
    const open = await opened();
    open.apply([titled('Mine')]);
    await crashed(open);
    await store().discard((await left()).id);
    expect(await store().unsaved()).toEqual([]);
    expect(titleIn(path)).toBe(START().metadata.title);
    expect(await store().recover('../../etc')).toMatchObject({ ok: false });
    expect(await store().discard('..')).toMatchObject({ ok: false });
  });

  it('closing keeps what was not saved, unless it is given up', async () => {
    const open = await opened();
    open.apply([titled('Mine')]);
    await open.close(false);
    expect((await recovered()).book.metadata.title).toBe('Mine');
    const other = await opened();
    other.apply([titled('Other')]);
    await other.close(true);
    expect(readdirSync(join(data, 'journals'))).toHaveLength(1);
  });
});

describe('what cannot be', () => {
  it('a change that does not fit changes nothing, nor do those before it', async () => {
    const open = await opened();
    const refused = open.apply([titled('One'), { kind: 'dropSection', section: 'nowhere' }]);
    expect(refused.ok).toBe(false);
    expect([open.book.metadata.title, open.version, open.dirty]).toEqual([START().metadata.title, 0, false]);
    expect(existsSync(join(data, 'journals'))).toBe(false);
  });

  it('files that are no books are refused in a sentence', async () => {
    for (const [name, bytes] of [
      ['empty.reglet', ''],
      ['text.reglet', 'hello'],
    ] as const) {
      writeFileSync(join(folder, name), bytes);
      const refused = await store().open(join(folder, name));
      expect(refused).toMatchObject({ ok: false, problem: expect.stringMatching(new RegExp(`^${name}.*\\.$`)) });
    }
    expect(await store().open(join(folder, 'none.reglet'))).toEqual({
      ok: false,
      problem: 'none.reglet was not found.',
    });
    expect(await store().open(folder)).toMatchObject({ ok: false });
    expect(await store().open('/dev/zero')).toMatchObject({ ok: false });
    expect(await store().open('a\0b')).toMatchObject({ ok: false });
  });

  it('whatever a journal holds, it is offered or passed over', async () => {
    const open = await opened();
    open.apply([titled('One'), titled('Two')]);
    await crashed(open);
    const [id = ''] = readdirSync(join(data, 'journals'));
    const journal = join(data, 'journals', id, JOURNAL_FILE);
    const whole = readFileSync(journal);
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), fc.nat(255), fc.nat(whole.length), async (at, value, length) => {
        const spoilt = Uint8Array.from(whole).slice(0, length);
        if (at < spoilt.length) spoilt[at] = value;
        writeFileSync(journal, spoilt);
        for (const work of await store().unsaved()) expect(work.changes).toBeLessThanOrEqual(2);
      }),
      { numRuns: 150 },
    );
  });

  it('whole records that hold no change of this version end what comes back', async () => {
    const open = await opened();
    open.apply([titled('One')]);
    await crashed(open);
    const [id = ''] = readdirSync(join(data, 'journals'));
    const journal = join(data, 'journals', id, JOURNAL_FILE);
    const whole = readFileSync(journal);
    const kinds = ['editText', 'addSection', 'splitSection', 'putEdition', 'putAsset', 'group', 'unheardOf'];
    const strange = fc.oneof(
      fc.jsonValue(),
      fc.record({
        kind: fc.constantFrom(...kinds),
        steps: fc.jsonValue(),
        section: fc.jsonValue(),
        asset: fc.jsonValue(),
      }),
    );
    await fc.assert(
      fc.asyncProperty(strange, async (change) => {
        const record = recordOf({ kind: 'change', version: 2, at: clock, change });
        const later = recordOf({ kind: 'change', version: 3, at: clock, change: titled('Three') });
        writeFileSync(journal, Buffer.concat([whole, record, later]));
        expect((await left()).changes).toBeGreaterThan(0);
      }),
      { numRuns: 150 },
    );
    expect((await recovered()).path).toBe(path);
  });

  it('records are read to the first that is not whole', () => {
    fc.assert(
      fc.property(fc.array(fc.jsonValue(), { maxLength: 6 }), fc.nat(200), (values, cut) => {
        const bytes = Buffer.concat(values.map(recordOf));
        const records = readRecords(bytes.subarray(0, Math.max(0, bytes.length - cut)));
        const plain = JSON.parse(JSON.stringify(values)) as unknown[];
        expect(records.values).toEqual(plain.slice(0, records.values.length));
        if (cut === 0) expect(records.values).toHaveLength(values.length);
      }),
    );
  });
});
