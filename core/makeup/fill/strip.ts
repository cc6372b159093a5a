/** A flow as one strip of rows, with what the search asks of it by row number. */
import { type Flow, type FlowItem, FORBIDDEN, type Row, type Variant } from '../flow.ts';
import { costOfVariant } from './costs.ts';

/** Another length for a block that lies whole on a page. */
export interface Stretch {
  readonly item: number;
  readonly variant: Variant;
  readonly cost: number;
}

export class Strip {
  readonly rows: readonly Row[];
  private readonly firstRow: Int32Array;
  private readonly itemOf: Int32Array;
  /** The last row that a page would show at its foot. */
  private readonly lastRow: number;
  private readonly stretches = new Map<number, readonly Stretch[]>();

  constructor(readonly flow: Flow) {
    const rows: Row[] = [];
    this.firstRow = new Int32Array(flow.items.length + 1);
    flow.items.forEach((item, index) => {
      this.firstRow[index] = rows.length;
      for (const row of item.rows) rows.push(row);
    });
    this.firstRow[flow.items.length] = rows.length;
    this.rows = rows;
    this.lastRow = rows.findLastIndex((row) => row.kind !== 'space');
    this.itemOf = new Int32Array(rows.length);
    flow.items.forEach((_, index) => {
      this.itemOf.fill(index, this.firstRow[index], this.firstRow[index + 1]);
    });
  }

  /** The first row at or after `from` that a page would show at its head. */
  head(from: number): number {
    let row = from;
    while (this.rows[row]?.kind === 'space') row++;
    return row;
  }

  /** The item that a row belongs to, null beyond the last. */
  itemAt(row: number): number | null {
    return this.itemOf[row] ?? null;
  }

  /** Whether nothing that a page would show follows this row. */
  endsAfter(row: number): boolean {
    return row >= this.lastRow;
  }

  penalty(row: number): number {
    return this.endsAfter(row) ? 0 : (this.rows[row]?.penalty ?? FORBIDDEN);
  }

  /** The cheapest way to make the blocks that lie whole between two rows `change` lines longer, or null. */
  stretch(from: number, to: number, change: number): Stretch | null {
    let best: Stretch | null = null;
    const last = this.itemOf[to] ?? 0;
    for (let item = this.itemOf[from] ?? 0; item <= last; item++) {
      if ((this.firstRow[item] ?? 0) < from || (this.firstRow[item + 1] ?? 0) > to + 1) continue;
      for (const each of this.stretchesOf(item)) {
        if (each.variant.change === change && (!best || each.cost < best.cost)) best = each;
      }
    }
    return best;
  }

  /** The rows from one to another, a block among them set to another length. */
  slice(from: number, to: number, stretch: Stretch | null): readonly Row[] {
    if (!stretch) return this.rows.slice(from, to + 1);
    const first = this.firstRow[stretch.item] ?? 0;
    const next = this.firstRow[stretch.item + 1] ?? 0;
    return [...this.rows.slice(from, first), ...stretch.variant.rows, ...this.rows.slice(next, to + 1)];
  }

  private stretchesOf(item: number): readonly Stretch[] {
    const known = this.stretches.get(item);
    if (known) return known;
    const found = stretchesFrom(item, this.flow.items[item]);
    this.stretches.set(item, found);
    return found;
  }
}

function stretchesFrom(item: number, flowItem: FlowItem | undefined): readonly Stretch[] {
  if (!flowItem?.variants) return [];
  return flowItem
    .variants()
    .map((variant) => {
      const cost = costOfVariant({ demerits: variant.demerits, lines: variant.rows.length }, flowItem.demerits);
      return { item, variant, cost };
    })
    .filter((each) => Number.isFinite(each.cost));
}
