import { describe, expect, it } from 'vitest';
import { book, cell, chapter, h, item, list, note, p, row, section, table } from '../builders/book.ts';
import { linesOf, madeUp } from './laws.ts';
import { lines } from './text.ts';

describe('lists', () => {
  it('put figures and bullets beside their items', () => {
    const nested = list(
      { ordered: true, start: 3 },
      item(p('Salt')),
      item(p('Rope'), list(item(p('thin')), item(p('thick')))),
    );
    const { pages } = madeUp(book(chapter('One', p(lines(2)), nested)));
    expect(linesOf(pages[0]!).slice(4, -1)).toEqual(['3. | Salt', '4. | Rope', '\u2013 | thin', '\u2013 | thick']);
  });
});

describe('tables', () => {
  it('set cells in columns under a rule', () => {
    const goods = table(row({ header: true }, cell(p('Goods')), cell(p('Price'))), row(cell(p('Salt')), cell(p('2'))));
    const { pages } = madeUp(book(chapter('One', p(lines(2)), goods)));
    expect(linesOf(pages[0]!).slice(4, -1)).toEqual(['---', 'Goods | Price', '---', 'Salt | 2', '---']);
  });
});

describe('a table near the foot of a page', () => {
  const rows = (count: number) =>
    Array.from({ length: count }, (_, index) => row(cell(p(`good ${index}`)), cell(p(String(index)))));

  it.each([16, 18, 20, 22])(
    'of a few rows stays whole, and the text goes on before it (%i lines above it)',
    (before) => {
      const goods = table(row({ header: true }, cell(p('Goods')), cell(p('Price'))), ...rows(4));
      const { pages } = madeUp(
        book(chapter('One', p(lines(before, 'a')), goods, ...'bcdefg'.split('').map((each) => p(lines(4, each))))),
      );
      const shown = pages.map((page) => linesOf(page).filter((each) => each.startsWith('good')).length);
      expect(shown.filter((count) => count > 0)).toEqual([4]);
      expect(linesOf(pages[0]!).length).toBeGreaterThan(20);
    },
  );

  it.each([8, 9, 10])('of many rows leaves none of them alone (%i lines above it)', (before) => {
    for (const count of [24, 25, 26, 36, 37]) {
      const { pages } = madeUp(book(chapter('One', p(lines(before, 'a')), table(...rows(count)), p(lines(9, 'z')))));
      const shown = pages.map((page) => linesOf(page).filter((each) => each.startsWith('good')).length);
      expect(shown.filter((each) => each > 0)).not.toContain(1);
    }
  });
});

describe('what no page can hold as it is', () => {
  it('a table of very high rows runs on as text', () => {
    const wide = table(row(cell(p(lines(30, 'x'))), cell(p(lines(30, 'y')))), row(cell(p('z')), cell(p('w'))));
    const { pages } = madeUp(book(chapter('One', p(lines(2)), wide)));
    expect(pages.length).toBeGreaterThan(2);
  });

  it('a table of very many columns too', () => {
    const many = table(row(...Array.from({ length: 40 }, (_, index) => cell(p(`cell ${index}`)))));
    madeUp(book(chapter('One', p(lines(2)), many)));
  });

  it('a list of many depths stays readable', () => {
    let inner = list(item(p('bottom')));
    for (let depth = 0; depth < 15; depth++) inner = list(item(p('deep down'), inner));
    madeUp(book(chapter('One', p(lines(2)), inner)));
  });

  it('a title of many lines, a note of many pages, a heading of a page', () => {
    const words = (count: number) => Array.from({ length: count }, () => 'word').join(' ');
    const long = chapter(words(400), p('Here', note(p(lines(120, 'n'))), ' it is.'), h(words(600)), p(lines(3)));
    madeUp(book(long, section('titlePage', words(300)), section('dedication', null, p(words(900)))));
  });
});
