/**
 * Files of every version that there has been: test/project/fixtures holds one of each at least, as the program of its day wrote
 * it, and beside it what must be read from it. They are never rewritten; a new version adds its own, and so does a member that
 * older programs can do without.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Book } from '#book';
import { readProject, VERSION, writeProject } from '#project';
import { migrate, STEPS, type Step } from '../../core/project/migrate.ts';

const FIXTURES = join(import.meta.dirname, 'fixtures');
const kept = readdirSync(FIXTURES).filter((name) => name.endsWith('.reglet'));

function read(bytes: Uint8Array): Book {
  const outcome = readProject(bytes);
  if (!outcome.ok) throw new RangeError(outcome.problem);
  return outcome.value;
}

/** What a fixture records of a book: all of it, a picture's bytes as their number. */
function recorded({ assets, text, ...rest }: Book): object {
  const facts = [...assets.values()].map(({ bytes, ...each }) => ({ ...each, size: bytes.length }));
  return { ...rest, assets: facts, text: text.toJSON() as object };
}

it('a file of every version is kept', () => {
  for (let version = 1; version <= VERSION; version++) expect(kept).toContain(`version-${version}.reglet`);
});

describe.each(kept)('the file %s', (name) => {
  const file = join(FIXTURES, name);

  it('is read with everything that is in it', () => {
    const expected = JSON.parse(readFileSync(file.replace(/reglet$/, 'json'), 'utf8')) as object;
    expect(recorded(read(readFileSync(file)))).toMatchObject(expected);
  });

  it('is the same book when this version has written it', () => {
    const book = read(readFileSync(file));
    expect(recorded(read(writeProject(book)))).toEqual(recorded(book));
  });
});

describe('the steps from version to version', () => {
  const steps: readonly Step[] = [
    { name: 'the title is a list', apply: (book) => ({ ...book, title: [book['title']] }) },
    { name: 'the title is counted', apply: (book) => ({ ...book, titles: (book['title'] as unknown[]).length }) },
  ];

  it('are as many as lead to this version, each with a name of its own', () => {
    expect(STEPS).toHaveLength(VERSION - 1);
    expect(new Set(STEPS.map(({ name }) => name)).size).toBe(STEPS.length);
  });

  it('are taken in order from where a file is', () => {
    const old = { title: 'The Weir', kept: true };
    expect(migrate(old, 1, steps)).toEqual({ title: ['The Weir'], titles: 1, kept: true });
    expect(migrate({ title: ['a', 'b'] }, 2, steps)).toEqual({ title: ['a', 'b'], titles: 2 });
    expect(migrate(old, 3, steps)).toBe(old);
    expect(old).toEqual({ title: 'The Weir', kept: true });
  });

  it('never lead back', () => {
    expect(() => migrate({}, 4, steps)).toThrow(RangeError);
    expect(() => migrate({}, 0, steps)).toThrow(RangeError);
  });
});
