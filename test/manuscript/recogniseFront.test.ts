import { describe, expect, test } from 'vitest';
import { outlineOf, type RawBlock, recognise } from '#manuscript';
import { centred, empties, empty, inlines, manuscript, Prose, pageBreak, para } from './recogniseBuilders.ts';

const prose = new Prose('en', 21);
const text = (paragraphs = 5): readonly RawBlock[] =>
  Array.from({ length: paragraphs }, () => para(prose.paragraph(5), { indentFirst: 18 }));
const bold = (line: string): RawBlock => centred(line, { bold: true });
const novel = (): readonly RawBlock[] =>
  ['Chapter 1', 'Chapter 2'].flatMap((name) => [pageBreak(), bold(name), ...text()]);

function read(blocks: readonly RawBlock[], properties = {}) {
  const { book, report } = recognise(manuscript(blocks, properties));
  book.text.check();
  const outline = outlineOf(book, report, { text: true });
  return { book, outline, kinds: outline.sections.map((each) => each.kind), notices: report.notices };
}

describe('title page', () => {
  test('centred lines', () => {
    const page = [
      ...empties(8),
      centred('THE LONG WATER', { bold: true, size: 20 }),
      empty(),
      centred('A Novel'),
      empty(),
      centred('by'),
      centred('Ines Marlow'),
    ];
    const { book, kinds } = read([...page, ...novel()]);
    expect(book.metadata).toMatchObject({ title: 'The Long Water', subtitle: 'A Novel' });
    expect(book.metadata.contributors).toEqual([{ name: 'Ines Marlow', fileAs: null, role: 'aut' }]);
    expect(kinds).toEqual(['chapter', 'chapter']);
  });

  test('styles of a title page', () => {
    const page = [
      para('The Long Water', { style: 'Title', align: 'center' }),
      para('by Ines Marlow', { style: 'Subtitle' }),
    ];
    const { book } = read([...page, ...novel()]);
    expect(book.metadata.title).toBe('The Long Water');
    expect(book.metadata.contributors.map((each) => each.name)).toEqual(['Ines Marlow']);
  });

  test('the first page of a submission: contact lines go to a notice, none in silence', () => {
    const page = [
      para('Ines Marlow'),
      para('12 Mill Lane'),
      para('ines@example.com'),
      para('About 78,000 words', { align: 'end' }),
      ...empties(9),
      centred('THE LONG WATER', { bold: true }),
      centred('by'),
      centred('Ines Marlow'),
    ];
    const { book, kinds, notices } = read([...page, ...novel()]);
    expect(book.metadata.title).toBe('The Long Water');
    expect(kinds).toEqual(['chapter', 'chapter']);
    const notice = notices.find((each) => each.kind === 'title-page-line');
    for (const line of ['12 Mill Lane', 'ines@example.com', 'About 78,000 words'])
      expect(notice?.message).toContain(line);
  });

  test('a title in a heading\u2019s style is the title, no chapter', () => {
    const h1 = (line: string): RawBlock => para(line, { style: 'heading 1', outlineLevel: 1 });
    const { book, kinds } = read([
      h1('The Long Water'),
      para('by Ines Marlow'),
      h1('Chapter 1'),
      ...text(),
      h1('Chapter 2'),
      ...text(),
    ]);
    expect(book.metadata.title).toBe('The Long Water');
    expect(kinds).toEqual(['chapter', 'chapter']);
  });

  test('properties help where they are plausible, the file\u2019s name where nothing else does', () => {
    expect(read(novel(), { title: 'The Long Water', author: 'Ines Marlow' }).book.metadata.title).toBe(
      'The Long Water',
    );
    const template = read(novel(), { title: 'Microsoft Word - Document1', author: 'User' }).book.metadata;
    expect(template).toMatchObject({ title: 'manuscript', contributors: [] });
  });

  test('other languages', () => {
    const words = new Prose('fr', 2);
    const body = ['Chapitre 1', 'Chapitre 2'].flatMap((name) => [
      pageBreak(),
      bold(name),
      ...Array.from({ length: 5 }, () => para(words.paragraph(5))),
    ]);
    const { book } = read([
      centred('La Longue Eau', { bold: true, size: 18 }),
      centred('Roman'),
      centred('par Ines Marlow'),
      ...body,
    ]);
    expect(book.metadata).toMatchObject({ title: 'La Longue Eau', subtitle: 'Roman', language: 'fr' });
    expect(book.metadata.contributors[0]?.name).toBe('Ines Marlow');
  });
});

describe('pages without a heading', () => {
  test('copyright page, dedication and epigraph', () => {
    const pages = [
      pageBreak(),
      para('Copyright \u00a9 2024 Ines Marlow'),
      para('All rights reserved.'),
      para('ISBN 978-1-4028-9462-6'),
      pageBreak(),
      para('For Tobias,\nwho waited', { align: 'center' }),
      pageBreak(),
      centred('\u201cSlow water, slow.\u201d', { italic: true }),
      para('\u2014 A miller', { align: 'end' }),
    ];
    const { kinds, outline, book } = read([...pages, ...novel()]);
    expect(kinds).toEqual(['copyright', 'dedication', 'epigraph', 'chapter', 'chapter']);
    expect(outline.sections[1]?.text).toBe('For Tobias, who waited');
    expect(book.text.child(2).child(0).type.name).toBe('epigraph');
    expect(book.text.child(2).child(0).lastChild?.type.name).toBe('attribution');
  });

  test('a dedication between preface and text, as pages broken by empty paragraphs', () => {
    const blocks = [
      bold('Preface'),
      ...text(),
      ...empties(12),
      para('To my mother'),
      ...empties(12),
      bold('Chapter 1'),
      ...text(),
      ...empties(12),
      bold('Chapter 2'),
      ...text(),
    ];
    expect(read(blocks).kinds).toEqual(['preface', 'dedication', 'chapter', 'chapter']);
  });

  test('a page break inside a chapter starts no section', () => {
    const blocks = [bold('Chapter 1'), ...text(), pageBreak(), ...text(), pageBreak(), bold('Chapter 2'), ...text()];
    expect(read(blocks).kinds).toEqual(['chapter', 'chapter']);
  });

  test('a manuscript without headings is one section and loses nothing', () => {
    const { outline } = read([para('One two.'), para('Three four.')]);
    expect(outline.sections.map((each) => [each.kind, each.text])).toEqual([['chapter', 'One two.\nThree four.']]);
  });

  test('the epigraph of a chapter', () => {
    const motto = [
      para(inlines('Slow water, slow.', { italic: true }), { indentStart: 72 }),
      para('\u2014 A miller', { align: 'end' }),
    ];
    const { book } = read([bold('Chapter 1'), ...motto, ...text(), bold('Chapter 2'), ...text()]);
    const names = book.text.child(0).children.map((node) => node.type.name);
    expect(names.slice(0, 2)).toEqual(['epigraph', 'paragraph']);
  });
});

describe('contents lists', () => {
  const names = ['Prologue', 'Chapter 1: The Weir', 'Chapter 2: Low Water', 'Epilogue'];
  const body = (): readonly RawBlock[] => names.flatMap((name) => [pageBreak(), bold(name), ...text()]);

  test.each<[string, (name: string, at: number) => RawBlock]>([
    ['with tabs', (name, at) => para(`${name}\t${at * 9 + 1}`)],
    ['with dots', (name, at) => para(`${name} ........... ${at * 9 + 1}`)],
    ['without numbers', (name) => para(name)],
    ['made by the word processor', (name, at) => para(`${name}\t${at + 1}`, { style: 'TOC 1', inContentsField: true })],
  ])('%s', (_, entry) => {
    const { kinds, notices } = read([bold('Contents'), ...names.map(entry), ...body()]);
    expect(kinds).toEqual(['prologue', 'chapter', 'chapter', 'epilogue']);
    expect(notices.find((notice) => notice.kind === 'contents-list')?.count).toBe(names.length);
  });

  test('a chapter called Contents that holds text is kept', () => {
    const { outline } = read([pageBreak(), bold('Contents'), ...text(), ...novel()]);
    expect(outline.sections[0]?.words).toBeGreaterThan(100);
  });
});
