/** The mark of a page: another for whatever is seen of it, the same for what is not. */
import { expect, test } from 'vitest';
import { type GlyphRun, type Page, type PageItem, pageMark } from '#page';

const AT = { block: 'b1', offset: 0 };
const RUN: GlyphRun = { kind: 'glyphs', face: 'f', size: 10, x: 50, y: 80, start: 1, count: 2, text: 'ab', at: AT };
const BOX = { x: 10, y: 20, width: 30, height: 5 };
const FOLIO: GlyphRun = { ...RUN, y: 580, start: 0, count: 1, text: '7', furniture: true };

function page(items: readonly PageItem[], more: Partial<Page> = {}): Page {
  return {
    index: 6,
    side: 'recto',
    folio: { label: '7', style: 'arabic', value: 7, printed: true },
    section: 's1',
    blank: false,
    opener: false,
    size: { width: 396, height: 612 },
    items,
    glyphs: Uint16Array.of(9, 5, 6),
    advances: Float32Array.of(5, 6, 6.5),
    offsets: null,
    clusters: Uint16Array.of(0, 0, 1),
    ...more,
  };
}

test('whatever is seen makes another mark', () => {
  const picture: PageItem = { kind: 'image', asset: 'a', alt: '', at: AT, ...BOX };
  const path: PageItem = { kind: 'path', path: 'M0 0h9v9z', viewBox: { width: 9, height: 9 }, ...BOX };
  const pages: readonly Page[] = [
    page([]),
    page([], { side: 'verso' }),
    page([], { size: { width: 396, height: 613 } }),
    page([RUN]),
    page([RUN, RUN]),
    page([{ ...RUN, x: 50.01 }]),
    page([{ ...RUN, y: 81 }]),
    page([{ ...RUN, size: 11 }]),
    page([{ ...RUN, face: 'g' }]),
    page([{ ...RUN, grey: 0.5 }]),
    page([{ ...RUN, scale: 0.98 }]),
    page([{ ...RUN, count: 1 }]),
    page([RUN], { glyphs: Uint16Array.of(9, 5, 7) }),
    page([RUN], { advances: Float32Array.of(5, 6, 6.75) }),
    page([RUN], { offsets: Float32Array.of(0, 0, 0, 1, 0, 0) }),
    page([{ ...FOLIO, text: 'Low Water' }]),
    page([{ kind: 'rule', ...BOX }]),
    page([{ kind: 'rule', ...BOX, grey: 0.5 }]),
    page([{ kind: 'rule', ...BOX, height: 1 }]),
    page([picture]),
    page([{ ...picture, asset: 'b' }]),
    page([{ ...picture, clip: { ...BOX, width: 10 } }]),
    page([path]),
    page([{ ...path, path: 'M0 0h9v8z' }]),
  ];
  expect(new Set(pages.map(pageMark)).size).toBe(pages.length);
});

test('folio, places in the text, links and the pools around the runs make none', () => {
  const mark = pageMark(page([RUN]));
  expect(pageMark(page([RUN, FOLIO]))).toBe(mark);
  expect(pageMark(page([{ ...RUN, at: { block: 'b9', offset: 4 } }], { index: 8, section: 's2' }))).toBe(mark);
  expect(pageMark(page([RUN, { kind: 'link', target: { at: AT }, ...BOX }]))).toBe(mark);
  const moved = { glyphs: Uint16Array.of(5, 6), advances: Float32Array.of(6, 6.5), clusters: Uint16Array.of(0, 1) };
  expect(pageMark(page([{ ...RUN, start: 0 }], moved))).toBe(mark);
});
