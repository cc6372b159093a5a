import { describe, expect, it } from 'vitest';
import { type Settled, settle } from '../../core/makeup/settle.ts';

type Plan = Settled['plan'];

/** A plan of so many pages, of which only the number counts here. */
function plan(pages: number): Plan {
  return Array.from({ length: pages }, () => ({ content: null })) as unknown as Plan;
}

describe('settling', () => {
  it('rests when a pass finds the page count that it was made with', () => {
    const asked: number[] = [];
    const settled = settle((known) => {
      asked.push(known.pages);
      return plan(200);
    });
    expect(asked).toEqual([0, 200]);
    expect(settled).toMatchObject({ rests: true, known: { pages: 200 } });
  });

  it('keeps the larger count, with its wider gutter, where two swing (FACTS M-05: a book at 300 and 302 pages)', () => {
    const settled = settle((known) => plan(known.pages <= 300 ? 302 : 300));
    expect(settled).toMatchObject({ rests: true, known: { pages: 302 } });
    expect(settled.plan).toHaveLength(300);
  });

  it('gives up after a few passes', () => {
    expect(settle((known) => plan(known.pages + 2)).rests).toBe(false);
  });
});
