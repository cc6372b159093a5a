/** Paragraphs made of boxes, glue and penalties instead of text, and how the search sees them. */

import type { LineWidths } from '../../core/paragraph/breaker/place.ts';
import { FLAGS, PIECE, STRIDE } from '../../core/paragraph/breaker/places.ts';
import type { BreakSearch, Search, Solution } from '../../core/paragraph/breaker/search.ts';
import { type KernelCalls, type KernelHost, startKernel } from '../../core/paragraph/kernel/kernel.ts';

/** Bytes of a break in the kernel (`kernel/assembly/lists.ts`), and the places of its whole numbers. */
const BREAK = 96;
const END_NAME = 20;
const START_NAME = 21;
const WHOLE_FLAGS = 22;
const SUMS = 9;

function asked(): never {
  throw new Error('items have no words to ask for');
}

const HOST = new Proxy({} as KernelHost, { get: () => asked });

/** All the breaks of a list. */
export interface BreakList {
  readonly count: number;
  /** As `places.ts` says; a break's piece is its own number. */
  readonly places: Float64Array;
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
    const { calls, words, numbers } = kernel;
    const count = calls.breakCount();
    const places = new Float64Array(count * STRIDE);
    const names = new Int32Array(count * 2);
    for (let at = 0; at < count; at++) {
      const from = calls.breaksAt() + at * BREAK;
      places.set(numbers.subarray(from >> 3, (from >> 3) + SUMS), at * STRIDE);
      places[at * STRIDE + PIECE] = at;
      places[at * STRIDE + FLAGS] = words[(from >> 2) + WHOLE_FLAGS]!;
      names[at * 2] = words[(from >> 2) + END_NAME]!;
      names[at * 2 + 1] = words[(from >> 2) + START_NAME]!;
    }
    const { written } = this;
    const write = (): void => {
      kernel.calls.startList();
      for (const each of written) each(kernel.calls);
    };
    return { count, places, names, write };
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

/** Searches a list; the breaks of a solution as numbers of the list. */
export function searched(
  search: BreakSearch,
  list: BreakList,
  place: LineWidths,
  how: Search,
): readonly (Solution & { readonly ends: readonly number[] })[] {
  list.write();
  search.use(kernel);
  return search.run(place, how).map((solution) => {
    const ends = Array.from({ length: solution.lines }, (_, line) => solution.breaks[(line + 1) * STRIDE + PIECE]!);
    return { ...solution, ends };
  });
}
