import { expect, test } from 'vitest';
import { type Finding, inches } from '#base';
import { type Change, selectEdition } from '#book';
import { defaultPress, leastGutter, press } from '#design';
import type { Page } from '#page';
import { effectivePpi, preflight } from '#preflight';
import { book, bookValue, chapter, line, note, PRINT, p, section, stanza, verse } from '../builders/book.ts';
import { filler, type Line, page, pagesOf, paragraph } from './pages.ts';

const ASSET = {
  id: 'a',
  bytes: new Uint8Array(),
  mediaType: 'image/png',
  name: 'weir.png',
  pixels: { width: 1800, height: 1200 },
};

const TEXT = book(
  chapter('One', p({ id: 'x' }, 'x'), p({ id: 'y' }, 'y', note(p({ id: 'inNote' }, 'n'))), p({ id: 'z' }, 'z')),
  section('epilogue', null, verse(stanza(line({ id: 'v' }, 'v')))),
);

function findings(pages: readonly Page[], trim = PRINT.trim): readonly Finding<Change>[] {
  const value = bookValue(TEXT, { editions: [{ ...PRINT, trim }], assets: new Map([['a', ASSET]]) });
  return preflight({ book: value, view: selectEdition(value, 'print'), pages });
}

/** The rules of one family that fire. */
function rules(pages: readonly Page[], family: string): readonly string[] {
  return findings(pages)
    .filter((each) => each.rule.startsWith(family))
    .map((each) => `${each.severity} ${each.rule} ${each.page ?? ''}`.trim());
}

test('a decent book block has no findings', () => {
  expect(findings(filler(24))).toEqual([]);
});

// FACTS M-12, M-14 (two printers' published limits).
test('page counts', () => {
  expect(rules(filler(25), 'pages/odd-count')).toHaveLength(1);
  expect(rules(filler(22), 'pages/count')).toEqual(['error pages/count']);
  expect(rules(filler(830), 'pages/count')).toEqual(['error pages/count']);
  expect(rules(filler(828), 'pages/count')).toEqual([]);
  expect(rules(filler(778), 'pages/paper')).toEqual(['warning pages/paper']);
  expect(rules(filler(776), 'pages/paper')).toEqual([]);
});

// FACTS 4.2 (margins table of one printer, three transcriptions).
test('the inside margin follows the page count', () => {
  const least = (pages: number) => (leastGutter(defaultPress, pages) ?? Number.NaN) / 72;
  expect([150, 151, 300, 301, 500, 501, 700, 701].map(least)).toEqual([
    0.375, 0.5, 0.5, 0.625, 0.625, 0.75, 0.75, 0.875,
  ]);
  expect([23, 829].map(least)).toEqual([Number.NaN, Number.NaN]);
  for (const [pages, inside] of [
    [150, 0.375],
    [300, 0.5],
    [500, 0.625],
    [700, 0.75],
    [828, 0.875],
  ] as const) {
    expect(rules(filler(pages, { inside: inches(inside) }), 'pages/gutter')).toEqual([]);
    expect(rules(filler(pages, { inside: inches(inside) - 1 }), 'pages/gutter')).toEqual(['warning pages/gutter 1']);
    expect(rules(filler(pages, { inside: inches(inside) - 9 }), 'pages/gutter')).toEqual(['error pages/gutter 1']);
  }
  expect(rules(filler(152, { inside: inches(0.375) }), 'pages/gutter')).toEqual(['error pages/gutter 1']);
});

test('the press decides: another one asks for more', () => {
  const value = bookValue(TEXT);
  const view = selectEdition(value, 'print');
  const pages = filler(152, { inside: inches(0.6) });
  expect(preflight({ book: value, view, pages })).toEqual([]);
  const generous = preflight({ book: value, view, pages, press: press('pod-generous') });
  expect(generous.map((each) => each.rule)).toEqual(['pages/gutter']);
  expect(generous[0]?.message).toContain('0.6 in where');
});

test('nothing prints close to the outer edges', () => {
  const margin = (text: string) =>
    rules([...filler(24).slice(0, 22), page({}, paragraph('x', text))(22), page({})(23)], 'pages/margin');
  expect(margin('x'.repeat(63))).toEqual([]);
  expect(margin('x'.repeat(64))).toEqual(['warning pages/margin 23']);
  expect(margin('x'.repeat(65))).toEqual(['error pages/margin 23']);
  expect(margin(`A line${' '.repeat(59)}`)).toEqual([]);
});

// FACTS 4.2: a book with bleed keeps 0.375 in clear where one without keeps 0.25.
test('a picture over the edges is no fault, but asks more margin of the other pages', () => {
  const plate = page({ images: [{ asset: 'a', x: 0, y: -9, width: 405, height: 630 }] })(22);
  const book = (text: string) =>
    rules([...filler(24).slice(0, 21), page({}, paragraph('x', text))(21), plate, page({})(23)], 'pages/');
  expect(book('x'.repeat(61))).toEqual([]);
  expect(book('x'.repeat(63))).toEqual(['error pages/margin 22']);
});

test('the last page and the trim', () => {
  const full = [...filler(24).slice(0, 23), page({}, paragraph('z', 'last'))(23)];
  expect(rules(full, 'pages/last-page')).toEqual(['note pages/last-page 24']);
  expect(findings(filler(24), { width: inches(5.3), height: inches(8.1) }).map((each) => each.rule)).toEqual([
    'pages/trim',
  ]);
  expect(findings(filler(24), { width: inches(6), height: inches(9) })).toEqual([]);
});

// FACTS P-32 (printers' published figures): 1800 pixels over 6 inches are 300 to the inch, and enough.
test('resolution of pictures as placed', () => {
  const placed = (width: number, height: number) => {
    const pages = filler(24).slice(0, 22);
    const images = [{ asset: 'a', x: 40, y: 40, width: inches(width), height: inches(height) }];
    return rules([...pages, page({ images })(22), page({})(23)], 'images/');
  };
  expect(effectivePpi({ width: 432, height: 10 }, { pixels: { width: 1800, height: 1200 } })).toBe(300);
  expect(effectivePpi({ width: 432, height: 10 }, { pixels: { width: 1799, height: 1200 } })).toBeLessThan(300);
  expect(effectivePpi({ width: 864, height: 10 }, { pixels: { width: 1800, height: 1200 } })).toBe(150);
  expect(effectivePpi({ width: 432, height: 10 }, { pixels: null })).toBeNull();
  expect(placed(4, 2.5)).toEqual([]);
  expect(placed(4, 4.1)).toEqual(['warning images/resolution 23']);
  expect(placed(4, 6.1)).toEqual(['error images/resolution 23']);
});

// FACTS T-13.
test('widows and orphans', () => {
  const [one, two, three, four] = paragraph('x', 'one', 'two', 'three', 'four');
  const on = (...groups: readonly (readonly unknown[])[]) =>
    rules(pagesOf(...groups.map((group) => page({}, ...(group as Line[])))), 'lines/').filter(
      (each) => !each.includes('short-page'),
    );
  expect(on([one, two], [three, four])).toEqual([]);
  expect(on([one, two, three], [four])).toEqual(['warning lines/widow 2']);
  expect(on([one], [two, three, four])).toEqual(['warning lines/orphan 1']);
  expect(on([one, two, three, four], [])).toEqual([]);
  const inNote = paragraph('inNote', 'one', 'two');
  expect(on([inNote[0]], [inNote[1]])).toEqual([]);
  const turned = paragraph('v', 'one', 'two');
  expect(on([turned[0]], [turned[1]])).toEqual(['warning lines/orphan 1', 'warning lines/widow 2']);
});

test('a block that is shown again elsewhere is no broken paragraph', () => {
  const contents = paragraph('x', 'one');
  const text = paragraph('x', 'one', 'two');
  expect(rules(pagesOf(page({}, contents), page({}, text)), 'lines/widow')).toEqual([]);
  expect(rules(pagesOf(page({}, contents), page({}, text)), 'lines/orphan')).toEqual([]);
});

// FACTS T-08.
test('three hyphens in a row', () => {
  const on = (...texts: readonly string[]) =>
    findings(pagesOf(page({}, paragraph('x', ...texts))))
      .filter((each) => each.rule === 'lines/hyphens')
      .map((each) => each.message);
  expect(on('on\u00AD', 'tw\u00AD', 'three')).toEqual([]);
  expect(on('on\u00AD', 'half-', 'thr\u00AD', 'four')).toEqual(['3 lines in a row end in a hyphen.']);
  expect(on('a', 'on\u00AD', 'half-', 'thr\u00AD', 'four\u00AD', 'five')).toEqual([
    '4 lines in a row end in a hyphen.',
  ]);
  const [a, b] = [paragraph('x', 'on\u00AD', 'tw\u00AD'), paragraph('y', 'thr\u00AD', 'four')];
  expect(rules(pagesOf(page({}, a, b)), 'lines/hyphens')).toEqual([]);
});

// FACTS T-09.
test('no divided word at the turn of a page', () => {
  const lines = paragraph('x', 'one', 'tw\u00AD', 'three', 'fo\u00AD', 'five', 'six');
  const note = paragraph('inNote', 'di\u00AD', 'vided');
  expect(rules(pagesOf(page({}, lines.slice(0, 2), note), page({}, lines.slice(2))), 'lines/div')).toEqual([
    'warning lines/divided-at-turn 1',
  ]);
  expect(rules(pagesOf(page({}), page({}, lines.slice(0, 2)), page({}, lines.slice(2))), 'lines/div')).toEqual([]);
  expect(rules(pagesOf(page({}, lines.slice(0, 3), note), page({}, lines.slice(3))), 'lines/div')).toEqual([]);
});

// FACTS T-14.
test('a section does not end with a line or two on a page of their own', () => {
  const lines = paragraph('x', '1', '2', '3', '4', '5', '6', '7', '8');
  const short = (at: number, section?: string) =>
    rules(
      pagesOf(
        page({ opener: true }, lines.slice(0, at)),
        page({}, lines.slice(at)),
        page({ section: section ?? 's2' }),
      ),
      'lines/short',
    );
  expect(short(4)).toEqual([]);
  expect(short(5)).toEqual(['note lines/short-page 2']);
  expect(short(5, 's1')).toEqual([]);
});

test('raised marks stay on their line, and a drop cap is none', () => {
  const [one, two, three] = paragraph('x', 'one', 'two', 'three');
  const first = page({}, one!)(0);
  const run = first.items.find((item) => item.kind === 'glyphs')!;
  const cap = { ...run, x: run.x - 40, size: 40, y: run.y + 14, text: '' };
  const mark = { ...run, x: run.x + 20, y: run.y - 4, size: 7, text: '1' };
  const marked: Page = { ...first, items: [cap, run, mark] };
  expect(rules([marked, page({}, two!, three!)(1)], 'lines/')).toContain('warning lines/orphan 1');
});

test('findings of other stages are passed on, with their edition', () => {
  const value = bookValue(TEXT);
  const missing = { rule: 'type/missing-glyph', severity: 'error', message: 'No face has U+2042.' } as const;
  const view = selectEdition(value, 'print');
  expect(preflight({ book: value, view, carried: [missing] })).toEqual([{ ...missing, edition: 'print' }]);
});
