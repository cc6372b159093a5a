/** Where running heads and folios stand, and what they say. */
import { describe, expect, it } from 'vitest';
import type { DesignSettings } from '#design';
import type { GlyphRun, Page } from '#page';
import { book, chapter, p, section } from '../builders/book.ts';
import { linesOf, madeUp, quoin } from './laws.ts';
import { lines } from './text.ts';
import { PITCH } from './typewriter.ts';

const [INNER, OUTER, MEASURE] = [45, 51, 300];

function furnitureOf(page: Page): readonly GlyphRun[] {
  return page.items.filter((item): item is GlyphRun => item.kind === 'glyphs' && item.furniture === true);
}

/** Head and folio of a verso and a recto of running text. */
function heads(settings: DesignSettings, ...titles: readonly string[]) {
  const title = titles[0] ?? null;
  const { pages } = madeUp(book(chapter(title, p(lines(130)))), { settings });
  return [1, 2].map((index) => {
    const [head, folio] = furnitureOf(pages[index]!);
    return { head: head!, folio: folio!, left: pages[index]!.side === 'recto' ? INNER : OUTER };
  });
}

function end({ x, text, size }: GlyphRun, letterspace: number): number {
  return x + text.length * size * (PITCH + letterspace);
}

const plain = { size: 0.8, letters: 'asTyped', italic: false, bold: false, letterspace: 0 } as const;
const outer: DesignSettings = {
  ...quoin,
  heads: { verso: 'title', recto: 'chapter', side: 'outer', look: plain, distance: 1.6, rule: false },
  folios: { ...quoin.folios, place: 'footOuter' },
};

describe('running heads', () => {
  it('stand in the middle, at the outer or at the inner edge, as the design says', () => {
    const [verso, recto] = heads(outer, 'The Weir');
    expect(verso!.head).toMatchObject({ text: 'The Salt Ledger', x: OUTER });
    expect(recto!.head.text).toBe('The Weir');
    expect(end(recto!.head, 0)).toBeCloseTo(INNER + MEASURE);
    const inner = heads({ ...outer, heads: { ...outer.heads, side: 'inner' } }, 'The Weir');
    expect(end(inner[0]!.head, 0)).toBeCloseTo(OUTER + MEASURE);
    expect(inner[1]!.head.x).toBe(INNER);
    const centred = heads({ ...outer, heads: { ...outer.heads, side: 'centre' } }, 'The Weir');
    for (const { head, left } of centred) expect((head.x + end(head, 0)) / 2).toBeCloseTo(left + MEASURE / 2);
  });

  it('stand beside the folio where both have the outer edge', () => {
    const beside = heads({ ...outer, folios: { ...outer.folios, place: 'headOuter' } }, 'The Weir');
    for (const { head, folio } of beside) expect(folio.y).toBe(head.y);
    const [verso, recto] = beside;
    expect(verso!.folio.x).toBe(OUTER);
    expect(verso!.head.x).toBeGreaterThan(end(verso!.folio, 0.02) + 11);
    expect(end(recto!.folio, 0.02)).toBeCloseTo(INNER + MEASURE);
    expect(end(recto!.head, 0)).toBeLessThan(recto!.folio.x - 11);
  });

  it('never are a bare figure, which would read like a folio', () => {
    const figures = { ...outer, opener: { ...outer.opener, number: 'figures', showLabel: false } } as const;
    expect(heads(figures)[1]!.head.text).toBe('Chapter 1');
    const { pages } = madeUp(book(chapter(null, { label: null }, p(lines(130)))), { settings: figures });
    expect(furnitureOf(pages[2]!)[0]!.text).toBe('The Salt Ledger');
  });
});

describe('a contents page', () => {
  it('has bare figures of chapters without titles in their column', () => {
    const settings = { ...quoin, opener: { ...quoin.opener, number: 'figures', showLabel: false } } as const;
    const text = book(
      section('contents', null),
      chapter('The Weir', p(lines(3))),
      chapter(null, p(lines(3))),
      chapter('The Quay', p(lines(3))),
    );
    const shown = linesOf(madeUp(text, { settings }).pages[0]!);
    expect(shown.map((each) => each.replaceAll(/ \| (?:\*|\u00A0)/g, ''))).toEqual(
      expect.arrayContaining(['1 | The Weir | 1', '2 | 2', '3 | The Quay | 3']),
    );
  });

  it('calls chapters by their label where none has a title, and letters apart from chapters', () => {
    const settings = { ...quoin, opener: { ...quoin.opener, number: 'figures', showLabel: false } } as const;
    const letter = (title: string | null) =>
      section('chapter', title, { numbered: true, label: 'Letter' }, p(lines(3)));
    const shown = (...sections: Parameters<typeof book>) =>
      linesOf(madeUp(book(section('contents', null), ...sections), { settings }).pages[0]!).map((each) =>
        each.replaceAll(/ \| (?:\*|\u00A0)/g, ''),
      );
    const untitled = [chapter(null, p(lines(3))), chapter(null, p(lines(3)))];
    expect(shown(...untitled).slice(-3, -1)).toEqual(['Chapter 1 | 1', 'Chapter 2 | 2']);
    expect(shown(letter('The Weir'), letter(null), chapter('The Quay', p(lines(3)))).slice(-4, -1)).toEqual([
      'Letter 1: The Weir | 1',
      'Letter 2 | 2',
      'Chapter 1: The Quay | 3',
    ]);
  });
});

describe('a title page', () => {
  it.each([
    ['start', 0],
    ['center', 0.5],
    ['end', 1],
  ] as const)('stands at the %s by design, and so does the half title', (align, share) => {
    const settings = { ...quoin, titlePage: { ...quoin.titlePage, align } };
    const text = book(section('halfTitle', null), section('titlePage', null), chapter('One', p(lines(3))));
    const { pages } = madeUp(text, { settings });
    for (const index of [0, 2]) {
      const run = pages[index]!.items.find((item): item is GlyphRun => item.kind === 'glyphs')!;
      const letterspace = index === 0 ? quoin.halfTitle.letterspace : 0;
      const free = MEASURE - run.text.length * run.size * (PITCH + letterspace);
      expect(run.x - INNER).toBeCloseTo(free * share, 0);
    }
  });
});
