import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PACKED, type Page, PageBuilder } from '#page';

const FRAME = {
  index: 0,
  side: 'recto',
  folio: { label: '1', style: 'arabic', value: 1, printed: true },
  section: null,
  blank: false,
  opener: false,
  size: { width: 396, height: 612 },
} as const;

/** A page of one run of so many glyphs, numbered from `first`. */
function numbered(builder: PageBuilder, first: number, count: number): Page {
  builder.beginRun({ face: 'face', size: 10, x: 0, y: 20 });
  for (let at = 0; at < count; at++) {
    builder.glyph((first + at) % 0x10000, (first + at) % 999, at % 0x10000);
    if (at % 7 === 0) builder.offsetLast(at + 1, -at);
  }
  builder.endRun('x'.repeat(count));
  return builder.finish(FRAME);
}

function expectNumbered(page: Page, first: number, count: number): void {
  const numbers = (of: (at: number) => number) => Array.from({ length: count }, (_, at) => of(at));
  expect(Array.from(page.glyphs)).toEqual(numbers((at) => (first + at) % 0x10000));
  expect(Array.from(page.advances)).toEqual(numbers((at) => (first + at) % 999));
  expect(Array.from(page.clusters)).toEqual(numbers((at) => at % 0x10000));
  expect(Array.from(page.offsets ?? []).filter((_, at) => at % 14 === 0)).toEqual(
    numbers((at) => at).flatMap((at) => (at % 7 === 0 ? [at + 1] : [])),
  );
}

describe('the glyphs of a page', () => {
  test('stay as they are, whatever is set on the pages after it', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 5000 }), { minLength: 1, maxLength: 8 }), (counts) => {
        const pages = counts.map((count, at) => numbered(new PageBuilder(), at * 31, count));
        pages.forEach((page, at) => {
          expectNumbered(page, at * 31, counts[at]!);
        });
      }),
      { numRuns: 25 },
    );
  });

  test('do not mix where two pages are set at a time', () => {
    const [one, other] = [new PageBuilder(), new PageBuilder()];
    const second = numbered(other, 500, 40);
    const first = numbered(one, 7, 30);
    const third = numbered(new PageBuilder(), 90, 50);
    expectNumbered(second, 500, 40);
    expectNumbered(first, 7, 30);
    expectNumbered(third, 90, 50);
  });

  test('may come packed, and as many as there are', () => {
    const packed = Int32Array.from([0, 1, 2].flatMap((at) => [(at + 1) | (at << 16), 500]));
    expect(packed).toHaveLength(3 * PACKED);
    const builder = new PageBuilder();
    builder.beginRun({ face: 'face', size: 10, x: 0, y: 20 });
    let width = 0;
    for (let at = 0; at < 9000; at++) width += builder.append(packed, 0, 3, 0.01, 0);
    builder.endRun('x');
    const { glyphs, advances } = builder.finish(FRAME);
    expect(width).toBeCloseTo(9000 * 3 * 5);
    expect(glyphs).toHaveLength(27_000);
    expect([...glyphs.subarray(26_997)]).toEqual([1, 2, 3]);
    expect(advances.every((advance) => advance === 5)).toBe(true);
  });
});
