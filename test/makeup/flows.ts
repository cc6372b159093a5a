/** Sections for tests of filling, made by chance: flows of rows that paint nothing. */
import fc from 'fast-check';
import type { Flow, FlowItem, Footnote, Paint, Row } from '#makeup';
import type { Side } from '#page';
import { FORBIDDEN, fixedItem, lineRow, solidRow, spaceRow, type TextLines } from '../../core/makeup/flow.ts';

const LEADING = 14;
const PAINT: Paint = { place: () => undefined };

export interface Paragraph {
  readonly lines: number;
  /** Other lengths: lines more or fewer, and demerits. */
  readonly lengths: readonly (readonly [change: number, demerits: number])[];
  /** Lines that end in a hyphen. */
  readonly hyphens: readonly number[];
  /** Lines of notes, by the line that refers to them. */
  readonly notes: readonly (readonly [line: number, rows: number])[];
}

const paragraph: fc.Arbitrary<Paragraph> = fc.record({
  lines: fc.integer({ min: 1, max: 9 }),
  lengths: fc.oneof(
    { weight: 4, arbitrary: fc.constant([]) },
    {
      weight: 1,
      arbitrary: fc.uniqueArray(fc.tuple(fc.constantFrom(-2, -1, 1, 2), fc.integer({ min: 0, max: 90_000 })), {
        selector: ([change]) => change,
        maxLength: 2,
      }),
    },
  ),
  hyphens: fc.array(fc.integer({ min: 0, max: 8 }), { maxLength: 3 }),
  notes: fc.oneof(
    { weight: 8, arbitrary: fc.constant([]) },
    { weight: 1, arbitrary: fc.tuple(fc.tuple(fc.integer({ min: 0, max: 8 }), fc.integer({ min: 1, max: 9 }))) },
  ),
});

export type Block =
  | { readonly kind: 'paragraph'; readonly of: Paragraph }
  | { readonly kind: 'break' | 'heading' | 'figure' };

const block: fc.Arbitrary<Block> = fc.oneof(
  { weight: 9, arbitrary: paragraph.map((of) => ({ kind: 'paragraph' as const, of })) },
  { weight: 1, arbitrary: fc.constantFrom('break', 'heading', 'figure').map((kind) => ({ kind }) as Block) },
);

/** Builds flows of rows that paint nothing. */
export class FlowBuilder {
  private readonly items: FlowItem[] = [];
  private readonly notes = new Map<string, Footnote>();

  build(blocks: readonly Block[], grid: { readonly lines: number; readonly extra: number }): Flow {
    blocks.forEach((each, index) => {
      this.add(each, index);
    });
    return {
      grid: { ...grid, leading: LEADING, align: 'head' },
      items: this.items,
      notes: this.notes,
      noteLeading: 11,
      missing: [],
      overfull: [],
    };
  }

  private add(block: Block, index: number): void {
    if (block.kind === 'paragraph') this.items.push(this.paragraph(block.of, index));
    else if (block.kind === 'heading') {
      this.items.push(fixedItem(spaceRow(1)), fixedItem(this.line(index, 0, FORBIDDEN)));
    } else if (block.kind === 'figure') {
      this.items.push(fixedItem(solidRow({ height: 4, paint: PAINT, start: { block: `${index}`, offset: 0 } })));
    } else {
      const edge = { head: PAINT, foot: PAINT, height: 2 };
      const row: Row = { ...spaceRow(1), kind: 'break', penalty: 8, edge };
      this.items.push(fixedItem({ ...row, start: { block: `${index}`, offset: 0 } }));
    }
  }

  private paragraph(of: Paragraph, index: number): FlowItem {
    for (const [line, rows] of of.notes) this.note(`n${index}`, line, rows);
    const lengths = of.lengths.filter(([change]) => of.lines + change > 0);
    const variants = lengths.map(([change, demerits], at) => ({
      rows: this.lines(of, index, of.lines + change),
      change,
      demerits: 100 + demerits,
      loose: at % 2,
    }));
    const rows = this.lines(of, index, of.lines);
    return { rows, demerits: 100, variants: variants.length === 0 ? null : () => variants };
  }

  private note(id: string, _line: number, rows: number): void {
    const lines = Array.from({ length: rows }, (_, line) => this.line(1000 + Number(id.slice(1)), line, 0));
    this.notes.set(id, { id, rows: lines });
  }

  private lines(of: Paragraph, index: number, count: number): readonly Row[] {
    return Array.from({ length: count }, (_, line) => {
      // FACTS T-13: two lines at least on each page.
      const penalty = line < count - 1 && (line < 1 || line > count - 3) ? FORBIDDEN : 0;
      const notes = of.notes.some(([at]) => Math.min(at, count - 1) === line) ? [`n${index}`] : [];
      return { ...this.line(index, line, penalty), hyphenated: line < count - 1 && of.hyphens.includes(line), notes };
    });
  }

  private line(index: number, line: number, penalty: number): Row {
    return lineRow({ paint: PAINT, line, start: { block: `${index}`, offset: line }, penalty });
  }
}

/** The same flow, the lines of paragraphs without notes told in one (see `TextLines`). */
export function toldInOne(flow: Flow): Flow {
  return { ...flow, items: flow.items.map((item) => (isPlain(item) ? withLines(item) : item)) };
}

function isPlain({ rows, variants }: FlowItem): boolean {
  const all = [rows, ...(variants?.(Infinity) ?? []).map((variant) => variant.rows)].flat();
  return all.every((row) => row.kind === 'line' && row.notes.length === 0) && rows.at(-1)?.penalty !== FORBIDDEN;
}

function withLines(item: FlowItem): FlowItem {
  const { variants } = item;
  const told = variants?.(Infinity).map((variant) => ({ ...variant, lines: linesOf(variant.rows) }));
  return { ...item, lines: linesOf(item.rows), variants: told ? () => told : null };
}

function linesOf(rows: readonly Row[]): TextLines {
  return {
    count: rows.length,
    paint: PAINT,
    rules: { height: 1, orphans: 2, widows: 2, inside: 0, after: 0 },
    isHyphenated: (line) => rows[line]!.hyphenated,
    row: (line) => rows[line]!,
  };
}

export interface Section {
  readonly blocks: readonly Block[];
  readonly flow: Flow;
  readonly side: Side;
}

/** Sections of so many blocks at most. */
export function sections(most: number): fc.Arbitrary<Section> {
  return fc
    .record({
      blocks: fc.array(block, { minLength: 1, maxLength: most }),
      grid: fc.record({ lines: fc.integer({ min: 6, max: 12 }), extra: fc.constantFrom(0, 1) }),
      side: fc.constantFrom<Side>('recto', 'verso'),
    })
    .map(({ blocks, grid, side }) => ({ blocks, flow: new FlowBuilder().build(blocks, grid), side }));
}
