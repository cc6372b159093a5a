import { describe, expect, it } from 'vitest';
import { inches, millimetres } from '#base';
import type { PrintEdition } from '#book';
import {
  builtInDesigns,
  type DesignSettings,
  gutterFor,
  leastGutter,
  type PrintDesign,
  press,
  resolveForPrint,
  trims,
} from '#design';
import { PRINT } from '../builders/book.ts';

const quoin = builtInDesigns[0]!;

function resolved(width: number, height: number, pages = 240, settings: DesignSettings = quoin): PrintDesign {
  return resolveForPrint(settings, { ...(PRINT as PrintEdition), trim: { width, height } }, { pages });
}

describe('gutters of the standard press (FACTS 4.2, boundary figures)', () => {
  const standard = press('pod-standard');
  it.each([
    [150, 0.375],
    [151, 0.5],
    [300, 0.5],
    [301, 0.625],
    [500, 0.625],
    [501, 0.75],
    [700, 0.75],
    [701, 0.875],
  ])('%i pages ask for %f inches', (pages, inside) => {
    expect(leastGutter(standard, pages)).toBe(inches(inside));
  });

  it('knows no gutter outside its range, but lays a draft out all the same', () => {
    expect(leastGutter(standard, 829)).toBeNull();
    expect(leastGutter(standard, 23)).toBeNull();
    expect(gutterFor(standard, 8)).toBe(inches(0.375));
    expect(gutterFor(standard, 1200)).toBe(inches(0.875));
  });
});

describe('the page of the built-in design', () => {
  it('is 11.5 on 14 points, 300 wide, 36 lines, at 5.5 by 8.5 inches', () => {
    const { frame, text } = resolved(396, 612);
    expect([text.size, text.leading, frame.measure, frame.lines]).toEqual([11.5, 14, 300, 36]);
  });

  it('has margins that grow inner, top, outer, bottom (FACTS T-31)', () => {
    const { frame } = resolved(396, 612);
    const top = quoin.margins.top;
    const bottom = 612 - (frame.firstBaseline + (frame.lines - 1) * frame.leading);
    expect(frame.inner).toBeLessThan(top);
    expect(top).toBeLessThan(frame.outer);
    expect(frame.outer).toBeLessThan(bottom);
  });

  it('keeps its measure when the gutter grows, and so its line breaks, until the outer margin gives out', () => {
    // 0.75 in and 0.875 in (FACTS 4.2), and a fifth of an em for what hangs into the margin.
    expect(resolved(396, 612, 600).frame).toMatchObject({ inner: 56.3, outer: 39.7, measure: 300 });
    expect(resolved(396, 612, 600).key).toBe(resolved(396, 612, 100).key);
    expect(resolved(396, 612, 800).frame).toMatchObject({ inner: 65.3, outer: 36, measure: 294.7 });
  });
});

describe('a design at its own trim', () => {
  it('keeps the size that it was drawn with', () => {
    const settings = { ...quoin, text: { ...quoin.text, size: 9 } };
    const design = resolveForPrint(settings, PRINT as PrintEdition, { pages: 200 });
    expect([design.text.size, design.text.leading]).toEqual([9, 14]);
  });
});

describe('every trim of the trade', () => {
  const pairs = builtInDesigns.flatMap((settings) =>
    trims.map((trim) => [trim.id, settings.id, trim, settings] as const),
  );

  it.each(pairs)('%s holds a good line at every page count in %s', (_, __, trim, settings) => {
    for (const pages of [24, 200, 400, 600, 828]) {
      const design = resolved(trim.width, trim.height, pages, settings);
      const characters = design.frame.measure / (design.text.size * settings.text.character);
      // FACTS T-01: 45 to 75 characters; T-03: leading 120 to 145 per cent.
      expect(characters).toBeGreaterThanOrEqual(45);
      expect(characters).toBeLessThanOrEqual(75);
      expect(design.text.leading / design.text.size).toBeGreaterThanOrEqual(1.2);
      expect(design.text.leading / design.text.size).toBeLessThanOrEqual(1.45);
      expect(design.frame.inner).toBeGreaterThanOrEqual(gutterFor(press('pod-standard'), pages));
      expect(design.frame.outer).toBeGreaterThanOrEqual(inches(0.25));
      expect(design.frame.inner + design.frame.measure + design.frame.outer).toBeCloseTo(trim.width, 2);
      const last = design.frame.firstBaseline + (design.frame.lines - 1) * design.frame.leading;
      expect(design.folios.footBaseline).toBeGreaterThan(last);
      expect(trim.height - design.folios.footBaseline).toBeGreaterThan(18);
      expect(design.heads.baseline).toBeGreaterThan(18);
    }
  });

  it('takes a smaller size on a small page and a larger one on a large page', () => {
    expect(resolved(inches(4.25), inches(6.87)).text.size).toBe(10.5);
    expect(resolved(inches(5), inches(8)).text.size).toBe(10.5);
    expect(resolved(millimetres(129), millimetres(198)).text.size).toBe(11);
    expect(resolved(inches(6), inches(9)).text.size).toBe(12.5);
  });
});
