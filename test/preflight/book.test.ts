import { expect, test } from 'vitest';
import type { Finding } from '#base';
import { applyChange, type Book, type Change, textOf } from '#book';
import { isLanguageTag, preflight } from '#preflight';
import {
  book,
  bookValue,
  br,
  chapter,
  EBOOK,
  em,
  figure,
  note,
  PRINT,
  p,
  part,
  sceneBreak,
  section,
} from '../builders/book.ts';

function value(...parts: Parameters<typeof bookValue>): Book {
  return bookValue(...parts);
}

const CLEAN = book(chapter('One', p('Nothing “to see” here; it’s clean — isn’t it…')));

function findings(of: Book): readonly Finding<Change>[] {
  return preflight({ book: of });
}

function rules(of: Book): readonly string[] {
  return findings(of).map((each) => each.rule);
}

/** The book after the fix of its only finding. */
function mended(of: Book): Book {
  const [finding, ...others] = findings(of);
  expect(others).toEqual([]);
  const outcome = applyChange(of, finding!.fix!);
  if (!outcome.ok) throw new Error(outcome.problem);
  expect(findings(outcome.value.book)).toEqual([]);
  return outcome.value.book;
}

test('a clean book has no findings', () => {
  expect(findings(value(CLEAN))).toEqual([]);
});

test('title, author, language and series number', () => {
  expect(rules(value(CLEAN, { metadata: { title: ' ' } }))).toEqual(['metadata/no-title']);
  expect(rules(value(CLEAN, { metadata: { contributors: [] } }))).toEqual(['metadata/no-author']);
  const editor = [{ name: 'E', fileAs: null, role: 'edt' }];
  expect(rules(value(CLEAN, { metadata: { contributors: editor } }))).toEqual(['metadata/no-author']);
  expect(rules(value(CLEAN, { metadata: { language: 'English' } }))).toEqual([]);
  expect(rules(value(CLEAN, { metadata: { language: 'en_GB' } }))).toEqual(['metadata/language']);
  const series = (number: string) => rules(value(CLEAN, { metadata: { series: { name: 'S', number } } }));
  expect(series('2.5')).toEqual([]);
  expect(series('II')).toEqual(['metadata/series-number']);
});

// Examples of RFC 5646, appendix A.
test('well-formed language tags', () => {
  const good = [
    'de',
    'zh-Hant',
    'zh-cmn-Hans-CN',
    'sr-Latn-RS',
    'sl-rozaj-biske',
    'de-CH-1901',
    'es-419',
    'en-US-u-islamcal',
  ];
  const bad = ['', 'e', 'de-419-DE', 'en_GB', 'en-', 'en GB', 'a-DE', 'ar-a-'];
  expect(good.filter((tag) => !isLanguageTag(tag))).toEqual([]);
  expect(bad.filter(isLanguageTag)).toEqual([]);
});

function isbn(...numbers: readonly (string | null)[]): Book {
  const [print = null, ebook = null] = numbers;
  return value(CLEAN, {
    editions: [
      { ...PRINT, isbn: print },
      { ...EBOOK, isbn: ebook },
    ],
  });
}

// FACTS 5.1 (ISO 2108) and I-01 (ISBN Users' Manual).
test('ISBNs', () => {
  expect(rules(isbn('9780306406157', '9783161484100'))).toEqual([]);
  expect(rules(isbn('9780306406158'))).toEqual(['identifiers/isbn']);
  expect(findings(isbn('9780306406158'))[0]?.message).toMatch(
    /check digit 8 .* ask for 7; compare it with your ISBN agency/,
  );
  expect(findings(isbn('0-306-40615-3'))[0]?.message).toMatch(/check digit that does not fit/);
  expect(findings(isbn('9770306406157'))[0]?.message).toMatch(/978 or 979/);
  expect(findings(isbn('97803064061'))[0]?.message).toMatch(/13 digits/);
  expect(rules(isbn('9780306406175'))).toEqual(['identifiers/isbn']);
  expect(rules(isbn('9780306406157', '0-306-40615-2'))).toContain('identifiers/isbn-shared');
  expect(rules(isbn('9780306406157', '9780306406157'))).toEqual(['identifiers/isbn-shared']);
  expect(rules(isbn('9799999999990'))).toEqual(['identifiers/isbn-range']);
  expect(rules(value(CLEAN, { metadata: { identifier: '' } }))).toEqual(['identifiers/none']);
});

test('ISBNs in other forms are put into digits', () => {
  expect(mended(isbn(null, '978-0-306-40615-7')).editions[1]?.isbn).toBe('9780306406157');
  expect(mended(isbn('0-306-40615-2')).editions[0]?.isbn).toBe('9780306406157');
});

test('leftovers of typing are counted by section and mended', () => {
  const leftover = (text: string) => value(book(chapter('One', p(text))));
  const text = (of: Book) => textOf(of.text.child(0).child(1));
  expect(text(mended(leftover('One  two   three')))).toBe('One two three');
  expect(text(mended(leftover('\tOne two ')))).toBe('One two');
  expect(text(mended(leftover("Don't can't")))).toBe('Don’t can’t');
  expect(text(mended(leftover('Well...')))).toBe('Well…');
  expect(findings(leftover('One  two   three'))[0]).toMatchObject({
    rule: 'text/doubled-space',
    message: '2 doubled spaces in “One”.',
    at: { block: 'b2', offset: 3 },
    section: 's1',
  });
  expect(rules(leftover('He said "no".'))).toEqual(['text/straight-quote']);
  expect(rules(leftover("He said 'no'."))).toEqual(['text/straight-quote']);
  expect(rules(leftover('One -- two'))).toEqual(['text/double-hyphen']);
  expect(rules(leftover('A board of 6\' 4" and 5... no'))).toEqual(['text/dots']);
  expect(rules(leftover('“Four....” Well-known. 3 - 2'))).toEqual([]);
});

test('leftovers are found across marks and in notes, and mended there', () => {
  const before = value(book(chapter('One', p('a ', em(' b'), note('n  n'), 'c', br(), 'd'))));
  const after = mended(before);
  expect(after.text.child(0).textContent).toBe('Onea bn ncd');
});

test('placeholders', () => {
  const of = (text: string) => findings(value(book(chapter('One', p(text))))).map((each) => each.message);
  expect(of('He took the TK to town. XXX')).toEqual([
    '“TK” looks like a placeholder.',
    '“XXX” looks like a placeholder.',
  ]);
  expect(of('A [insert name of river] and [Check date]')).toHaveLength(2);
  expect(of('Lorem ipsum dolor')).toHaveLength(1);
  expect(of('Love, Mum xxx. Latke, todo el mundo; chapter XX [sic]')).toEqual([]);
});

test('empty sections and paragraphs', () => {
  const empty = findings(
    value(book(chapter('One'), chapter(null, sceneBreak()), part('Two'), section('titlePage', null))),
  );
  expect(empty.map((each) => [each.rule, each.message])).toEqual([
    ['text/empty-section', '“One” has no text.'],
    ['text/empty-section', '“Chapter” has no text.'],
  ]);
  expect(rules(value(book(chapter('One', p('x'), p(''), p(br())))))).toEqual([
    'text/empty-paragraph',
    'text/empty-paragraph',
  ]);
  const picture = value(book(chapter('One', figure('gone', { decorative: true }))));
  expect(rules(picture)).toEqual(['images/missing']);
});

test('quotations that stay open', () => {
  const of = (language: string, ...paragraphs: readonly string[]) =>
    findings(value(book(chapter('One', ...paragraphs.map((each) => p(each)))), { metadata: { language } }));
  expect(of('en', '“One,” he said. “Two', 'Three.').map((each) => [each.rule, each.at])).toEqual([
    ['text/open-quotation', { block: 'b2', offset: 16 }],
  ]);
  expect(of('en', '“One', '“Two', '“Three,” he said.')).toEqual([]);
  expect(of('en', '“One')).toHaveLength(1);
  expect(of('de', '„Eins“, sagte er. „Zwei.', 'Drei')).toHaveLength(1);
  expect(of('de', '„Eins“, sagte er.')).toEqual([]);
  expect(of('fr', '« Un', '» deux »')).toEqual([]);
  expect(of('fi', '”Yksi”')).toEqual([]);
});

test('pictures need a description or none at all', () => {
  const asset = { id: 'a', bytes: new Uint8Array(), mediaType: 'image/png', name: 'weir.png', pixels: null };
  const of = (attributes: { readonly alt?: string; readonly decorative?: boolean }) =>
    rules(value(book(chapter('One', p('x'), figure('a', attributes))), { assets: new Map([['a', asset]]) }));
  expect(of({})).toEqual(['images/alternative']);
  expect(of({ alt: 'A weir' })).toEqual([]);
  expect(of({ decorative: true })).toEqual([]);
});
