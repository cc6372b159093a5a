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

/** What makes a flow another. */
export interface FlowChanges {
  /** The first block that filling would find changed, and the one after the last. */
  readonly from: number;
  readonly to: number;
  /** All blocks that are other objects. */
  readonly replaced: readonly number[];
}

/** A strip whose stretches of blocks that are no more take so many times its own rows is made anew. */
const MOST_STALE = 8;

/** Room for the first stretches: most sections ask for no more. */
const ROOM = 128;

const NO_STRETCHES: readonly Stretch[] = [];

/** A row at which a page has to be looked at, whatever its height: see `Strip.quiet`. */
const LOUD = -1;

export class Strip {
  /** The rows of the strip, one that stands for the section's end, then those of stretches. */
  readonly rows: Row[] = [];
  /** Rows of the strip itself, and the number of the row that stands for the section's end. */
  readonly count: number;
  private readonly firstRow: Int32Array;
  // Columns by row number.
  private itemOf: Int32Array;
  private following: Int32Array;
  private penalties: Float64Array;
  private quiets: Int16Array;
  /** The last row that a page would show at its foot. */
  private readonly lastRow: number;
  private readonly stretches: (readonly Stretch[] | undefined)[];

  constructor(private current: Flow) {
    const { items } = current;
    this.count = items.reduce((sum, { rows }) => sum + rows.length, 0);
    this.firstRow = new Int32Array(items.length + 1);
    const room = this.count + ROOM;
    this.itemOf = new Int32Array(room);
    this.following = new Int32Array(room);
    this.penalties = new Float64Array(room);
    this.quiets = new Int16Array(room);
    for (let item = 0; item < items.length; item++) {
      this.firstRow[item] = this.rows.length;
      this.append(items[item]!.rows, item);
    }
    this.firstRow[items.length] = this.count;
    this.lastRow = lastShown(this.rows, this.count);
    this.append([spaceRow(0)], items.length);
    this.quiets.fill(LOUD, Math.max(0, this.lastRow), this.count + 1);
    this.stretches = new Array<readonly Stretch[] | undefined>(items.length);
  }

  get flow(): Flow {
    return this.current;
  }

  get items(): readonly FlowItem[] {
    return this.current.items;
  }

  /**
   * Goes over to another flow of as many rows, block by block. Gives what changed, null (and stays as it was) where that is
   * more than blocks in their places.
   */
  follow(flow: Flow): FlowChanges | null {
    if (this.rows.length > MOST_STALE * this.count || !isFlowAlike(this.current, flow)) return null;
    const replaced: number[] = [];
    const changes = { from: flow.items.length, to: 0, replaced };
    flow.items.forEach((item, index) => {
      const before = this.items[index]!;
      if (before === item) return;
      replaced.push(index);
      if (isItemAlike(before, item)) return;
      changes.from = Math.min(changes.from, index);
      changes.to = index + 1;
    });
    if (replaced.some((index) => !this.showsAlike(index, flow.items[index]!))) return null;
    for (const index of replaced) this.replace(index, flow.items[index]!);
    this.current = flow;
    return changes;
  }

  /** Whether the section would still end with the same row if a block took the place of another. */
  private showsAlike(index: number, { rows }: FlowItem): boolean {
    const first = this.firstRow[index]!;
    const end = this.firstRow[index + 1]!;
    if (end <= this.lastRow) return true;
    return lastShown(rows, rows.length) === (first <= this.lastRow ? this.lastRow - first : NO_ROW);
  }

  private replace(index: number, item: FlowItem): void {
    const first = this.firstRow[index]!;
    if (!isItemAlike(this.items[index]!, item)) this.stretches[index] = undefined;
    item.rows.forEach((row, at) => {
      this.rows[first + at] = row;
      this.penalties[first + at] = penaltyOf(item.rows, at);
      this.quiets[first + at] = first + at >= this.lastRow ? LOUD : quietOf(item.rows, at);
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

  /**
   * The height of a row that the walk down a page may pass over where it is far from the foot: one without notes, no scene
   * break, not the last of its block or of the section. `LOUD`, below zero, for any other.
   */
  quiet(row: number): number {
    return this.quiets[row]!;
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
    if (this.rows.length + rows.length > this.itemOf.length) this.grow(rows.length);
    for (let index = 0; index < rows.length; index++) {
      const at = this.rows.length;
      this.rows.push(rows[index]!);
      this.itemOf[at] = item;
      this.following[at] = at + 1;
      this.penalties[at] = penaltyOf(rows, index);
      this.quiets[at] = quietOf(rows, index);
    }
  }

  private grow(more: number): void {
    const room = (this.itemOf.length + more) * 2;
    this.itemOf = widened(this.itemOf, new Int32Array(room));
    this.following = widened(this.following, new Int32Array(room));
    this.penalties = widened(this.penalties, new Float64Array(room));
    this.quiets = widened(this.quiets, new Int16Array(room));
  }
}

function widened<Column extends Int32Array | Float64Array | Int16Array>(from: Column, to: Column): Column {
  to.set(from);
  return to;
}

const NO_ROW = -1;

/** The last of some rows that a page would show. */
function lastShown(rows: readonly Row[], count: number): number {
  let row = count - 1;
  while (row >= 0 && rows[row]!.kind === 'space') row--;
  return row;
}

function quietOf(rows: readonly Row[], index: number): number {
  const { height, notes, edge } = rows[index]!;
  return notes.length === 0 && edge === null && index < rows.length - 1 ? height : LOUD;
}

/** Cost of a page end after a row of a block. */
function penaltyOf(rows: readonly Row[], index: number): number {
  const { penalty } = rows[index]!;
  if (index === rows.length - 1) return penalty;
  // A pair is alone where the row before it, or after it, can't be the last.
  const lone = rows[index + 1]!.penalty === FORBIDDEN || (index > 0 && rows[index - 1]!.penalty === FORBIDDEN);
  return lone ? penalty + LONE_PAIR : penalty;
}
