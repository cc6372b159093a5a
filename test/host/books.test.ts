/** Books through the host's calls: opened, changed, saved, with conflicts found and pictures kept. */
import { readFileSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { assetIdOf } from '#base';
import { type Asset, assetRecord, type Change, newBook } from '#book';
import { bookOfMessage } from '#host';
import { readProject, writeProject } from '#project';
import { book, chapter, p } from '../builders/book.ts';
import { type Hosted, hosted, problem, value } from './hosting.ts';

const BYTES = new Uint8Array([137, 80, 78, 71, 13, 10, 26, 10, 1, 2, 3]);
const PICTURE: Asset = { id: assetIdOf(BYTES), bytes: BYTES, mediaType: 'image/png', name: 'weir.png', pixels: null };

function bookBytes(title = 'The Weir'): Uint8Array {
  const sections = [...book(chapter('One', p('The lamp was lit.'))).children];
  return writeProject(newBook({ metadata: { title }, sections, assets: new Map([[PICTURE.id, PICTURE]]) }));
}

async function withBook(): Promise<Hosted & { readonly path: string; readonly session: string }> {
  const given = await hosted();
  const path = join(given.folder, 'weir.reglet');
  writeFileSync(path, bookBytes());
  const opened = value(await given.call('openBook', { source: { path } }));
  return { ...given, path, session: opened.session };
}

const retitled = (title: string): Change => ({ kind: 'setMetadata', set: { title } });

function titleIn(path: string): string {
  return value(readProject(new Uint8Array(readFileSync(path)))).metadata.title;
}

describe('a book', () => {
  it('is opened with its text and without the bytes of its pictures', async () => {
    const { call, path } = await withBook();
    const opened = value(await call('openBook', { source: { path } }));
    const mirror = bookOfMessage(opened.book);
    expect(mirror.metadata.title).toBe('The Weir');
    expect(mirror.text.textContent).toContain('The lamp was lit.');
    expect(mirror.assets.get(PICTURE.id)?.bytes).toHaveLength(0);
    expect(opened.kept).toMatchObject({ path, dirty: false });
  });

  it('is changed, saved and told of', async () => {
    const { call, session, path, heard } = await withBook();
    expect(value(await call('change', { session, version: 0, changes: [retitled('High Water')] }))).toEqual({
      version: 1,
    });
    expect(await heard('kept')).toMatchObject({ session, version: 1, kept: { path, dirty: true } });
    expect(titleIn(path)).toBe('The Weir');
    const saved = value(await call('save', { session, path: null, overwrite: false }));
    expect(saved).toMatchObject({ kind: 'saved', kept: { path, dirty: false } });
    expect(titleIn(path)).toBe('High Water');
  });

  it('refuses changes that were made to another state of it, and keeps none of a group that fails', async () => {
    const { call, session } = await withBook();
    problem(await call('change', { session, version: 7, changes: [retitled('Never')] }));
    const some = [retitled('Half'), { kind: 'dropSection', section: 'nowhere' } as const];
    problem(await call('change', { session, version: 0, changes: some }));
    value(await call('change', { session, version: 0, changes: [retitled('Whole')] }));
  });

  it('is dated by its last change when it is saved, and only then', async () => {
    let clock = 1_700_000_000_500;
    const { call, folder } = await hosted({ now: () => clock });
    const source = { name: 'x.reglet', bytes: bookBytes() };
    const { session } = value(await call('openBook', { source }));
    const path = join(folder, 'x.reglet');
    const dateIn = (): number | null => value(readProject(new Uint8Array(readFileSync(path)))).metadata.modified;
    value(await call('save', { session, path, overwrite: false }));
    expect(dateIn()).toBeNull();
    value(await call('change', { session, version: 0, changes: [retitled('One')] }));
    clock += 60_000;
    value(await call('save', { session, path: null, overwrite: false }));
    expect(dateIn()).toBe(1_700_000_000);
    // The window goes on counting its own changes.
    value(await call('change', { session, version: 1, changes: [retitled('Two')] }));
    value(await call('save', { session, path: null, overwrite: false }));
    expect(dateIn()).toBe(1_700_000_060);
  });

  it('that was never saved asks for a place, named after its title', async () => {
    const { call, folder } = await hosted();
    const { session } = value(
      await call('openBook', { source: { name: 'x.reglet', bytes: bookBytes('Tide / Weir: a novel?') } }),
    );
    const reply = value(await call('save', { session, path: null, overwrite: false }));
    expect(reply).toEqual({ kind: 'needsPath', suggested: join(folder, 'Tide   Weir  a novel.reglet') });
    const saved = value(await call('save', { session, path: join(folder, 'tide'), overwrite: false }));
    expect(saved).toMatchObject({ kind: 'saved', kept: { path: join(folder, 'tide.reglet') } });
  });

  it('is saved where the system’s dialog says, or not at all', async () => {
    let chosen: string | null = null;
    const { call, folder } = await hosted({ dialogs: 'native', choosePath: async () => chosen });
    const { session } = value(await call('openBook', { source: { name: 'x.reglet', bytes: bookBytes() } }));
    expect(value(await call('saveAs', { session }))).toEqual({ kind: 'cancelled' });
    chosen = join(folder, 'chosen.reglet');
    const first = await call('save', { session, path: null, overwrite: false });
    expect(value(first)).toMatchObject({ kind: 'saved' });
    expect(titleIn(chosen)).toBe('The Weir');
    // The dialog knew nothing of the ending that is added, so it did not ask about this file.
    chosen = join(folder, 'chosen');
    expect(value(await call('saveAs', { session }))).toMatchObject({ kind: 'changedOutside' });
  });

  it('that is closed is no longer known', async () => {
    const { call, session } = await withBook();
    value(await call('close', { session, discard: false }));
    problem(await call('change', { session, version: 0, changes: [] }));
  });

  it('does not take the place of another file until the person says so', async () => {
    const { call, session, folder } = await withBook();
    const other = join(folder, 'other.reglet');
    writeFileSync(other, bookBytes('Other'));
    const reply = value(await call('save', { session, path: other, overwrite: false }));
    expect(reply).toMatchObject({ kind: 'changedOutside', path: other });
    expect(titleIn(other)).toBe('Other');
    expect(value(await call('save', { session, path: other, overwrite: true }))).toMatchObject({ kind: 'saved' });
    expect(titleIn(other)).toBe('The Weir');
  });

  it('that was not saved is offered to the next window, and goes on from there', async () => {
    const { call, session, path } = await withBook();
    value(await call('change', { session, version: 0, changes: [retitled('One'), retitled('Two')] }));
    const [work] = (await call('start', {})).unsaved;
    expect(work).toMatchObject({ path, changes: 2, fileChanged: false });
    const again = value(await call('recover', { id: work?.id ?? '' }));
    expect(bookOfMessage(again.book).metadata.title).toBe('Two');
    expect(again.kept).toMatchObject({ path, dirty: true });
    const next = { session: again.session, version: 0, changes: [retitled('Three')] };
    expect(value(await call('change', next))).toEqual({ version: 1 });
    value(await call('save', { session: again.session, path: null, overwrite: false }));
    expect(titleIn(path)).toBe('Three');
    expect((await call('start', {})).unsaved).toEqual([]);
  });

  it('that was given up is not offered', async () => {
    const { call, session } = await withBook();
    value(await call('change', { session, version: 0, changes: [retitled('One')] }));
    value(await call('close', { session, discard: true }));
    expect((await call('start', {})).unsaved).toEqual([]);
  });

  it('has its earlier states at hand', async () => {
    const { call, session } = await withBook();
    for (const [version, title] of ['One', 'Two'].entries()) {
      value(await call('change', { session, version, changes: [retitled(title)] }));
      value(await call('save', { session, path: null, overwrite: false }));
    }
    const backups = value(await call('backups', { session }));
    expect(backups).toHaveLength(2);
    const earlier = value(await call('openBackup', { session, id: backups[0]?.id ?? '' }));
    expect(bookOfMessage(earlier.book).metadata.title).toBe('One');
    expect(earlier.kept.path).toBeNull();
  });

  it('is closed when a new window begins', async () => {
    const { call, session } = await withBook();
    await call('start', {});
    problem(await call('save', { session, path: null, overwrite: false }));
  });
});

describe('a file that someone else changed', () => {
  it('is not saved over until the person says so', async () => {
    const { call, session, path } = await withBook();
    value(await call('change', { session, version: 0, changes: [retitled('Ours')] }));
    writeFileSync(path, bookBytes('Theirs, which is longer'));
    const reply = value(await call('save', { session, path: null, overwrite: false }));
    expect(reply).toMatchObject({ kind: 'changedOutside', path });
    expect(titleIn(path)).toBe('Theirs, which is longer');
    expect(value(await call('save', { session, path: null, overwrite: true }))).toMatchObject({ kind: 'saved' });
    expect(titleIn(path)).toBe('Ours');
  });

  it('is told of; our own saves are not', async () => {
    const { call, session, path, heard, events } = await withBook();
    value(await call('change', { session, version: 0, changes: [retitled('Ours')] }));
    value(await call('save', { session, path: null, overwrite: false }));
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(events.map((event) => event.kind)).not.toContain('changedOutside');
    writeFileSync(path, bookBytes('Theirs'));
    utimesSync(path, 1, 1);
    expect(await heard('changedOutside')).toMatchObject({ session, path, modifiedAt: 1000 });
  });
});

describe('a file that was replaced or went away', () => {
  it('is told of as a synchronised folder brings it', async () => {
    const { session, path, heard } = await withBook();
    writeFileSync(`${path}.incoming`, bookBytes('Theirs'));
    renameSync(`${path}.incoming`, path);
    expect(await heard('changedOutside')).toMatchObject({ session, path });
  });

  it('is written again where it went away', async () => {
    const { call, session, path } = await withBook();
    value(await call('change', { session, version: 0, changes: [retitled('Ours')] }));
    rmSync(path);
    expect(value(await call('save', { session, path: null, overwrite: false }))).toMatchObject({ kind: 'saved' });
    expect(titleIn(path)).toBe('Ours');
  });

  it('with its folder costs no change, and saving says so in one sentence', async () => {
    const { call, session, path, folder } = await withBook();
    rmSync(folder, { recursive: true });
    value(await call('change', { session, version: 0, changes: [retitled('Ours')] }));
    expect(problem(await call('save', { session, path: null, overwrite: false }))).toContain(folder);
    const elsewhere = join(tmpdir(), `${session}-${basename(path)}`);
    expect(value(await call('save', { session, path: elsewhere, overwrite: true }))).toMatchObject({ kind: 'saved' });
    rmSync(elsewhere);
  });
});

describe('a picture', () => {
  const dropped: Change = { kind: 'dropAsset', asset: PICTURE.id };
  const withoutBytes: Change = { kind: 'putAsset', asset: { ...assetRecord(PICTURE), base64: '' } };

  it('comes back with its bytes when the window undoes its loss, alone or in a group', async () => {
    const { call, session, path } = await withBook();
    value(await call('change', { session, version: 0, changes: [dropped] }));
    value(await call('change', { session, version: 1, changes: [{ kind: 'group', changes: [withoutBytes] }] }));
    value(await call('save', { session, path: null, overwrite: false }));
    const saved = value(readProject(new Uint8Array(readFileSync(path))));
    expect(saved.assets.get(PICTURE.id)?.bytes).toEqual(BYTES);
  });

  it('that the book never had is refused in one sentence', async () => {
    const { call, session } = await withBook();
    const strange: Change = { kind: 'putAsset', asset: { ...assetRecord(PICTURE), id: 'f'.repeat(64), base64: '' } };
    expect(problem(await call('change', { session, version: 0, changes: [strange] }))).toContain('weir.png');
    value(await call('change', { session, version: 0, changes: [dropped] }));
  });

  it('is served by its hash to the session that has it, even after it was dropped, and can do nothing', async () => {
    const { call, session, host } = await withBook();
    value(await call('change', { session, version: 0, changes: [dropped] }));
    const served = await host.serve(`/asset/${session}/${PICTURE.id}`);
    expect(served).toMatchObject({ status: 200, headers: { 'content-type': 'image/png' } });
    expect(served.body).toEqual(BYTES);
    expect(served.headers['content-security-policy']).toContain('sandbox');
    expect((await host.serve(`/asset/another/${PICTURE.id}`)).status).toBe(404);
    expect((await host.serve(`/asset/${session}/${'0'.repeat(64)}`)).status).toBe(404);
  });
});

describe('recent books', () => {
  it('are listed newest first, with their fore-edge, and say when a file is gone', async () => {
    const { call, session, path, folder } = await withBook();
    await call('noteForeEdge', { session, pages: [4, 12.5, 9] });
    const other = join(folder, 'other.reglet');
    writeFileSync(other, bookBytes('Other'));
    value(await call('openBook', { source: { path: other } }));
    value(await call('save', { session, path: join(folder, 'third.reglet'), overwrite: false }));
    const recent = await call('recentBooks', {});
    expect(recent.map((each) => [each.path, each.foreEdge, each.found])).toEqual([
      [join(folder, 'third.reglet'), [4, 12.5, 9], true],
      [other, [], true],
      [path, [4, 12.5, 9], true],
    ]);
    expect((await call('forgetRecent', { path: other })).map((each) => each.title)).toEqual(['The Weir', 'The Weir']);
  });

  it('outlive the program', async () => {
    const { call, appData, host, path } = await withBook();
    await host.close();
    const next = await hosted({ appData });
    expect((await next.call('start', {})).recent.map((each) => each.path)).toEqual([path]);
    expect(await call('recentBooks', {})).toHaveLength(1);
  });
});
