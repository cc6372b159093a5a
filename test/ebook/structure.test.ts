import { expect, test } from 'vitest';
import { SECTION_KINDS, type SectionKind } from '#book';
import {
  book,
  bookValue,
  chapter,
  EBOOK,
  em,
  figure,
  h,
  letter,
  line,
  note,
  p,
  part,
  sceneBreak,
  section,
  stanza,
  subtitle,
  verse,
} from '../builders/book.ts';
import { fileOf } from './request.ts';
import { PICTURE } from './rich.ts';

/** FACTS 2.3: type, role, division. Sources: Structural Semantics Vocabulary 1.1; EPUB Type to ARIA Role guide. */
const TABLE: Readonly<Record<SectionKind, readonly [string | null, string | null, string]>> = {
  halfTitle: ['halftitlepage', null, 'front'],
  alsoBy: [null, null, 'back'],
  frontispiece: [null, null, 'front'],
  titlePage: ['titlepage', null, 'front'],
  copyright: ['copyright-page', null, 'front'],
  dedication: ['dedication', 'doc-dedication', 'front'],
  epigraph: ['epigraph', 'doc-epigraph', 'front'],
  contents: ['toc', 'doc-toc', 'front'],
  foreword: ['foreword', 'doc-foreword', 'front'],
  preface: ['preface', 'doc-preface', 'front'],
  acknowledgments: ['acknowledgments', 'doc-acknowledgments', 'back'],
  introduction: ['introduction', 'doc-introduction', 'front'],
  prologue: ['prologue', 'doc-prologue', 'body'],
  part: ['part', 'doc-part', 'body'],
  chapter: ['chapter', 'doc-chapter', 'body'],
  interlude: [null, null, 'body'],
  epilogue: ['epilogue', 'doc-epilogue', 'body'],
  afterword: ['afterword', 'doc-afterword', 'back'],
  appendix: ['appendix', 'doc-appendix', 'back'],
  notes: ['endnotes', 'doc-endnotes', 'back'],
  glossary: ['glossary', 'doc-glossary', 'back'],
  bibliography: ['bibliography', 'doc-bibliography', 'back'],
  index: ['index', 'doc-index', 'back'],
  discussion: [null, null, 'back'],
  aboutAuthor: [null, null, 'back'],
  excerpt: [null, null, 'back'],
  colophon: ['colophon', 'doc-colophon', 'back'],
  note: [null, null, 'back'],
  other: [null, null, 'back'],
};

test.each(SECTION_KINDS)('a section of the kind %s says what it is', (kind) => {
  const [type, role, division] = TABLE[kind];
  const before = chapter('First', p('x'));
  const its = section(kind, 'Its title', { id: 'it', editions: ['ebook'] }, p('Its text.'));
  const text = division === 'back' ? book(before, its) : book(its, before);
  const counted = kind === 'part' || kind === 'interlude' ? '-01' : kind === 'chapter' ? '-01' : '';
  const name = `${kind.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}${counted}.xhtml`;
  const xhtml = fileOf(bookValue(text), `text/${name}`, { fonts: [] });
  const start = /<(?:section|div) id="it"[^>]*>/.exec(xhtml)?.[0] ?? '';
  expect(/ epub:type="([^"]*)"/.exec(start)?.[1] ?? null).toBe(type);
  expect(/ role="([^"]*)"/.exec(start)?.[1] ?? null).toBe(role);
  expect(xhtml).toContain(`<body epub:type="${division}matter">`);
  // `doc-epigraph` may not stand on a section (EPUB Type to ARIA Role guide).
  expect(start.startsWith(kind === 'epigraph' ? '<div' : '<section')).toBe(true);
});

function chapterOf(...parts: Parameters<typeof chapter>): string {
  return fileOf(bookValue(book(chapter(...parts))), 'text/chapter-01.xhtml', { fonts: [] });
}

test('a heading holds number and title, the subtitle follows', () => {
  const xhtml = chapterOf(['The ', em('Weir')], subtitle('or, Water'), p('x'));
  expect(xhtml).toContain(
    '<section id="s1" class="chapter opener-chapter" epub:type="chapter" role="doc-chapter" aria-labelledby="b1">',
  );
  expect(xhtml).toContain(
    '<header class="opener">\n<h1 id="b1"><span class="number">Chapter One</span> <span class="title">The <em>Weir</em></span></h1>\n' +
      '<p id="b2" class="subtitle" epub:type="subtitle" role="doc-subtitle">or, Water</p>\n</header>',
  );
  expect(xhtml).toContain('<title>Chapter One: The Weir</title>');
  expect(xhtml).toContain('lang="en-GB" xml:lang="en-GB"');
});

test('a number without a title stands alone, a section without both is named for those who listen', () => {
  expect(chapterOf(null, p('x'))).toContain('<h1 id="x-heading"><span class="number lone">Chapter One</span></h1>');
  const text = book(section('dedication', null, p('For M.')), chapter('One', p('x')));
  const dedication = fileOf(bookValue(text), 'text/dedication.xhtml');
  expect(dedication).toContain('role="doc-dedication" aria-label="Dedication"');
  expect(dedication).not.toMatch(/<h\d/);
});

test('parts have rank 1, their chapters rank 2, and no rank is skipped below them', () => {
  const text = book(
    part('North'),
    chapter('One', h({ level: 1 }, 'a'), h({ level: 3 }, 'b'), h({ level: 2 }, 'c'), p('x')),
  );
  const value = bookValue(text);
  expect(fileOf(value, 'text/part-01.xhtml').match(/<h\d/g)).toEqual(['<h1']);
  expect(fileOf(value, 'text/chapter-01.xhtml').match(/<h\d/g)).toEqual(['<h2', '<h3', '<h4', '<h4']);
});

test('paragraphs after a heading or a break are flush, the rest is not', () => {
  const xhtml = chapterOf(
    'One',
    p('No.'),
    p('b'),
    sceneBreak(),
    p('c'),
    p({ align: 'end' }, 'd'),
    h('e'),
    p('f'),
    p('g'),
  );
  const classes = [...xhtml.matchAll(/<p id="[^"]*"(?: class="([^"]*)")?>/g)].map((match) => match[1] ?? '');
  expect(classes).toEqual(['first', '', 'first', 'align-end', 'first', '']);
});

test('a letter is flush down to its salutation', () => {
  const xhtml = chapterOf('One', letter('4 May', 'Dear Anneke,', 'The salt has come.'));
  expect([...xhtml.matchAll(/<p id="[^"]*"(?: class="([^"]*)")?>/g)].map((match) => match[1] ?? '')).toEqual([
    'first',
    'first',
    '',
  ]);
});

test('a scene break is a break without any style sheet and keeps what the text asked for', () => {
  const xhtml = chapterOf(
    'One',
    p('a'),
    sceneBreak({ mark: 'ornament' }),
    p('b'),
    sceneBreak({ mark: 'space' }),
    p('c'),
  );
  expect(xhtml.match(/<hr[^>]*>/g)).toEqual([
    '<hr id="b3" class="scene-break ornament"/>',
    '<hr id="b5" class="scene-break space"/>',
  ]);
});

test('verse keeps its lines, stanzas and indents', () => {
  const xhtml = chapterOf('One', verse(stanza('a', line({ indent: 2 }, 'b')), stanza('c')));
  expect(xhtml.replace(/ id="[^"]*"/g, '')).toContain(
    '<div class="verse">\n<div class="stanza">\n<p class="line">a</p>\n<p class="line indent-2">b</p>\n</div>\n' +
      '<div class="stanza">\n<p class="line">c</p>\n</div>\n</div>',
  );
});

test('pictures have their text alternative, decorative ones an empty one', () => {
  const value = (more: object) =>
    bookValue(book(chapter('One', figure(PICTURE.id, more), p('x'))), { assets: new Map([[PICTURE.id, PICTURE]]) });
  const image = (more: object): string => /<img[^>]*>/.exec(fileOf(value(more), 'text/chapter-01.xhtml'))?.[0] ?? '';
  expect(image({ alt: 'A "weir"', width: 0.5 })).toBe(
    '<img src="../images/picture-01.png" alt="A &quot;weir&quot;" style="width: 50%"/>',
  );
  expect(image({ alt: 'ignored', decorative: true })).toBe(
    '<img src="../images/picture-01.png" alt="" role="presentation"/>',
  );
});

test('a picture that no ebook can show leaves its description', () => {
  const assets = new Map([[PICTURE.id, { ...PICTURE, mediaType: 'image/tiff' }]]);
  const value = bookValue(book(chapter('One', figure(PICTURE.id, { alt: 'A weir' }), p('x'))), { assets });
  const xhtml = fileOf(value, 'text/chapter-01.xhtml');
  expect(xhtml).not.toContain('<img');
  expect(xhtml).toContain('[A weir]');
});

test('a drawing that could do something is not carried', () => {
  const svg = (inside: string) => new TextEncoder().encode(`<svg xmlns="http://www.w3.org/2000/svg">${inside}</svg>`);
  const shown = (inside: string): boolean => {
    const assets = new Map([[PICTURE.id, { ...PICTURE, bytes: svg(inside), mediaType: 'image/svg+xml' }]]);
    const value = bookValue(book(chapter('One', figure(PICTURE.id, { alt: 'x' }), p('x'))), { assets });
    return fileOf(value, 'text/chapter-01.xhtml').includes('<img');
  };
  expect(shown('<path d="M0 0"/><use href="#a"/><path fill="url(#b)"/>')).toBe(true);
  for (const inside of [
    '<script/>',
    '<path onclick="x()"/>',
    '<image href="https://example.org/x"/>',
    '<a href="#x"/>',
  ]) {
    expect(shown(inside)).toBe(false);
  }
});

test('notes of the whole book stand in one file, under the names of their sections', () => {
  const text = book(
    chapter('One', p('a', note(p('first')))),
    chapter('Two', p('b', note(p('second ', note(p('nested')))))),
    section('aboutAuthor', 'About', p('x')),
  );
  const value = bookValue(text, { editions: [{ ...EBOOK, notes: 'book' }] });
  const notes = fileOf(value, 'text/endnotes.xhtml');
  expect(notes.match(/<h\d[^>]*>.*?<\/h\d>/g)).toEqual([
    '<h1 id="x-heading"><span class="title">Notes</span></h1>',
    '<h2 class="notes-of">Chapter One: One</h2>',
    '<h2 class="notes-of">Chapter Two: Two</h2>',
  ]);
  expect(notes).toContain('href="chapter-01.xhtml#x-ref-n1"');
  expect(notes).toContain('href="#x-ref-n3"');
  expect(fileOf(value, 'text/chapter-01.xhtml')).toContain('href="endnotes.xhtml#n1"');
  const opf = fileOf(value, 'package.opf');
  expect(opf.indexOf('text/endnotes.xhtml')).toBeLessThan(opf.indexOf('text/about-author.xhtml'));
});

test('the title page is composed from the particulars', () => {
  const value = bookValue(book(section('titlePage', null), chapter('One', p('x'))), {
    metadata: { title: 'Salt & Water', subtitle: 'A Novel', publisher: 'Estuary' },
  });
  const xhtml = fileOf(value, 'text/title-page.xhtml');
  expect(xhtml).toContain('<h1 class="book-title" epub:type="fulltitle">Salt &amp; Water</h1>');
  expect(xhtml).toContain('<p class="book-subtitle" epub:type="subtitle" role="doc-subtitle">A Novel</p>');
  expect(xhtml).toContain('<p class="book-author">Ines Verhoeven</p>');
  expect(xhtml).toContain('<p class="book-publisher">Estuary</p>');
});

test('a typed title page keeps its words, each line in the look of what it says', () => {
  const typed = section(
    'titlePage',
    null,
    p('Ines Verhoeven'),
    p('The Salt ', em('Ledger')),
    p('with a map'),
    p('Estuary'),
  );
  const value = bookValue(book(typed, chapter('One', p('x'))), { metadata: { publisher: 'Estuary' } });
  const xhtml = fileOf(value, 'text/title-page.xhtml');
  expect(xhtml.slice(xhtml.indexOf('<h1'), xhtml.indexOf('</section>'))).toBe(
    '<h1 id="b2" class="book-title" epub:type="fulltitle">The Salt <em>Ledger</em></h1>\n' +
      '<p id="b1" class="book-author">Ines Verhoeven</p>\n<p id="b3" class="first">with a map</p>\n' +
      '<p id="b4" class="book-publisher">Estuary</p>\n',
  );
});

test('an excerpt of another book opens like a chapter but is none', () => {
  const value = bookValue(book(chapter('One', p('x')), section('excerpt', 'Chapter One', p('y'))));
  const xhtml = fileOf(value, 'text/excerpt.xhtml');
  expect(xhtml).toContain('class="excerpt opener-chapter"');
  expect(xhtml).not.toMatch(/epub:type="chapter"|doc-chapter/);
});

test('every block has its id once, also ids that are no XML names', () => {
  const xhtml = chapterOf('One', p({ id: '7 a' }, 'x'), p({ id: 'x-page-1' }, 'y'), p({ id: 'plain' }, 'z'));
  const ids = [...xhtml.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
  expect(new Set(ids).size).toBe(ids.length);
  expect(ids).toEqual(['s1', 'b1', '_7_20_a', '_x-page-1', 'plain']);
});
