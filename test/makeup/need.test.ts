/** What a section gives where its pages would stay uneven without: its opening stands a line higher or lower. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Page } from '#page';
import { bestFilling, cheaperFilling } from '../../core/makeup/fill/search.ts';
import { Strip } from '../../core/makeup/fill/strip.ts';
import { book, chapter, p } from '../builders/book.ts';
import { sections } from './flows.ts';
import { madeUp, runsOf } from './laws.ts';
import { lines } from './text.ts';

const LEADING = 14;

/** Paragraphs of three lines, none of which can be divided between pages. */
const blocks = (count: number) => Array.from({ length: count }, (_, index) => p(lines(3, `b${index}`)));

/** A chapter of a page, and one that begins on the left with a paragraph of so many lines. */
function pages(first: number): { readonly own: Page; readonly left: Page; readonly right: Page } {
  const { pages: all } = madeUp(
    book(chapter('One', ...blocks(3)), chapter('Two', p(lines(first, 'a')), ...blocks(40))),
  );
  return { own: all[0]!, left: all[1]!, right: all[2]! };
}

const top = (page: Page): number => Math.min(...runsOf(page).map(({ y }) => y));
const foot = (page: Page): number => Math.max(...runsOf(page).map(({ y }) => y));

describe('an opening', () => {
  it('stands where all do while the pages beside it can be even', () => {
    const even = [2, 3, 4].map(pages).filter(({ own, left }) => top(own) === top(left));
    expect(even.length).toBeGreaterThan(0);
    for (const { left, right } of even) expect(foot(left)).toBeCloseTo(foot(right));
  });

  it('gives or takes a line where they can not', () => {
    const moved = [2, 3, 4].map(pages).filter(({ own, left }) => top(own) !== top(left));
    expect(moved.length).toBeGreaterThan(0);
    for (const { own, left, right } of moved) {
      expect(Math.abs(top(own) - top(left))).toBeCloseTo(LEADING);
      expect(foot(left)).toBeCloseTo(foot(right));
    }
  });
});

describe('pages that must be cheaper than known ones', () => {
  it('are the best ones, where there are any', () => {
    fc.assert(
      fc.property(sections(30), ({ flow, side }) => {
        const { cost } = bestFilling(new Strip(flow), side);
        expect(cheaperFilling(new Strip(flow), side, cost + 1)?.cost).toBeCloseTo(cost, 6);
        if (cost > 0) expect(cheaperFilling(new Strip(flow), side, cost)).toBeNull();
      }),
      { numRuns: 120 },
    );
  });
});
