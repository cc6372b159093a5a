/** The bench's reader of PDFs, held to pages that are known: what it must not take for a fault, and what it must not miss. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Quality, qualityOf } from '../bench/quality.mjs';
import { type PlainPage, writePlainPdf } from '../builders/plainPdf.ts';
import { freshFolder } from './command.ts';

/** Five lines to a paragraph, six paragraphs to a page. */
const PARAGRAPH = 'f...e';
const PAGE = PARAGRAPH.repeat(6);
const MOST = PARAGRAPH.repeat(5);
const WHOLE = Array.from({ length: 7 }, () => PAGE);

/** A book of a first page, then the pages given from the first verso on, then some that are whole. */
function read(...pages: readonly (string | PlainPage)[]): Quality {
  const path = join(freshFolder(), 'book.pdf');
  const book = [PAGE, ...pages, ...WHOLE];
  writePlainPdf(
    path,
    book.map((page) => (typeof page === 'string' ? { lines: page } : page)),
  );
  return qualityOf(path);
}

/** How many spreads are of unequal depth. */
function uneven(...pages: readonly (string | PlainPage)[]): number {
  const { unevenShare, spreads } = read(...pages);
  return Math.round(unevenShare * spreads);
}

describe('the depth of facing pages', () => {
  it('is equal where all end on one line', () => {
    expect(uneven(PAGE, PAGE)).toBe(0);
  });

  it('is not where a page is a line short, on either side', () => {
    expect(uneven(`${MOST}f..e`, PAGE)).toBe(1);
    expect(uneven(PAGE, `${MOST}f..e`)).toBe(1);
    expect(uneven(`${MOST}f..e`, `${MOST}f..e`)).toBe(0);
  });

  it('goes down to the last line of a note', () => {
    expect(uneven(`${MOST}fe  n`, PAGE)).toBe(0);
    expect(uneven(`${MOST}f nn`, PAGE)).toBe(1);
    expect(uneven(PAGE, `${MOST}fe n`)).toBe(1);
  });

  it('goes down to an ornament', () => {
    expect(uneven(`${MOST}fe *`, PAGE)).toBe(1);
    expect(uneven(`${MOST}f.e *`, PAGE)).toBe(0);
    expect(uneven(PAGE, `${MOST}f.e  `)).toBe(1);
  });
});

describe('lines that stand alone', () => {
  it('are found at the head and at the foot of a page', () => {
    expect(read(`${MOST}f....`, `e${MOST}f..e`)).toMatchObject({ widows: 1, orphans: 0 });
    expect(read(`${MOST}f..ef`, `...e${MOST}s`)).toMatchObject({ widows: 0, orphans: 1 });
    expect(read(`${MOST}f...e`, `s${MOST}f..e`)).toMatchObject({ widows: 0, orphans: 0 });
  });

  it('are no heads that are there only once', () => {
    const heads = Array.from({ length: 3 }, () => ({ lines: PAGE, head: 'Lorem' }));
    expect(read(...heads, { lines: PAGE, head: 'Once' })).toMatchObject({ widows: 0, orphans: 0 });
  });

  it('are no paragraphs of one full line below a heading', () => {
    const opener = `   H        |${PARAGRAPH.repeat(3)}fe`;
    const chapters = Array.from({ length: 4 }, () => [PAGE, opener]).flat();
    expect(read(...chapters)).toMatchObject({ widows: 0, orphans: 0, unevenShare: 0 });
  });

  it('are no paragraphs of one line at the end of a chapter', () => {
    const opener = `   H        |${PARAGRAPH.repeat(3)}.e`;
    const chapters = Array.from({ length: 4 }, () => [`${MOST}s`, opener]).flat();
    expect(read(...chapters)).toMatchObject({ widows: 0, orphans: 0 });
  });

  it('are no entries of a table of contents', () => {
    expect(read(`cC${'c'.repeat(28)}`, `C${'c'.repeat(29)}`, PAGE)).toMatchObject({ widows: 0, orphans: 0 });
  });
});

it('sees a recto that ends in a hyphen', () => {
  const { turnShare } = read(PAGE, `${MOST}f..--`, `.e${MOST}f.e`, PAGE);
  expect(turnShare).toBeGreaterThan(0);
  expect(read(PAGE, PAGE).turnShare).toBe(0);
});
