/** How large pictures are printed: never beyond their room, plates over every edge. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { covering, defaultPress, type FigureWish, figureSize, type PageFrame } from '#design';

const FRAME: PageFrame = {
  trim: { width: 396, height: 612 },
  inner: 54,
  outer: 45,
  measure: 297,
  size: 11,
  leading: 14,
  firstBaseline: 60,
  lines: 36,
};

const shapes = fc.record({ width: fc.integer({ min: 1, max: 8000 }), height: fc.integer({ min: 1, max: 8000 }) });
const wish = (some: Partial<FigureWish> = {}): FigureWish => ({ place: null, width: null, ...some });

describe('a picture in the text', () => {
  it('is printed at 300 pixels to the inch where that is enough to be seen, else larger', () => {
    // FACTS P-32: printers want 300 pixels to the inch.
    expect(figureSize({ width: 1000, height: 500 }, wish(), FRAME).width).toBeCloseTo((1000 / 300) * 72, 6);
    const small = figureSize({ width: 300, height: 200 }, wish(), FRAME);
    expect(small.width).toBeCloseTo(300 * (72 / 150), 6);
  });

  it('takes its share of the measure', () => {
    expect(figureSize({ width: 900, height: 300 }, wish({ width: 0.5 }), FRAME).width).toBeCloseTo(297 / 2, 6);
    expect(figureSize({ width: 900, height: 300 }, wish({ width: 1 }), FRAME, 200).width).toBeCloseTo(200, 6);
  });

  it('keeps its shape and stays within the page, whatever is wished', () => {
    const wishes = fc.record({
      place: fc.constantFrom(null, 'page' as const),
      width: fc.oneof(fc.constant(null), fc.double({ min: 0, max: 3, noNaN: true })),
    });
    fc.assert(
      fc.property(shapes, wishes, (shape, wished) => {
        const { width, height } = figureSize(shape, wished, FRAME);
        expect(width / height / (shape.width / shape.height)).toBeCloseTo(1, 6);
        expect(width).toBeLessThanOrEqual(FRAME.measure + 1e-6);
        expect(height).toBeLessThanOrEqual(FRAME.lines * FRAME.leading);
      }),
    );
  });
});

describe('a plate', () => {
  it('covers its page from the spine to beyond the three outer edges, and no more than it must', () => {
    const { bleed } = defaultPress;
    const room = { width: 396 + bleed, height: 612 + 2 * bleed };
    fc.assert(
      fc.property(shapes, (shape) => {
        const size = figureSize(shape, wish({ place: 'bleed' }), FRAME);
        expect(size.width).toBeGreaterThanOrEqual(room.width - 1e-6);
        expect(size.height).toBeGreaterThanOrEqual(room.height - 1e-6);
        expect(Math.min(size.width - room.width, size.height - room.height)).toBeCloseTo(0, 6);
        expect(size).toEqual(covering(shape, room));
      }),
    );
  });
});
