/** Files that are written together: all of them, or the folder as it was. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeTogether } from '../../electron/host/writeTogether.ts';

const NAMES = ['a', 'b', 'c', 'd'];

function freshFolder(): string {
  return mkdtempSync(join(tmpdir(), 'reglet-together-'));
}

/** Files by name; a folder in the place of a file shows as null. */
type Holding = Readonly<Record<string, string | null>>;

function fill(folder: string, holding: Holding): void {
  for (const [name, text] of Object.entries(holding)) {
    if (text === null) mkdirSync(join(folder, name));
    else writeFileSync(join(folder, name), text);
  }
}

function holdingOf(folder: string): Holding {
  const entries = readdirSync(folder, { withFileTypes: true });
  return Object.fromEntries(
    entries.map((each) => [each.name, each.isDirectory() ? null : readFileSync(join(folder, each.name), 'utf8')]),
  );
}

const files = (folder: string, texts: Readonly<Record<string, string>>) =>
  Object.entries(texts).map(([name, text]) => ({ path: join(folder, name), bytes: new TextEncoder().encode(text) }));

describe('files written together', () => {
  it('are all in their places, or none is and nothing else is there', async () => {
    const name = fc.constantFrom(...NAMES);
    const before = fc.dictionary(name, fc.option(fc.string(), { freq: 3 }), { noNullPrototype: true });
    const written = fc.dictionary(name, fc.string(), { minKeys: 1, noNullPrototype: true });
    await fc.assert(
      fc.asyncProperty(before, written, async (held, texts) => {
        const folder = freshFolder();
        fill(folder, held);
        const outcome = await writeTogether(files(folder, texts));
        const blocked = Object.keys(texts).some((each) => held[each] === null);
        expect(outcome.ok).toBe(!blocked);
        expect(holdingOf(folder)).toEqual(blocked ? held : { ...held, ...texts });
      }),
      { numRuns: 40 },
    );
  });

  it('make their folder', async () => {
    const folder = join(freshFolder(), 'new', 'folder');
    expect(await writeTogether(files(folder, { a: '1' }))).toMatchObject({ ok: true });
    expect(holdingOf(folder)).toEqual({ a: '1' });
  });

  it('are not put in their places once they are given up', async () => {
    const folder = freshFolder();
    fill(folder, { a: 'old' });
    const outcome = await writeTogether(files(folder, { a: 'new', b: 'new' }), AbortSignal.abort());
    expect(outcome.ok).toBe(false);
    expect(holdingOf(folder)).toEqual({ a: 'old' });
  });

  it('are taken back where one of them fails after others are in their places', async () => {
    const folder = freshFolder();
    fill(folder, { first: 'old' });
    // The folder that the third needs takes the place of the second.
    const outcome = await writeTogether(files(folder, { first: 'new', other: '1', middle: '2', 'middle/last': '3' }));
    expect(outcome.ok).toBe(false);
    expect(holdingOf(folder)).toEqual({ first: 'old', middle: null });
  });

  it('sweep away what a run that was killed left beside them, and nothing else', async () => {
    const folder = freshFolder();
    const left = {
      '.a.0123456789ab.part': 'old',
      '.b.0123456789ab.part': 'of another',
      '.a.part': 'mine',
      notes: 'mine',
    };
    fill(folder, left);
    for (const name of Object.keys(left)) utimesSync(join(folder, name), 1_000, 1_000);
    fill(folder, { '.a.ba9876543210.part': 'of a run that goes on' });
    expect(await writeTogether(files(folder, { a: '1' }))).toMatchObject({ ok: true });
    expect(Object.keys(holdingOf(folder)).sort()).toEqual([
      '.a.ba9876543210.part',
      '.a.part',
      '.b.0123456789ab.part',
      'a',
      'notes',
    ]);
  });

  it('refuse a folder that is a file, in one sentence', async () => {
    const folder = freshFolder();
    fill(folder, { place: 'a file' });
    const outcome = await writeTogether(files(join(folder, 'place'), { a: '1' }));
    expect(outcome).toEqual({ ok: false, problem: 'What was chosen is not a folder. Nothing was written.' });
  });
});
