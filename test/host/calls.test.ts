/** Every message of the window, malformed in every way: one sentence or a right answer, never a crash. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { newBook } from '#book';
import { CALLS, type CallName, type CallRequest, readCall } from '#host';
import { writeProject } from '#project';
import { type Hosted, hosted, problem, value } from './hosting.ts';

const NAMES = Object.keys(CALLS) as CallName[];

/** A right request of each call, to be spoilt. Paths that are written to lie in `folder`. */
function requests(session: string, folder: string): { readonly [Name in CallName]: CallRequest<Name> } {
  const path = join(folder, 'somewhere');
  return {
    start: {},
    setSettings: { appearance: 'dark', panels: { order: 240, proof: true } },
    openBook: { source: { path } },
    openDemo: {},
    importManuscript: { source: { path }, without: ['quote'] },
    importAgain: { session, without: [] },
    change: { session, version: 0, changes: [{ kind: 'setMetadata', set: { title: 'T' } }] },
    save: { session, path: join(folder, 'saved.reglet'), overwrite: false },
    saveAs: { session },
    close: { session, discard: false },
    recover: { id: 'nothing' },
    discardUnsaved: { id: 'nothing' },
    backups: { session },
    openBackup: { session, id: 'nothing' },
    export: { session, editions: ['none'], folder },
    cancelExport: { job: 'nothing' },
    exports: { session },
    recentBooks: {},
    forgetRecent: { path },
    noteForeEdge: { session, pages: [1, 2] },
    installedFonts: {},
    choosePath: { purpose: 'openBook', suggested: null },
    listFolder: { path: folder },
    readFile: { path: `${path}.png` },
    writeText: { path: `${path}.json`, text: '{}' },
    reveal: { path },
    openExternally: { path },
    menuState: { disabled: ['edit.undo'], on: ['view.copy'] },
    leave: {},
  };
}

const NASTY: readonly unknown[] = [
  null,
  undefined,
  true,
  -1,
  0.5,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  2 ** 60,
  '',
  '\0',
  '/tmp/a\0b',
  '../../etc/passwd',
  '/dev/zero',
  '/dev/stdin',
  '/proc/self/mem',
  'C:\\con',
  '__proto__',
  'constructor',
  '\ud800',
  'x'.repeat(100_000),
  [],
  [[]],
  {},
  { length: 1e9 },
  { kind: 'group', changes: 'all' },
  { kind: 'nothing' },
  { kind: 'putAsset' },
  { toString: 'no' },
  new Uint8Array(3),
  new Map([['a', 1]]),
  () => 1,
];

const nasty = fc.oneof(fc.constantFrom(...NASTY), fc.anything({ withBigInt: true, withTypedArray: true }));

/** All the ways into a value: the keys that lead to each of its parts. */
function waysInto(value: unknown, way: readonly string[] = []): (readonly string[])[] {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return [way];
  return [way, ...Object.entries(value).flatMap(([key, each]) => waysInto(each, [...way, key]))];
}

/** The value with the part at `way` replaced. */
function spoilt(value: unknown, [key, ...rest]: readonly string[], by: unknown): unknown {
  if (key === undefined) return by;
  const part = (value as Record<string, unknown>)[key];
  const replaced = spoilt(part, rest, by);
  if (!Array.isArray(value)) return { ...(value as object), [key]: replaced };
  return value.map((each, at) => (String(at) === key ? replaced : each));
}

async function opened(): Promise<Hosted & { readonly session: string }> {
  const given = await hosted({ program: '/nowhere' });
  const bytes = writeProject(newBook({ metadata: { title: 'T' }, sections: [] }));
  const { session } = value(await given.call('openBook', { source: { name: 'a.reglet', bytes } }));
  return { ...given, session };
}

describe('a message', () => {
  it('of any call with any one part spoilt is answered', async () => {
    const { host, session, folder } = await opened();
    const good = requests(session, folder);
    const spoiling = fc
      .constantFrom(...NAMES)
      .chain((name) =>
        fc.record({ name: fc.constant(name), way: fc.constantFrom(...waysInto(good[name])), by: nasty }),
      );
    await fc.assert(
      fc.asyncProperty(spoiling, async ({ name, way, by }) => {
        // What would close the session or start threads is read, but not carried out.
        const request = spoilt(good[name], way, by);
        const read = readCall(name, request);
        if (!read.ok) problem(read);
        else if (name !== 'start' && name !== 'close') await host.answer(name, request);
      }),
      { numRuns: 2_000 },
    );
    // The host still serves the session that it had.
    value((await host.answer('backups', { session })) as Parameters<typeof value>[0]);
  });

  it('of a name that is no call gets one sentence, whatever the name', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), nasty), fc.anything(), (name, request) => {
        if (typeof name === 'string' && NAMES.includes(name as CallName)) return;
        problem(readCall(name, request));
      }),
    );
    for (const name of ['__proto__', 'constructor', 'hasOwnProperty', 'toString']) problem(readCall(name, {}));
  });

  it('is the right request of every call', () => {
    const good = requests('s', '/tmp');
    for (const name of NAMES) expect([name, readCall(name, good[name]).ok]).toEqual([name, true]);
  });

  it('with a setting that reaches into the prototype leaves every object as it was', async () => {
    const { host } = await opened();
    await host.answer('setSettings', JSON.parse('{"panels":{"__proto__":{"polluted":1},"constructor":2}}'));
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
    expect(Object.getPrototypeOf(host.settings.panels)).toBe(Object.prototype);
  });
});

describe('a change', () => {
  const BAD: readonly unknown[] = [
    null,
    'text',
    {},
    { kind: 'unknown' },
    { kind: 'dropSection' },
    { kind: 'dropSection', section: 's', more: 1 },
    { kind: 'moveSection', section: 's', index: -1 },
    { kind: 'moveSection', section: 's', index: 0.5 },
    { kind: 'editText', section: 's', steps: 'all' },
    { kind: 'editText', section: 's', steps: [() => 1] },
    { kind: 'setMetadata', set: [] },
    { kind: 'setMetadata', set: new Map() },
    { kind: 'putEdition', edition: null, index: 0 },
    { kind: 'putAsset', asset: { id: '../x', mediaType: '', name: '', pixels: null, base64: '' } },
    { kind: 'group', changes: { length: 1 } },
    { kind: 'group', changes: [{ kind: 'unknown' }] },
    nested(2_000),
    { kind: 'putDesign', design: 'd', index: 0, settings: deep(5_000) },
  ];

  function nested(depth: number): unknown {
    return depth === 0 ? { kind: 'dropAsset', asset: 'a' } : { kind: 'group', changes: [nested(depth - 1)] };
  }

  function deep(depth: number): unknown {
    let value: unknown = 1;
    for (let at = 0; at < depth; at++) value = [value];
    return value;
  }

  it('of the wrong shape is refused before it reaches a book', () => {
    for (const change of BAD) problem(readCall('change', { session: 's', version: 0, changes: [change] }));
  });

  it('of the right shape that makes no sense is refused by the book, which stays as it was', async () => {
    const { call, session } = await opened();
    const senseless = [
      { kind: 'editText', section: 'nowhere', steps: [] },
      { kind: 'addSection', index: 0, section: { type: 'doc' } },
      { kind: 'addSection', index: 99, section: { type: 'section' } },
      { kind: 'addSection', index: 0, section: JSON.parse('{"type":"__proto__","attrs":{"__proto__":1}}') },
      { kind: 'setMetadata', set: { title: 7 } },
      { kind: 'setMetadata', set: { subjects: [{}] } },
      { kind: 'putEdition', index: 0, edition: { id: 'x', kind: 'scroll' } },
      { kind: 'putAsset', asset: { id: 'a'.repeat(64), mediaType: 'x', name: 'x', pixels: null, base64: '###=' } },
    ];
    for (const change of senseless) {
      problem(await call('change', { session, version: 0, changes: [change as never] }));
    }
    value(await call('change', { session, version: 0, changes: [] }));
  });
});

describe('a path', () => {
  let given: Awaited<ReturnType<typeof opened>>;

  beforeEach(async () => {
    given = await opened();
  });

  it('that is no file is refused in one sentence', async () => {
    const { call, folder } = given;
    mkdirSync(join(folder, 'folder.png'));
    execFileSync('mkfifo', [join(folder, 'pipe.png')]);
    writeFileSync(join(folder, 'note.txt'), 'secret');
    const paths = ['/dev/zero', '/proc/self/mem', '/nowhere/a.png', 'a.png', '/a\0.png', `/${'a'.repeat(4000)}.png`];
    for (const path of [...paths, join(folder, 'folder.png'), join(folder, 'pipe.png'), join(folder, 'note.txt')]) {
      problem(await call('readFile', { path }));
      problem(await call('openBook', { source: { path } }));
      problem(await call('importManuscript', { source: { path }, without: [] }));
      problem(await call('openExternally', { path }));
    }
    for (const path of ['/dev/zero', '/nowhere', 'relative', join(folder, 'note.txt'), '/a\0']) {
      problem(await call('listFolder', { path }));
    }
  });

  it('is written to only for a design', async () => {
    const { call, folder } = given;
    for (const name of ['a.sh', '.bashrc', 'a.json.exe', 'a']) {
      problem(await call('writeText', { path: join(folder, name), text: 'x' }));
    }
    problem(await call('writeText', { path: 'a.json', text: 'x' }));
    value(await call('writeText', { path: join(folder, 'a.json'), text: '{}' }));
    expect(readdirSync(folder)).toContain('a.json');
    expect(readdirSync(folder)).not.toContain('a.sh');
  });
});
