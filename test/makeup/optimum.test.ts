import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsOf, rowsOf } from '../../core/makeup/fill/rows.ts';
import { bestFilling, type Filling } from '../../core/makeup/fill/search.ts';
import { Strip } from '../../core/makeup/fill/strip.ts';
import { type Block, FlowBuilder, type Section, sections, toldInOne } from './flows.ts';
import { costOfPages, firstFitCost, type GivenPage, leastCost } from './reference.ts';

/** The cost of the best filling, its rows checked: every block whole and in order, at one of its lengths. */
function checkedCost({ flow, side }: Section): number {
  const strip = new Strip(flow);
  const { ends, cost } = bestFilling(strip, side);
  const rows = ends.flatMap((end) => rowsOf(partsOf(strip, end))).filter((row) => row.kind !== 'space');
  let at = 0;
  for (const { rows: own, variants } of flow.items) {
    const lengths = [own, ...(variants?.(Infinity) ?? []).map((variant) => variant.rows)];
    const shown = own.filter((row) => row.kind !== 'space');
    const taken = lengths.find((each) => shown.length > 0 && each.every((row, index) => rows[at + index] === row));
    expect(taken !== undefined || shown.length === 0, 'a block is whole').toBe(true);
    at += taken?.length ?? 0;
  }
  expect(at, 'no row twice').toBe(rows.length);
  return cost;
}

/** The pages of the best filling. */
function pagesOf({ flow, side }: Section): readonly GivenPage[] {
  const strip = new Strip(flow);
  const { ends } = bestFilling(strip, side);
  return ends.map((end) => ({ ...end, rows: rowsOf(partsOf(strip, end)) }));
}

describe('the pages of a section', () => {
  // FACTS 8.4 G-04: the search equals an exhaustive one on books of up to twelve paragraphs.
  it('are as good as those of a search that tries everything', () => {
    fc.assert(
      fc.property(sections(12), (section) => {
        const cost = checkedCost(section);
        expect(cost).toBeCloseTo(leastCost(section), 6);
        expect(costOfPages(section, pagesOf(section)), 'the pages are those of that cost').toBeCloseTo(cost, 6);
      }),
      { numRuns: 120 },
    );
  });

  it('are up to three lines longer where paragraphs give them', () => {
    const giving = (lines: number, change: number): Block => {
      return { kind: 'paragraph', of: { lines, lengths: [[change, 0]], hyphens: [], notes: [] } };
    };
    const blocks: readonly Block[] = [giving(6, 2), giving(3, 1), { kind: 'figure' }];
    const flow = new FlowBuilder().build(blocks, { lines: 12, extra: 0 });
    const section: Section = { blocks, flow, side: 'recto' };
    expect(bestFilling(new Strip(flow), 'recto').ends.map(({ change, short }) => [change, short])[0]).toEqual([3, 0]);
    expect(checkedCost(section)).toBeCloseTo(leastCost(section), 6);
  });

  it('are the same where the lines of paragraphs are told in one', () => {
    let told = 0;
    fc.assert(
      fc.property(sections(40), ({ flow, side }) => {
        const inOne = toldInOne(flow);
        told += inOne.items.filter((item) => item.lines).length;
        const [one, other] = [new Strip(inOne), new Strip(flow)];
        const [filled, expected] = [bestFilling(one, side), bestFilling(other, side)];
        const shown = (strip: Strip, { ends }: Filling) => ends.map((end) => rowsOf(partsOf(strip, end)));
        expect(filled.cost).toBe(expected.cost);
        expect(shown(one, filled)).toEqual(shown(other, expected));
      }),
      { numRuns: 120 },
    );
    expect(told).toBeGreaterThan(500);
  });

  it('are never worse than those of filling one page after another (G-04)', () => {
    fc.assert(
      fc.property(sections(60), (section) => {
        expect(checkedCost(section)).toBeLessThanOrEqual(firstFitCost(section) + 1e-6);
      }),
      { numRuns: 120 },
    );
  });
});
