/** Paragraphs made of boxes, glue and penalties instead of text, and how the search sees them. */

import { type LineFit, lineOf } from '../../core/paragraph/breaker/line.ts';
import type { LineWidths } from '../../core/paragraph/breaker/place.ts';
import { BOXES, PIECE, SHRINK, STRETCH, STRIDE, WIDTH } from '../../core/paragraph/breaker/places.ts';
import type { BreakSearch, Search, Solution } from '../../core/paragraph/breaker/search.ts';
import { type KernelCalls, type KernelHost, startKernel } from '../../core/paragraph/kernel/kernel.ts';

/** Bytes of a break in the kernel (`kernel/assembly/lists.ts`), and the places of its whole numbers. */
const BREAK = 88;
const END_NAME = 20;
const START_NAME = 21;
/** The flags, counted in 16 bits. */
const FLAG_BITS = 39;
/** Its sums before and after it, and its cost. */
const SUMS = 9;
const AFTER = 4;
const COST = 8;

function asked(): never {
  throw new Error('items have no words to ask for');
}

const HOST = new Proxy({} as KernelHost, { get: () => asked });

/** All the breaks of a list. */
export interface BreakList {
  readonly count: number;
  /** The sums and the cost of each. */
  readonly sums: Float64Array;
  readonly flags: readonly number[];
  /** For each break two names: of the word that ends the line before it, of the one that starts the next; 0 for none. */
  readonly names: Int32Array;
  /** Writes the list into the kernel again. */
  readonly write: () => void;
}

export const kernel = startKernel(HOST);

/** Collects items; whoever takes the list has it in the kernel. */
export class ItemList {
  private readonly written: ((calls: KernelCalls) => void)[] = [];

  constructor() {
    kernel.calls.startList();
  }

  box(width: number): void {
    this.write((calls) => calls.box(width));
  }

  glue(width: number, stretch: number, shrink: number): number {
    return this.place((calls) => calls.glue(width, stretch, shrink));
  }

  tie(width: number, stretch: number, shrink: number): void {
    this.write((calls) => calls.tie(width, stretch, shrink));
  }

  penalty(cost: number, flags: number): number {
    return this.place((calls) => calls.penalty(cost, flags));
  }

  forcedBreak(): number {
    return this.place((calls) => calls.forcedBreak());
  }

  change(at: number, end: number, start: number): void {
    this.write((calls) => calls.change(at, end, start));
  }

  name(at: number, end: number, start: number): void {
    this.write((calls) => calls.name(at, end, start));
  }

  take(): BreakList {
    this.write((calls) => calls.endList());
    kernel.renew();
    const { calls, units, words, numbers } = kernel;
    const count = calls.breakCount();
    const sums = new Float64Array(count * SUMS);
    const flags: number[] = [];
    const names = new Int32Array(count * 2);
    for (let at = 0; at < count; at++) {
      const from = calls.breaksAt() + at * BREAK;
      sums.set(numbers.subarray(from >> 3, (from >> 3) + SUMS), at * SUMS);
      flags.push(units[(from >> 1) + FLAG_BITS]!);
      names[at * 2] = words[(from >> 2) + END_NAME]!;
      names[at * 2 + 1] = words[(from >> 2) + START_NAME]!;
    }
    const { written } = this;
    const write = (): void => {
      kernel.calls.startList();
      for (const each of written) each(kernel.calls);
    };
    return { count, sums, flags, names, write };
  }

  private write(item: (calls: KernelCalls) => void): void {
    this.written.push(item);
    item(kernel.calls);
  }

  private place(item: (calls: KernelCalls) => number): number {
    let found = -1;
    this.write((calls) => {
      found = item(calls);
      if (found >= 0) calls.stand(found, found, 0);
    });
    return found;
  }
}

/** The cost of a break. */
export function costOf({ sums }: BreakList, at: number): number {
  return sums[at * SUMS + COST]!;
}

/** The line from one break to another. */
export function lineBetween(
  list: BreakList,
  place: LineWidths,
  line: { ordinal: number; start: number; end: number },
): LineFit {
  const { ordinal, start, end } = line;
  const lines = new Float64Array((ordinal + 1) * STRIDE);
  for (const [at, number] of [WIDTH, STRETCH, SHRINK, BOXES].entries()) {
    lines[ordinal * STRIDE + number] = list.sums[end * SUMS + at]! - list.sums[start * SUMS + AFTER + at]!;
  }
  return lineOf(lines, place, ordinal);
}

/** Searches a list; the breaks of a solution as numbers of the list. */
export function searched(
  search: BreakSearch,
  list: BreakList,
  place: LineWidths,
  how: Search & { readonly everyLength: boolean },
): readonly (Solution & { readonly at: readonly number[] })[] {
  list.write();
  search.use(kernel);
  const best = how.everyLength ? search.bestOfEachLength(place, how) : [search.best(place, how)];
  return best
    .filter((solution) => solution !== null)
    .map((solution) => {
      const at = Array.from({ length: solution.lines }, (_, line) => solution.ends[line * STRIDE + PIECE]!);
      return { ...solution, at };
    });
}
