import { expect, test } from 'vitest';
import { makeEbook } from '#ebook';
import { book, bookValue, chapter, em, h, p, part, section } from '../builders/book.ts';
import { fileOf, filesOf, request } from './request.ts';
import { richBook, richPages } from './rich.ts';

const value = bookValue(
  book(
    section('titlePage', null),
    section('dedication', null, p('For M.')),
    section('contents', null),
    section('prologue', 'Low Water', p('x')),
    part('North'),
    chapter(['The ', em('Weir')], p('x')),
    part('South & Beyond'),
    chapter(null, p('x')),
    section('acknowledgments', 'Thanks', p('x')),
  ),
);

/** One `nav` of the nav document. */
function nav(xhtml: string, type: string): string {
  return new RegExp(`<nav[^>]*epub:type="${type}"[\\s\\S]*?</nav>`).exec(xhtml)?.[0] ?? '';
}

/** The entries of a list as an outline, two spaces a level. */
function outline(list: string): string {
  let depth = 0;
  const lines: string[] = [];
  for (const [, tag, href, label] of list.matchAll(/<(\/?ol)>|<a href="([^"]*)"[^>]*>([^<]*)<\/a>/g)) {
    if (tag === 'ol') depth++;
    else if (tag === '/ol') depth--;
    else lines.push(`${'  '.repeat(depth - 1)}${label} > ${href}`);
  }
  return lines.join('\n');
}

test('chapters stand under their part; what needs no finding is left out', () => {
  const toc = nav(fileOf(value, 'nav.xhtml'), 'toc');
  expect(toc).toContain('role="doc-toc"');
  expect(outline(toc)).toBe(
    [
      'Low Water > text/prologue.xhtml',
      'Part One: North > text/part-01.xhtml',
      '  Chapter One: The Weir > text/chapter-01.xhtml',
      'Part Two: South &amp; Beyond > text/part-02.xhtml',
      '  Chapter Two > text/chapter-02.xhtml',
      'Thanks > text/acknowledgments.xhtml',
    ].join('\n'),
  );
});

test('landmarks are few, each of its own kind', () => {
  const landmarks = nav(fileOf(value, 'nav.xhtml'), 'landmarks');
  expect(landmarks).toContain('hidden="hidden"');
  expect(landmarks.match(/epub:type="[^"]*"/g)).toEqual([
    'epub:type="landmarks"',
    'epub:type="cover"',
    'epub:type="titlepage"',
    'epub:type="toc"',
    'epub:type="bodymatter"',
  ]);
  expect(landmarks).toContain('href="text/prologue.xhtml" epub:type="bodymatter"');
});

test('the contents stand in the spine where the edition has them, and only there', () => {
  const spine = (opf: string): readonly string[] =>
    [...opf.matchAll(/<itemref idref="([^"]*)"/g)].map((each) => each[1] ?? '');
  expect(spine(fileOf(value, 'package.opf')).indexOf('nav')).toBe(3);
  expect(spine(fileOf(bookValue(book(chapter('One', p('x')))), 'package.opf'))).not.toContain('nav');
});

test('the old contents say the same as the new', () => {
  const ncx = fileOf(value, 'toc.ncx');
  expect(ncx).toContain('<meta name="dtb:uid" content="urn:uuid:00000000-0000-5000-8000-000000000001"/>');
  expect(ncx).toContain('<meta name="dtb:depth" content="2"/>');
  expect([...ncx.matchAll(/<text>([^<]*)<\/text>/g)].map((each) => each[1])).toEqual([
    'The Salt Ledger',
    'Low Water',
    'Part One: North',
    'Chapter One: The Weir',
    'Part Two: South &amp; Beyond',
    'Chapter Two',
    'Thanks',
  ]);
});

// EPUB Accessibility 1.1: the page list leads to every marker (FACTS E-62), in reading order.
test('the page list holds every marker once, in the order of the spine', () => {
  const rich = richBook();
  const starts = richPages(rich);
  const files = filesOf(makeEbook(request(rich, { pageStarts: starts, printIsbn: null })));
  const opf = files.get('EPUB/package.opf') ?? '';
  const paths = new Map([...opf.matchAll(/<item id="([^"]*)" href="([^"]*)"/g)].map((each) => [each[1], each[2]]));
  const markers = [...opf.matchAll(/<itemref idref="([^"]*)"/g)].flatMap((item) => {
    const path = paths.get(item[1]) ?? '';
    const found = (files.get(`EPUB/${path}`) ?? '').matchAll(
      /<span id="([^"]*)" epub:type="pagebreak" role="doc-pagebreak" aria-label="([^"]*)"><\/span>/g,
    );
    return [...found].map((each) => `${each[2]} > ${path}#${each[1]}`);
  });
  const list = nav(files.get('EPUB/nav.xhtml') ?? '', 'page-list');
  expect(outline(list).split('\n')).toEqual(markers);
  // All pages but that of the half title, which ebooks leave out.
  expect(markers.length).toBe(starts.length - 1);
  expect(list).toContain('role="doc-pagelist"');
  expect(files.get('EPUB/toc.ncx')?.match(/<pageTarget /g)?.length).toBe(markers.length);
});

test('a page that begins with a heading is marked before it, so that its number is no part of its name', () => {
  const one = bookValue(book(chapter('One', p('x'), h('Sub'), p('y'))));
  const pageStarts = [
    { label: '1', block: 'b1', offset: 0 },
    { label: '2', block: 'b3', offset: 0 },
    { label: '3', block: 'b3', offset: 2 },
  ];
  const xhtml = fileOf(one, 'text/chapter-01.xhtml', { pageStarts });
  const span = (label: string): string =>
    `<span id="x-page-${label}" epub:type="pagebreak" role="doc-pagebreak" aria-label="${label}"></span>`;
  expect(xhtml).toContain(`${span('1')}<header class="opener">`);
  expect(xhtml).toContain(`${span('2')}<h2 id="b3" class="subhead-1">Su${span('3')}b</h2>`);
});

test('a page that begins with a bare number is marked before the number', () => {
  const pageStarts = [{ label: '1', block: 'b1', offset: 0 }];
  const xhtml = fileOf(bookValue(book(chapter(null, p('x')))), 'text/chapter-01.xhtml', { pageStarts });
  expect(xhtml).toContain('aria-label="1"></span><header class="opener">');
  expect(xhtml.match(/doc-pagebreak/g)).toHaveLength(1);
});

test('pages that this edition does not have are left out', () => {
  const pageStarts = [
    { label: 'i', block: 'elsewhere', offset: 0 },
    { label: '1', block: 'b1', offset: 0 },
  ];
  const xhtml = fileOf(bookValue(book(chapter('One', p('x')))), 'nav.xhtml', { pageStarts });
  expect(outline(nav(xhtml, 'page-list'))).toBe('1 > text/chapter-01.xhtml#x-page-1');
});
