import { expect, test } from 'vitest';
import { type EbookEntry, makeEbook } from '#ebook';
import { zipEntries } from '../../electron/services/zip.ts';
import { book, bookValue, note, p, section } from '../builders/book.ts';
import { checkEpub, complaints } from '../tools/epubcheck.ts';
import { request } from './request.ts';
import { richBook, richPages } from './rich.ts';

/** Milliseconds; the checker starts a Java runtime for each book. */
const PATIENCE = 180_000;

/** The ebook of `richBook` with the pages of a print edition. */
function richEntries(notes: 'chapter' | 'book'): readonly EbookEntry[] {
  const value = richBook(notes);
  return makeEbook(request(value, { pageStarts: richPages(value), printIsbn: '9780306406157' }));
}

async function check(entries: readonly EbookEntry[]): Promise<readonly string[]> {
  return complaints(await checkEpub(await zipEntries(entries)));
}

function changed(entries: readonly EbookEntry[], path: string, from: string, to: string): readonly EbookEntry[] {
  return entries.map((entry) => {
    if (entry.path !== path) return entry;
    const text = new TextDecoder().decode(entry.bytes);
    if (!text.includes(from)) throw new RangeError(`no ${from} in ${path}`);
    return { ...entry, bytes: new TextEncoder().encode(text.replace(from, to)) };
  });
}

test(
  'a book with everything in it has no error and no warning',
  async () => {
    const messages = await checkEpub(await zipEntries(richEntries('chapter')));
    expect(complaints(messages)).toEqual([]);
    // Usage notes: fonts are embedded, and their licence lies beside them.
    expect(messages.map((each) => each.code)).toEqual(['CSS-028', 'OPF-097']);
  },
  PATIENCE,
);

test(
  'so has the same book with its notes at the end',
  async () => {
    expect(await check(richEntries('book'))).toEqual([]);
  },
  PATIENCE,
);

test(
  'so has a small book in Hebrew with hardly any particulars',
  async () => {
    const value = bookValue(book(section('chapter', null, p('מלח זוכר', note(p('הערה')), ' את הים'))), {
      metadata: { title: '', language: 'he', contributors: [], year: null, rightsHolder: null },
    });
    expect(await check(makeEbook(request(value, { fonts: [] })))).toEqual([]);
  },
  PATIENCE,
);

test(
  'a broken link does not pass',
  async () => {
    const entries = changed(
      richEntries('chapter'),
      'EPUB/nav.xhtml',
      'href="text/chapter-02.xhtml"',
      'href="text/none.xhtml"',
    );
    expect((await check(entries)).join('\n')).toMatch(/RSC-007/);
  },
  PATIENCE,
);
