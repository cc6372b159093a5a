/**
 * A flow as one strip of rows, with what the search asks of it by row number. Blocks at another length lie behind the
 * strip as stretches of their own, from which the way leads back into it.
 */
import { type Flow, type FlowItem, FORBIDDEN, type Row, spaceRow, type Variant } from '../flow.ts';
import { isFlowAlike, isItemAlike } from './alike.ts';
import { costOfVariant, LONE_PAIR } from './costs.ts';

/** A block at another length. */
export interface Stretch {
  readonly item: number;
  readonly variant: Variant;
  readonly cost: number;
  /** Its first row. */
  readonly first: number;
}

/** A strip whose stretches of blocks that are no more take so many times its own rows is made anew. */
const MOST_STALE = 8;

const NO_STRETCHES: readonly Stretch[] = [];

export class Strip {
  /** The rows of the strip, one that stands for the section's end, then those of stretches. */
  readonly rows: Row[] = [];
  /** Rows of the strip itself, and the number of the row that stands for the section's end. */
  readonly count: number;
  private readonly firstRow: Int32Array;
  private readonly itemOf: number[] = [];
  private readonly following: number[] = [];
  private readonly penalties: number[] = [];
  /** The last row that a page would show at its foot. */
  private lastRow: number;
  private readonly stretches: (readonly Stretch[] | undefined)[];

  constructor(private current: Flow) {
    const flow = current;
    this.firstRow = new Int32Array(flow.items.length + 1);
    flow.items.forEach((item, index) => {
      this.firstRow[index] = this.rows.length;
      this.append(item.rows, index);
    });
    this.count = this.rows.length;
    this.firstRow[flow.items.length] = this.count;
    this.lastRow = this.rows.findLastIndex(isShown);
    this.append([spaceRow(0)], flow.items.length);
    this.stretches = new Array<readonly Stretch[] | undefined>(flow.items.length);
  }

  get flow(): Flow {
    return this.current;
  }

  get items(): readonly FlowItem[] {
    return this.current.items;
  }

  /**
   * Goes over to another flow of as many rows, block by block. Gives the first block that changed and the one after the
   * last, null (and stays as it was) where more changed than blocks in their places.
   */
  follow(flow: Flow): { readonly from: number; readonly to: number } | null {
    if (this.rows.length > MOST_STALE * this.count || !isFlowAlike(this.current, flow)) return null;
    const last = this.rows.slice(0, this.count).findLastIndex(isShown);
    if (last !== this.lastRow) return null;
    let from = flow.items.length;
    let to = 0;
    flow.items.forEach((item, index) => {
      const before = this.items[index]!;
      if (before === item) return;
      this.replace(index, item.rows);
      if (isItemAlike(before, item)) return;
      this.stretches[index] = undefined;
      from = Math.min(from, index);
      to = index + 1;
    });
    this.current = flow;
    return { from, to };
  }

  private replace(item: number, rows: readonly Row[]): void {
    const first = this.firstRow[item]!;
    rows.forEach((row, index) => {
      this.rows[first + index] = row;
      this.penalties[first + index] = penaltyOf(rows, index);
    });
  }

  /** The first row at or after `from` that a page would show at its head. */
  head(from: number): number {
    let row = from;
    while (row < this.count && this.rows[row]!.kind === 'space') row++;
    return row;
  }

  /** The row that stands below a row. */
  after(row: number): number {
    return this.following[row]!;
  }

  /** The item that a row belongs to; the number of items for the section's end. */
  itemAt(row: number): number {
    return this.itemOf[row]!;
  }

  firstOf(item: number): number {
    return this.firstRow[item]!;
  }

  /** Whether nothing that a page would show follows this row. */
  endsAfter(row: number): boolean {
    if (row < this.count) return row >= this.lastRow;
    const next = this.following[row]!;
    return next <= this.count && next > this.lastRow;
  }

  penalty(row: number): number {
    return this.endsAfter(row) ? 0 : this.penalties[row]!;
  }

  /** The other lengths of a block. Asks for them the first time. */
  stretchesOf(item: number): readonly Stretch[] {
    const known = this.stretches[item];
    if (known) return known;
    const found = this.found(item);
    this.stretches[item] = found;
    return found;
  }

  private found(item: number): readonly Stretch[] {
    const { variants, demerits } = this.items[item]!;
    if (!variants) return NO_STRETCHES;
    const stretches: Stretch[] = [];
    for (const variant of variants()) {
      const { loose, rows } = variant;
      const cost = costOfVariant({ demerits: variant.demerits, lines: rows.length, loose }, demerits);
      if (variant.change === 0 || !Number.isFinite(cost)) continue;
      stretches.push({ item, variant, cost, first: this.rows.length });
      this.append(rows, item);
      this.following[this.rows.length - 1] = this.firstRow[item + 1]!;
    }
    return stretches;
  }

  private append(rows: readonly Row[], item: number): void {
    rows.forEach((row, index) => {
      this.rows.push(row);
      this.itemOf.push(item);
      this.following.push(this.rows.length);
      this.penalties.push(penaltyOf(rows, index));
    });
  }
}

function isShown(row: Row): boolean {
  return row.kind !== 'space';
}

/** Cost of a page end after a row of a block. */
function penaltyOf(rows: readonly Row[], index: number): number {
  return rows[index]!.penalty + (isLonePair(rows, index) && index < rows.length - 1 ? LONE_PAIR : 0);
}

/** Whether a page end after a row cuts off what is just enough: the row before it, or after it, can't be the last. */
function isLonePair(rows: readonly Row[], index: number): boolean {
  return rows[index - 1]?.penalty === FORBIDDEN || rows[index + 1]?.penalty === FORBIDDEN;
}
