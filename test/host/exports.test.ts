/** Exports through the built threads: all the files or none, and the folder as it was where it was cancelled or failed. */

import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { beforeEach, describe, expect, it } from 'vitest';
import { type Book, type Change, type Edition, editionMarks, furnish, mutedAs, newBook } from '#book';
import { writeProject } from '#project';
import { book, chapter, p } from '../builders/book.ts';
import { outside, root } from '../e2e/command.ts';
import { type Hosted, hosted, problem, value } from './hosting.ts';

const TEXT = 'The rain came down all night on the slates of the mill, and nobody who lay there slept at all. '.repeat(
  40,
);

function novel(chapters: number) {
  const sections = Array.from({ length: chapters }, (_, at) => chapter(`Day ${at + 1}`, p(TEXT), p(TEXT), p(TEXT)));
  return furnish(newBook({ metadata: { title: 'Night Rain' }, sections: [...book(...sections).children] }));
}

interface Exporting extends Hosted {
  readonly session: string;
  readonly out: string;
  export(editions: readonly string[]): Promise<string>;
}

async function exporting(chapters = 2, fontFolders: readonly string[] = []): Promise<Exporting> {
  const given = await hosted({ fontFolders });
  const bytes = writeProject(novel(chapters));
  const { session } = value(await given.call('openBook', { source: { name: 'night.reglet', bytes } }));
  const out = join(given.folder, 'out');
  const begin = async (editions: readonly string[]): Promise<string> =>
    value(await given.call('export', { session, editions: [...editions], folder: out })).job;
  return { ...given, session, out, export: begin };
}

/** What a folder holds: names with the hash of each file. */
function contents(folder: string): readonly string[] {
  return readdirSync(folder).map((name) => `${name} ${hash(readFileSync(join(folder, name)))}`);
}

function hash(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

describe('an export', () => {
  it('makes every edition, says what it made, and tells how far it is', async () => {
    const given = await exporting();
    const job = await given.export(['print', 'ebook']);
    const { result } = await given.heard('exportEnded');
    if (result.kind !== 'done') throw new RangeError(JSON.stringify(result));
    expect(readdirSync(given.out).sort()).toEqual(['night-rain-ebook.epub', 'night-rain-print.pdf']);
    for (const file of result.record.files) {
      const bytes = readFileSync(file.path);
      expect([file.bytes, file.sha256]).toEqual([bytes.length, hash(bytes)]);
    }
    expect(result.record.files.map((file) => [file.edition, file.kind, file.pages !== null])).toEqual([
      ['print', 'print', true],
      ['ebook', 'ebook', false],
    ]);
    const told = given.events.filter((event) => event.kind === 'exportProgress');
    for (const edition of ['print', 'ebook']) {
      const steps = told.filter((event) => event.edition === edition);
      const done = steps.map((event) => event.done);
      expect(steps.every((event) => event.job === job)).toBe(true);
      expect(done).toEqual([...done].sort((one, other) => one - other));
      expect([steps[0]?.stage, steps.at(-1)?.stage, done.at(-1)]).toEqual(['waiting', 'ready', 1]);
    }
    expect(value(await given.call('exports', { session: given.session }))).toEqual([result.record]);
  });

  it('is remembered with what it was made from, until its edition is made again', async () => {
    const given = await exporting();
    await given.export(['print', 'ebook']);
    const { result } = await given.heard('exportEnded');
    if (result.kind !== 'done') throw new RangeError(JSON.stringify(result));
    const made = novel(2);
    for (const { edition, state } of result.record.editions) {
      const { settings, sections } = editionMarks(made, edition);
      expect(state).toMatchObject({ settings, sections: [...sections] });
    }
    const [print, ebook] = result.record.editions;
    const [file] = result.record.files;
    expect(print?.state?.pages).toHaveLength(file?.pages ?? 0);
    expect(ebook?.state?.pages).toBeNull();
    await given.export(['ebook']);
    const ends = () => given.events.filter(({ kind }) => kind === 'exportEnded').length;
    await expect.poll(ends, { timeout: 20_000 }).toBe(2);
    const history = value(await given.call('exports', { session: given.session }));
    const states = history.map(({ editions }) => editions.map(({ edition, state }) => [edition, state !== null]));
    expect(states).toEqual([
      [['ebook', true]],
      [
        ['print', true],
        ['ebook', false],
      ],
    ]);
  });

  it('counts muted findings apart', async () => {
    const given = await exporting();
    const finding = { rule: 'metadata/no-author', severity: 'warning', message: 'The book names no author.' } as const;
    const muted = mutedAs(novel(2), finding, 'Nobody wrote it.');
    value(
      await given.call('change', {
        session: given.session,
        version: 0,
        changes: [{ kind: 'putMuted', muted, index: 0 }],
      }),
    );
    await given.export(['ebook']);
    const { result } = await given.heard('exportEnded');
    expect(result).toMatchObject({ kind: 'done', record: { editions: [{ edition: 'ebook', muted: 1 }] } });
  });

  it('of the same book gives the same bytes', async () => {
    const given = await exporting();
    await given.export(['print', 'ebook']);
    await given.heard('exportEnded');
    const first = contents(given.out);
    const again = await exporting();
    await again.export(['ebook', 'print', 'ebook']);
    await again.heard('exportEnded');
    expect(contents(again.out)).toEqual(first);
  });

  it('of several print editions runs apart, and is of the book as it was when it began', async () => {
    const given = await exporting();
    const paperback = novel(2).editions.find((edition) => edition.kind === 'print');
    if (!paperback) throw new RangeError('the book has no print edition');
    const add: Change = { kind: 'putEdition', index: 2, edition: { ...paperback, id: 'hard', name: 'Hardcover' } };
    value(await given.call('change', { session: given.session, version: 0, changes: [add] }));
    await given.export(['print', 'hard']);
    const later: Change = { kind: 'setMetadata', set: { title: 'Another' } };
    value(await given.call('change', { session: given.session, version: 1, changes: [later] }));
    await given.heard('exportEnded');
    expect(readdirSync(given.out).sort()).toEqual(['night-rain-hard.pdf', 'night-rain-print.pdf']);
  });
});

describe('a font installed on the computer', () => {
  it('sets the book that asks for it, in print and in the ebook', async () => {
    const folder = join(root, 'node_modules/@expo-google-fonts/noto-serif/400Regular');
    const given = await exporting(1, [folder]);
    const design: Change = { kind: 'putDesign', design: 'own', index: 0, settings: { text: { family: 'Noto Serif' } } };
    const uses = novel(1).editions.map(
      (edition, index): Change => ({ kind: 'putEdition', index, edition: { ...edition, design: 'own' } }),
    );
    value(await given.call('change', { session: given.session, version: 0, changes: [design, ...uses] }));
    await given.export(['print', 'ebook']);
    const { result } = await given.heard('exportEnded');
    expect(result).toMatchObject({ kind: 'done' });
    expect(outside('pdffonts', [join(given.out, 'night-rain-print.pdf')])).toContain('NotoSerif');
    const entries = Object.keys(unzipSync(new Uint8Array(readFileSync(join(given.out, 'night-rain-ebook.epub')))));
    expect(entries.filter((name) => name.includes('noto-serif'))).not.toEqual([]);
  });
});

describe('an export that is given up', () => {
  let given: Exporting;

  beforeEach(async () => {
    given = await exporting(60);
    mkdirSync(given.out);
    writeFileSync(join(given.out, 'night-rain-print.pdf'), 'the export before');
  });

  it('leaves nothing, and the export before as it was', async () => {
    const before = contents(given.out);
    const job = await given.export(['print', 'ebook']);
    await given.heard('exportProgress');
    value(await given.call('cancelExport', { job }));
    expect(await given.heard('exportEnded')).toMatchObject({ job, result: { kind: 'cancelled' } });
    expect(contents(given.out)).toEqual(before);
    problem(await given.call('cancelExport', { job }));
    expect(value(await given.call('exports', { session: given.session }))).toEqual([]);
  });

  it('because the program ends leaves nothing either', async () => {
    const before = contents(given.out);
    await given.export(['print', 'ebook']);
    await given.heard('exportProgress');
    await given.host.close();
    expect(contents(given.out)).toEqual(before);
  });
});

function printOf(book: Book): Edition {
  const print = book.editions.find((edition) => edition.id === 'print');
  if (!print) throw new RangeError('the book has no print edition');
  return print;
}

it('sets a book whose font is not installed in another, and says so with the files', async () => {
  const given = await exporting();
  const changes: readonly Change[] = [
    { kind: 'putDesign', design: 'mine', index: 0, settings: { text: { family: 'Nowhere' } } },
    { kind: 'putEdition', index: 0, edition: { ...printOf(novel(1)), design: 'mine' } },
  ];
  value(await given.call('change', { session: given.session, version: 0, changes: [...changes] }));
  await given.export(['print']);
  const { result } = await given.heard('exportEnded');
  if (result.kind !== 'done') throw new Error(`the export ended as ${result.kind}`);
  expect(readdirSync(given.out)).toEqual(['night-rain-print.pdf']);
  const told = result.findings.filter(({ rule }) => rule === 'fonts/missing').map(({ message }) => message);
  expect(told).toEqual([expect.stringMatching(/“Nowhere”.*EB Garamond stands in for it/)]);
});

describe('an export that fails', () => {
  it('leaves the export before as it was where one file can’t be put in its place', async () => {
    const given = await exporting();
    mkdirSync(join(given.out, 'night-rain-ebook.epub'), { recursive: true });
    writeFileSync(join(given.out, 'night-rain-print.pdf'), 'the export before');
    await given.export(['print', 'ebook']);
    const { result } = await given.heard('exportEnded');
    expect(result.kind).toBe('failed');
    expect(readdirSync(given.out).sort()).toEqual(['night-rain-ebook.epub', 'night-rain-print.pdf']);
    expect(readFileSync(join(given.out, 'night-rain-print.pdf'), 'utf8')).toBe('the export before');
  });

  it('says why in one sentence: no edition, no such edition, no such design', async () => {
    const given = await exporting();
    const ask = (editions: string[]) => given.call('export', { session: given.session, editions, folder: given.out });
    problem(await ask([]));
    expect(problem(await ask(['hardcover']))).toContain('hardcover');
    const lost: Change = { kind: 'putEdition', index: 0, edition: { ...printOf(novel(1)), design: 'gone' } };
    value(await given.call('change', { session: given.session, version: 0, changes: [lost] }));
    expect(problem(await ask(['print']))).toContain('gone');
    expect(existsSync(given.out)).toBe(false);
  });
});
