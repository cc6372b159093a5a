import { expect, test } from 'vitest';
import { makeEbook } from '#ebook';
import { isoDateTime } from '../../core/ebook/date.ts';
import { fontMediaType, mayEmbed } from '../../core/ebook/fonts.ts';
import { safeFileName, sectionFileNames } from '../../core/ebook/names.ts';
import { utf8 } from '../../core/ebook/utf8.ts';
import { book, bookValue, chapter, EBOOK, p } from '../builders/book.ts';
import { fileOf, filesOf, font, request } from './request.ts';
import { richBook, richPages } from './rich.ts';

const small = bookValue(book(chapter('One', p('x'))));

// EPUB 3.3, "last modified date"; the check value is FACTS E-23. JavaScript's own calendar is the second opinion.
test('a date has no fraction of a second and is in UTC', () => {
  expect(isoDateTime(1_795_593_600)).toBe('2026-11-25T08:00:00Z');
  for (const seconds of [0, 951_782_399, 951_782_400, 1_709_164_800, 4_107_542_399, 4_107_542_400, -1]) {
    const text = isoDateTime(seconds);
    expect(`${text.slice(0, -1)}.000Z`).toBe(new Date(seconds * 1000).toISOString());
    expect(text).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}Z$/);
  }
});

test('the package document carries what the book is known by', () => {
  const value = richBook();
  const opf = fileOf(value, 'package.opf', { pageStarts: richPages(value), printIsbn: '9780306406157' });
  for (const line of [
    '<dc:identifier id="book-id">urn:uuid:00000000-0000-5000-8000-000000000001</dc:identifier>',
    '<dc:identifier id="isbn">urn:isbn:9783161484100</dc:identifier>',
    '<meta refines="#isbn" property="identifier-type" scheme="onix:codelist5">15</meta>',
    '<dc:title id="title">The Salt Ledger &amp; Other “Accounts”</dc:title>',
    '<meta refines="#title" property="title-type">main</meta>',
    '<dc:title id="subtitle">A Novel in Two Tides</dc:title>',
    '<meta refines="#subtitle" property="title-type">subtitle</meta>',
    '<dc:language>en-GB</dc:language>',
    '<dc:creator id="person-1">Ines Verhoeven</dc:creator>',
    '<meta refines="#person-1" property="role" scheme="marc:relators">aut</meta>',
    '<meta refines="#person-1" property="file-as">Verhoeven, Ines</meta>',
    '<dc:contributor id="person-2">Tomas Ruell</dc:contributor>',
    '<meta refines="#person-2" property="role" scheme="marc:relators">trl</meta>',
    '<dc:publisher>Estuary &amp; Daughters</dc:publisher>',
    '<dc:date>2021</dc:date>',
    '<dc:description>A ledger, a weir, &lt;and&gt; a debt.</dc:description>',
    '<dc:subject>FICTION / Literary</dc:subject>',
    '<meta property="belongs-to-collection" id="series">The Tidewater Books</meta>',
    '<meta refines="#series" property="collection-type">series</meta>',
    '<meta refines="#series" property="group-position">2</meta>',
    '<meta property="dcterms:modified">2026-11-25T08:00:00Z</meta>',
    '<meta name="cover" content="cover-image"/>',
    '<dc:source id="print-source">urn:isbn:9780306406157</dc:source>',
    '<meta refines="#print-source" property="source-of">pagination</meta>',
    '<item id="nav" href="nav.xhtml" media-type="application/xhtml+xml" properties="nav"/>',
    '<item id="cover-image" href="images/cover.png" media-type="image/png" properties="cover-image"/>',
    '<spine toc="ncx">',
  ]) {
    expect(opf).toContain(line);
  }
});

test('what is not known is not said', () => {
  const value = bookValue(book(chapter('One', p('x'))), {
    metadata: { contributors: [], year: null, rightsHolder: null, series: { name: 'S', number: '2a' } },
  });
  const opf = fileOf(value, 'package.opf', { fonts: [] });
  expect(opf).not.toMatch(/dc:(creator|contributor|publisher|date|description|subject|source|rights)/);
  expect(opf).not.toMatch(/group-position|pageBreakSource|urn:isbn|specified-fonts|prefix=/);
});

test('without an ISBN the pages come from a print edition by name', () => {
  const pageStarts = [{ label: '1', block: 'b1', offset: 0 }];
  expect(fileOf(small, 'package.opf', { pageStarts })).toContain(
    '<meta property="pageBreakSource">Print edition of The Salt Ledger</meta>',
  );
});

// FACTS E-66: a digital edition must not name itself as the source of its page numbers.
test('an ebook is never the source of its own pages', () => {
  const value = bookValue(book(chapter('One', p('x'))), { editions: [{ ...EBOOK, isbn: '9783161484100' }] });
  const pageStarts = [{ label: '1', block: 'b1', offset: 0 }];
  const opf = fileOf(value, 'package.opf', { pageStarts, printIsbn: '9783161484100' });
  expect(opf).toContain('<meta property="pageBreakSource">Print edition of');
});

test('everything that is in the container is in the manifest and the other way round', () => {
  const value = richBook();
  const files = filesOf(makeEbook(request(value, { pageStarts: richPages(value) })));
  const opf = files.get('EPUB/package.opf') ?? '';
  const listed = [...opf.matchAll(/<item [^>]*href="([^"]*)"/g)].map((match) => `EPUB/${match[1]}`);
  const own = ['mimetype', 'META-INF/container.xml', 'EPUB/package.opf'];
  expect([...own, ...listed]).toEqual([...files.keys()]);
  expect(new Set(listed.map((path) => path.toLowerCase())).size).toBe(listed.length);
});

// FACTS E-06 to E-09: OCF file names.
test('file names are plain ASCII, counted where a book has several of a kind', () => {
  expect(sectionFileNames(['titlePage', 'chapter', 'note', 'chapter', 'note', 'aboutAuthor'])).toEqual([
    'title-page.xhtml',
    'chapter-01.xhtml',
    'note-01.xhtml',
    'chapter-02.xhtml',
    'note-02.xhtml',
    'about-author.xhtml',
  ]);
  expect(sectionFileNames(Array.from({ length: 120 }, () => 'chapter'))[3]).toBe('chapter-004.xhtml');
  expect(safeFileName('Chapter 1: Start?.ttf')).toBe('Chapter-1-Start-.ttf');
  expect(safeFileName('Straße é.')).toBe('Stra-e-e');
  expect(safeFileName('../../x')).toBe('x');
  expect(safeFileName('??')).toBe('file');
});

test('fonts whose licence bits forbid embedding stay out', () => {
  const free = font('400Regular');
  const bound = restricted(free);
  expect(fontMediaType(free)).toBe('font/ttf');
  expect([mayEmbed(free), mayEmbed(bound)]).toEqual([true, false]);
  const fonts = [{ family: 'EB Garamond', weight: 400, italic: false, bytes: bound, fileName: 'x.ttf' }];
  const files = filesOf(makeEbook(request(small, { fonts })));
  expect([...files.keys()].filter((path) => path.startsWith('EPUB/fonts/'))).toEqual([]);
  expect(files.get('EPUB/style.css')).not.toContain('@font-face');
});

/** The font with `fsType` 2, restricted licence embedding (OpenType, OS/2). */
function restricted(bytes: Uint8Array): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  for (let index = 0; index < view.getUint16(4); index++) {
    const record = 12 + index * 16;
    if (view.getUint32(record) === 0x4f532f32) view.setUint16(view.getUint32(record + 8) + 8, 2);
  }
  return copy;
}

test('UTF-8 is what the platform makes of it', () => {
  const text = 'aé€💧\u{10FFFF}\u0800\u07ff\u007f\ud800x';
  expect(Buffer.from(utf8(text)).equals(Buffer.from(new TextEncoder().encode(text)))).toBe(true);
});
