/** What filling gives: which rows stand on a page, and on which of its lines. */
import type { Anchor } from '#base';
import { type Flow, type Paint, type Part, type Row, rowAt } from '../flow.ts';
import type { End } from './end.ts';
import { partsOf, rowsOf } from './rows.ts';
import type { Strip } from './strip.ts';

export interface PlacedRow {
  readonly row: Row;
  /** The grid line, from 0, on which the row's last line stands. */
  readonly line: number;
  /** What the row shows: its own paint, or a scene break's ornament at the head or foot of the page. */
  readonly paint: Paint | null;
}

export interface PageContent {
  readonly flow: Flow;
  /** The parts of blocks that stand on the page. */
  readonly parts: readonly Part[];
  /** Their rows, made when they are asked for: most pages are looked at late. */
  readonly rows: readonly PlacedRow[];
  /** Shows the grid line of each row, what stands on it, and which of the paint's lines that is. */
  eachLine(visit: (line: number, paint: Paint | null, row: number) => void): void;
  /** Rows of notes, the last of them on the last grid line (a line below it on a page that runs long). */
  readonly notes: readonly Row[];
  /** Lines of the grid left white at the foot (or head, where the grid stands there); negative for lines below it. */
  readonly short: number;
  /** True on the section's first page. */
  readonly first: boolean;
  /** True on the section's last page. */
  readonly last: boolean;
  /** Where the text on the page begins, null on a page without text of the book. */
  readonly start: Anchor | null;
  /** Whether the page is a plate, a picture to its edges: it has neither head nor folio. */
  readonly isPlate: boolean;
}

/** A page of a strip. */
export class FilledPage implements PageContent {
  readonly flow: Flow;
  readonly parts: readonly Part[];
  readonly notes: readonly Row[];
  readonly short: number;
  readonly last: boolean;
  private readonly mayBePlate: boolean;

  /** The page does not hold on to the strip. */
  constructor(
    strip: Strip,
    end: End,
    readonly first: boolean,
  ) {
    this.flow = strip.flow;
    this.mayBePlate = strip.hasPlates;
    this.parts = partsOf(strip, end);
    ({ notes: this.notes, short: this.short, last: this.last } = end);
  }

  get rows(): readonly PlacedRow[] {
    const rows = rowsOf(this.parts);
    const placed: PlacedRow[] = [];
    let index = 0;
    this.eachLine((line, paint) => placed.push({ row: rows[index++]!, line, paint }));
    return placed;
  }

  eachLine(visit: (line: number, paint: Paint | null, row: number) => void): void {
    const { parts } = this;
    let line = -1;
    for (let at = 0; at < parts.length; at++) {
      const { of, from, to } = parts[at]!;
      const { lines } = of;
      if (!lines) {
        line = this.eachOther(at, line, visit);
        continue;
      }
      for (let row = from; row < to; row++) {
        line += lines.rules.height;
        visit(line, lines.paint, row);
      }
    }
  }

  /** The rows of a part that are no plain lines, below a grid line; gives the last that they take. */
  private eachOther(
    at: number,
    above: number,
    visit: (line: number, paint: Paint | null, row: number) => void,
  ): number {
    const { of, from, to } = this.parts[at]!;
    const isLast = at === this.parts.length - 1 && !this.last;
    let line = above;
    of.rows.slice(from, to).forEach((row, index) => {
      const edge = edgeOf(row, { head: at === 0 && index === 0, foot: isLast && index === to - from - 1 });
      line += edge?.height ?? row.height;
      visit(line, edge?.paint ?? row.paint, row.line);
    });
    return line;
  }

  get start(): Anchor | null {
    for (const { of, from, to } of this.parts) {
      for (let row = from; row < to; row++) {
        const { start } = rowAt(of, row);
        if (start) return start;
      }
    }
    return null;
  }

  get isPlate(): boolean {
    return this.mayBePlate && this.rows.some(({ row }) => row.plate !== undefined);
  }
}

/** What a scene break at an edge of the page shows instead of white. */
function edgeOf(
  row: Row,
  at: { readonly head: boolean; readonly foot: boolean },
): { readonly height: number; readonly paint: Paint } | null {
  if (row.edge === null || !(at.head || at.foot)) return null;
  return { height: row.edge.height, paint: at.head ? row.edge.head : row.edge.foot };
}
