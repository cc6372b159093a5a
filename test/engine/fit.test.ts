/** Fitting a book to a page count, on a paper book whose pages are counted from its settings. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Fit, PrintEdition } from '#book';
import { builtInDesigns, type DesignSettings, frozenSettings, MEAN_CHARACTER } from '#design';
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

interface Paper {
  readonly pages: { readonly length: number };
  readonly settings: DesignSettings;
}

/** A book of so many characters in even lines: pages follow from characters to the line and lines to the page. */
function paper(characters: number): (settings: DesignSettings) => Paper {
  return (settings) => {
    const { text, margins, trim } = settings;
    const across = (trim.width - margins.inner - margins.outer) / (text.size * MEAN_CHARACTER);
    const { lines } = frozenSettings(settings, edition, 0);
    const pages = Math.ceil(characters / Math.floor(across) / lines);
    return { pages: { length: pages + (pages % 2) }, settings };
  };
}

function fitted(wish: Fit, characters = 500_000): Fitted<Paper> & { readonly before: number } {
  const layOut = paper(characters);
  const layout = layOut(quoin);
  return { ...fitPages({ fit: wish, edition, settings: quoin, layout, layOut }), before: layout.pages.length };
}

describe('fitPages', () => {
  it('leaves a book alone that has the pages wanted', () => {
    const before = fitted({ kind: 'fewest' }).before;
    const { layout, finding, settings } = fitted({ kind: 'pages', pages: before });
    expect([layout.pages.length, finding.rule]).toEqual([before, 'fit/unchanged']);
    expect(settings).toBe(quoin);
  });

  it('reaches counts on both sides, by leading alone where that does it', () => {
    const own = fitted({ kind: 'fewest' }).before;
    const longer = fitted({ kind: 'pages', pages: own + 24 });
    const shorter = fitted({ kind: 'pages', pages: own - 20 });
    expect([longer.layout.pages.length, shorter.layout.pages.length]).toEqual([own + 24, own - 20]);
    expect(longer.settings.text.leading).toBeGreaterThan(quoin.text.leading);
    expect([longer.finding.rule, shorter.finding.rule]).toEqual(['fit/changed', 'fit/changed']);
  });

  it('says in one sentence what it changed', () => {
    const own = fitted({ kind: 'fewest' }).before;
    expect(fitted({ kind: 'pages', pages: own + 24 }).finding.message).toMatch(
      /^Set in [\d.]+ on [\d.]+ points(, lines \d+ points (wider|narrower),)? instead of 11\.5 on 14 to make \d+ pages\.$/,
    );
  });

  it('comes as near as reading allows and says so', () => {
    const { layout, finding, before } = fitted({ kind: 'pages', pages: 40 });
    expect(layout.pages.length).toBeLessThan(before);
    expect(finding).toMatchObject({ rule: 'fit/missed', severity: 'warning' });
    expect(finding.message).toContain(`the nearest is ${layout.pages.length}`);
  });

  // Signatures of 8 and 16 pages: FACTS M-13.
  it.each([8, 16] as const)('reaches a multiple of %i within half of one', (of) => {
    const { layout, before } = fitted({ kind: 'multiple', of });
    expect(layout.pages.length % of).toBe(0);
    expect(Math.abs(layout.pages.length - before)).toBeLessThanOrEqual(of / 2);
  });

  it('stays inside the published limits whatever is asked', () => {
    const wishes = fc.oneof(
      fc.integer({ min: 1, max: 400 }).map((half): Fit => ({ kind: 'pages', pages: half * 2 })),
      fc.constantFrom<Fit>({ kind: 'multiple', of: 8 }, { kind: 'multiple', of: 16 }, { kind: 'fewest' }),
    );
    fc.assert(
      fc.property(wishes, fc.integer({ min: 20_000, max: 900_000 }), (wish, characters) => {
        const { settings, layout } = fitted(wish, characters);
        const { text, margins, trim } = settings;
        // Leading: FACTS T-03; size: T-04; characters to the line: T-01 (the page is given, so its own may stand).
        expect(text.leading / text.size).toBeGreaterThanOrEqual(1.18);
        expect(text.leading / text.size).toBeLessThanOrEqual(1.45);
        expect(text.size).toBeGreaterThanOrEqual(9.5);
        expect(text.size).toBeLessThanOrEqual(13);
        const across = (trim.width - margins.inner - margins.outer) / (text.size * MEAN_CHARACTER);
        expect(across).toBeGreaterThanOrEqual(45);
        expect(across).toBeLessThanOrEqual(75);
        // What is reported is what was laid out, and the same wish gives the same answer.
        expect(paper(characters)(settings).pages.length).toBe(layout.pages.length);
        expect(fitted(wish, characters).settings).toEqual(settings);
      }),
      { numRuns: 60 },
    );
  });
});
