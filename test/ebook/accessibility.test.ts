import { expect, test } from 'vitest';
import { makeEbook } from '#ebook';
import { zipEntries } from '../../electron/services/zip.ts';
import { book, bookValue, chapter, figure, p } from '../builders/book.ts';
import { checkAccessibility } from '../tools/ace.ts';
import { fileOf, request } from './request.ts';
import { PICTURE, richBook, richPages } from './rich.ts';

/** The values of a property in the package document. */
function values(opf: string, property: string): readonly string[] {
  return [...opf.matchAll(new RegExp(`<meta property="${property}"[^>]*>([^<]*)</meta>`, 'g'))].map(
    (match) => match[1] ?? '',
  );
}

test('the accessibility checker finds nothing in a book with everything in it', async () => {
  const value = richBook();
  const entries = makeEbook(request(value, { pageStarts: richPages(value), printIsbn: '9780306406157' }));
  expect(await checkAccessibility(await zipEntries(entries))).toEqual([]);
}, 180_000);

// The properties and their values: EPUB Accessibility 1.1, "discovery metadata", and the Schema.org vocabulary.
test('a novel says what is true of it', () => {
  const opf = fileOf(bookValue(book(chapter('One', p('x')))), 'package.opf');
  expect(values(opf, 'schema:accessMode')).toEqual(['textual', 'visual']);
  expect(values(opf, 'schema:accessModeSufficient')).toEqual(['textual', 'textual,visual']);
  expect(values(opf, 'schema:accessibilityHazard')).toEqual(['none']);
  expect(values(opf, 'schema:accessibilityFeature')).toEqual([
    'tableOfContents',
    'readingOrder',
    'structuralNavigation',
    'displayTransformability',
    'ARIA',
    'alternativeText',
  ]);
  expect(values(opf, 'schema:accessibilitySummary')).toHaveLength(1);
});

test('no conformance is claimed that nobody has certified', () => {
  const opf = fileOf(richBook(), 'package.opf');
  expect(opf).not.toContain('conformsTo');
  expect(opf).not.toContain('certifiedBy');
});

test('a picture without words takes the claims about pictures away', () => {
  const value = bookValue(book(chapter('One', figure(PICTURE.id), p('x'))), {
    assets: new Map([[PICTURE.id, PICTURE]]),
  });
  const opf = fileOf(value, 'package.opf');
  expect(values(opf, 'schema:accessModeSufficient')).toEqual(['textual,visual']);
  expect(values(opf, 'schema:accessibilityFeature')).not.toContain('alternativeText');
  expect(values(opf, 'schema:accessibilitySummary')[0]).toMatch(/no text alternative/);
});

test('page breaks are announced where there are any', () => {
  const value = richBook();
  const opf = fileOf(value, 'package.opf', { pageStarts: richPages(value), printIsbn: '9780306406157' });
  expect(values(opf, 'schema:accessibilityFeature')).toEqual(
    expect.arrayContaining(['pageBreakMarkers', 'pageNavigation']),
  );
  expect(values(opf, 'pageBreakSource')).toEqual(['urn:isbn:9780306406157']);
});
