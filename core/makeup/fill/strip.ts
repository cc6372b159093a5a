/**
 * A flow as one strip of rows, by row number, as the kernel has it (`kernel/assembly/rows.ts`). Blocks at another length lie
 * behind the strip as stretches of their own, from which the way leads back into it.
 */
import { type Flow, type FlowItem, type Part, rowCount, type Variant } from '../flow.ts';

/** A block at another length. */
export interface Stretch {
  readonly item: number;
  readonly variant: Variant;
  readonly cost: number;
  /** Its first row. */
  readonly first: number;
}

export class Strip {
  /** Rows of the strip itself, and the number of the row that stands for the section's end. */
  readonly count: number;
  /** Whether some row is a picture that fills its page. */
  readonly hasPlates: boolean;
  private readonly firstRow: Int32Array;
  /** The stretches, in the order of their rows, and those of each block. */
  private readonly stretches: Stretch[] = [];
  private readonly byItem = new Map<number, Stretch[]>();
  /** The number of the next row. */
  private end: number;

  /** @param inNeed whether blocks give what they have in need alone. */
  constructor(
    readonly flow: Flow,
    private readonly inNeed = false,
  ) {
    const { items } = flow;
    this.firstRow = new Int32Array(items.length + 1);
    let row = 0;
    let plates = false;
    for (let item = 0; item < items.length; item++) {
      this.firstRow[item] = row;
      row += rowCount(items[item]!);
      plates ||= hasPlate(items[item]!);
    }
    this.firstRow[items.length] = row;
    this.count = row;
    this.hasPlates = plates;
    this.end = row + 1;
  }

  get items(): readonly FlowItem[] {
    return this.flow.items;
  }

  /** The other lengths of a block, which may be asked for late; null where it has none. */
  variantsOf(item: number): FlowItem['variants'] {
    const of = this.items[item]!;
    const given = this.inNeed ? of.inNeed : undefined;
    return given ? () => given : of.variants;
  }

  /** Adds another length of a block, whose rows take the next numbers. */
  addStretch(item: number, variant: Variant, cost: number): void {
    const stretch = { item, variant, cost, first: this.end };
    this.end += rowCount(variant);
    this.stretches.push(stretch);
    const others = this.byItem.get(item);
    if (others) others.push(stretch);
    else this.byItem.set(item, [stretch]);
  }

  /** A stretch by its number. */
  stretch(number: number): Stretch {
    return this.stretches[number]!;
  }

  /** The other lengths of a block, as far as they were asked for. */
  stretchesOf(item: number): readonly Stretch[] {
    return this.byItem.get(item) ?? NO_STRETCHES;
  }

  firstOf(item: number): number {
    return this.firstRow[item]!;
  }

  /** The item that a row belongs to; the number of items for the section's end. */
  itemAt(row: number): number {
    if (row > this.count) return this.stretchAt(row).item;
    let [low, high] = [0, this.items.length];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.firstRow[middle]! <= row) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** A row with those that follow it in its block. */
  partFrom(row: number): Part {
    if (row > this.count) {
      const { first, variant } = this.stretchAt(row);
      return { of: variant, from: row - first, to: rowCount(variant) };
    }
    const item = this.itemAt(row);
    return { of: this.items[item]!, from: row - this.firstOf(item), to: rowCount(this.items[item]!) };
  }

  private stretchAt(row: number): Stretch {
    return this.stretches.findLast(({ first }) => first <= row)!;
  }
}

const NO_STRETCHES: readonly Stretch[] = [];

function hasPlate(item: FlowItem): boolean {
  return item.lines === undefined && item.rows.some((row) => row.plate !== undefined);
}
