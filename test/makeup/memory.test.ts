/** Filling a section again after edits: what was found before is used again, and the pages are those of filling it anew. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Flow, fillPages, type PageContent } from '#makeup';
import type { Side } from '#page';
import { EndFinder } from '../../core/makeup/fill/ends.ts';
import { FillMemory } from '../../core/makeup/fill/memory.ts';
import { type Block, FlowBuilder, type Paragraph, type Section, sections } from './flows.ts';

interface Edit {
  readonly block: number;
  readonly hyphens: Paragraph['hyphens'];
  readonly lengths: Paragraph['lengths'];
  readonly side: Side;
}

const edit: fc.Arbitrary<Edit> = fc.record({
  block: fc.nat(39),
  hyphens: fc.array(fc.integer({ min: 0, max: 8 }), { maxLength: 3 }),
  lengths: fc.oneof(
    fc.constant([]),
    fc.tuple(fc.constantFrom(-1, 1), fc.integer({ min: 0, max: 60_000 })).map((length) => [length]),
  ),
  side: fc.constantFrom<Side>('recto', 'verso'),
});

/** The flow after a paragraph was set anew in as many lines; all other blocks are the very same. */
function edited(section: Section, flow: Flow, { block, hyphens, lengths }: Edit): Flow {
  const before = section.blocks[block % section.blocks.length]!;
  if (before.kind !== 'paragraph') return flow;
  const after: Block = { kind: 'paragraph', of: { ...before.of, hyphens, lengths } };
  const blocks = section.blocks.map((each) => (each === before ? after : each));
  const { items } = new FlowBuilder().build(blocks, flow.grid);
  const at = itemOf(section.blocks, before);
  return { ...flow, items: flow.items.map((item, index) => (index === at ? items[index]! : item)) };
}

/** Headings are two items, the white above them and their line. */
function itemOf(blocks: readonly Block[], block: Block): number {
  const before = blocks.slice(0, blocks.indexOf(block));
  return before.reduce((sum, { kind }) => sum + (kind === 'heading' ? 2 : 1), 0);
}

/** All that a page shows. */
function shown({ rows, notes, short, first, last }: PageContent): unknown {
  return { rows: rows.map(({ row, line, paint }) => [row, line, paint]), notes, short, first, last };
}

describe('the memory of filling', () => {
  it('never changes the pages', () => {
    fc.assert(
      fc.property(sections(40), fc.array(edit, { minLength: 1, maxLength: 8 }), (section, edits) => {
        const memory = new FillMemory();
        let { flow } = section;
        fillPages({ flow, side: section.side, memory });
        for (const each of edits) {
          flow = edited(section, flow, each);
          const again = fillPages({ flow, side: each.side, memory });
          expect(again.map(shown)).toEqual(fillPages({ flow, side: each.side }).map(shown));
        }
      }),
      { numRuns: 150 },
    );
  });

  it('asks for the ends of few pages after an edit far from most of them', () => {
    const paragraph = (): Block => ({ kind: 'paragraph', of: { lines: 5, lengths: [], hyphens: [], notes: [] } });
    const blocks = Array.from({ length: 200 }, paragraph);
    const flow = new FlowBuilder().build(blocks, { lines: 12, extra: 1 });
    const memory = new FillMemory();
    const first = fillPages({ flow, side: 'recto', memory });
    const section: Section = { blocks, flow, side: 'recto' };
    const changed = edited(section, flow, { block: 100, hyphens: [1], lengths: [], side: 'recto' });
    const asked = countingEnds(() => fillPages({ flow: changed, side: 'recto', memory }));
    const anew = countingEnds(() => fillPages({ flow: changed, side: 'recto' }));
    expect(first.length).toBeGreaterThan(70);
    expect(asked).toBeLessThan(anew / 10);
  });
});

/** How often the ends of a page are asked for. */
function countingEnds(work: () => unknown): number {
  const { of } = EndFinder.prototype;
  let count = 0;
  EndFinder.prototype.of = function (page) {
    count++;
    return of.call(this, page);
  };
  try {
    work();
  } finally {
    EndFinder.prototype.of = of;
  }
  return count;
}
