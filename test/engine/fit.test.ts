/** Fitting a book to a page count, on a paper book whose pages are counted from its settings. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Fit, PrintEdition } from '#book';
import { builtInDesigns, type DesignSettings, frozenSettings } from '#design';
import { type Fitted, fitPages } from '#engine';

const quoin = builtInDesigns[0] as DesignSettings;

const edition: PrintEdition = {
  id: 'print',
  name: 'Paperback',
  kind: 'print',
  design: 'quoin',
  isbn: null,
  trim: { width: 396, height: 612 },
  notes: 'foot',
};

/** Pages of a book of so many characters in even lines: they follow from characters to the line and lines to the page. */
function paper(characters: number): (settings: DesignSettings) => number {
  return (settings) => {
    const { text, margins, trim } = settings;
    const across = (trim.width - margins.inner - margins.outer) / (text.size * text.character);
    const { lines } = frozenSettings(settings, edition, 0);
    const pages = Math.ceil(characters / across / lines);
    return pages + (pages % 2);
  };
}

interface Tried extends Fitted {
  readonly before: number;
  /** How many times the pages were counted. */
  readonly counts: number;
}

function fitted(wish: Fit, characters = 500_000): Tried {
  let counts = 0;
  const pagesOf = paper(characters);
  const before = pagesOf(quoin);
  const count = (settings: DesignSettings): number => {
    counts++;
    return pagesOf(settings);
  };
  return { ...fitPages({ fit: wish, edition, settings: quoin, pages: before, count }), before, counts };
}

describe('fitPages', () => {
  it('leaves a book alone that has the pages wanted', () => {
    const before = fitted({ kind: 'fewest' }).before;
    const { pages, finding, settings } = fitted({ kind: 'pages', pages: before });
    expect([pages, finding.rule]).toEqual([before, 'fit/unchanged']);
    expect(settings).toBe(quoin);
  });

  it('reaches counts on both sides, by leading alone where that does it', () => {
    const own = fitted({ kind: 'fewest' }).before;
    const longer = fitted({ kind: 'pages', pages: own + 24 });
    const shorter = fitted({ kind: 'pages', pages: own - 20 });
    expect([longer.pages, shorter.pages]).toEqual([own + 24, own - 20]);
    expect(longer.settings.text.leading).toBeGreaterThan(quoin.text.leading);
    expect([longer.finding.rule, shorter.finding.rule]).toEqual(['fit/changed', 'fit/changed']);
  });

  // Of the 36 lines of the design, leadings of 118 to 145 per cent (FACTS T-03) leave 31 to 37.
  it.each([-3, -2, -1, 1])('leaves size and measure alone where %i lines to the page do it', (more) => {
    const { settings: own, lines } = frozenSettings(quoin, edition, 0);
    const leading = Math.floor(((lines - 1) * own.text.leading * 20) / (lines + more - 1)) / 20;
    const wanted = paper(500_000)({ ...own, text: { ...own.text, leading } });
    const { settings, pages, counts } = fitted({ kind: 'pages', pages: wanted });
    expect(pages).toBe(wanted);
    expect([settings.text.size, settings.margins]).toEqual([own.text.size, own.margins]);
    expect(settings.text.leading).toBeCloseTo(leading, 1);
    expect(counts).toBeLessThanOrEqual(3);
  });

  it('counts pages seldom: each count is a layout', () => {
    const { before } = fitted({ kind: 'fewest' });
    for (let wanted = before - 80; wanted <= before + 80; wanted += 2) {
      expect(fitted({ kind: 'pages', pages: wanted }).counts).toBeLessThanOrEqual(16);
    }
  });

  it('says in one sentence what it changed', () => {
    const own = fitted({ kind: 'fewest' }).before;
    expect(fitted({ kind: 'pages', pages: own + 24 }).finding.message).toMatch(
      /^Set in [\d.]+ on [\d.]+ points(, lines \d+ points (wider|narrower),)? instead of 11\.5 on 14 to make \d+ pages\.$/,
    );
  });

  it('comes as near as reading allows and says so', () => {
    const { pages, finding, before } = fitted({ kind: 'pages', pages: 40 });
    expect(pages).toBeLessThan(before);
    expect(finding).toMatchObject({ rule: 'fit/missed', severity: 'warning' });
    expect(finding.message).toContain(`the nearest is ${pages}`);
  });

  // Signatures of 8 and 16 pages: FACTS M-13.
  it.each([8, 16] as const)('reaches a multiple of %i within half of one', (of) => {
    const { pages, before } = fitted({ kind: 'multiple', of });
    expect(pages % of).toBe(0);
    expect(Math.abs(pages - before)).toBeLessThanOrEqual(of / 2);
  });

  it('stays inside the published limits whatever is asked', () => {
    const wishes = fc.oneof(
      fc.integer({ min: 1, max: 400 }).map((half): Fit => ({ kind: 'pages', pages: half * 2 })),
      fc.constantFrom<Fit>({ kind: 'multiple', of: 8 }, { kind: 'multiple', of: 16 }, { kind: 'fewest' }),
    );
    fc.assert(
      fc.property(wishes, fc.integer({ min: 20_000, max: 900_000 }), (wish, characters) => {
        const { settings, pages } = fitted(wish, characters);
        const { text, margins, trim } = settings;
        // Leading: FACTS T-03; size: T-04; characters to the line: T-01 (the page is given, so its own may stand).
        expect(text.leading / text.size).toBeGreaterThanOrEqual(1.18);
        expect(text.leading / text.size).toBeLessThanOrEqual(1.45);
        expect(text.size).toBeGreaterThanOrEqual(9.5);
        expect(text.size).toBeLessThanOrEqual(13);
        const across = (trim.width - margins.inner - margins.outer) / (text.size * text.character);
        expect(across).toBeGreaterThanOrEqual(45);
        expect(across).toBeLessThanOrEqual(75);
        // What is reported is what was laid out, and the same wish gives the same answer.
        expect(paper(characters)(settings)).toBe(pages);
        expect(fitted(wish, characters).settings).toEqual(settings);
      }),
      { numRuns: 60 },
    );
  });

  it('keeps large print large: its size and its leading grow or stay (FACTS T-29)', () => {
    const large = { ...edition, largePrint: 16, trim: { width: 432, height: 648 } };
    const settings = { ...quoin, trim: large.trim, text: { ...quoin.text, size: 16, leading: 24 } };
    const count = (tried: DesignSettings) => Math.ceil(90_000 / (tried.margins.inner + tried.text.size)) * 2;
    const fitted = fitPages({ fit: { kind: 'fewest' }, edition: large, settings, pages: count(settings), count });
    expect(fitted.settings.text.size).toBeGreaterThanOrEqual(16);
    expect(fitted.settings.text.leading / fitted.settings.text.size).toBeGreaterThanOrEqual(1.5);
  });
});
