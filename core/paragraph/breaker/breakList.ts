/**
 * A paragraph as the breaker sees it. In: boxes, glue and penalties in the order of the text (Knuth and Plass 1981); out:
 * its feasible breaks, each with the running sums of width, stretch and shrink before and after it, so that the
 * measure of any line is a subtraction. The sums after a break leave out the glue that vanishes at a line's start.
 */
import { ArrayPool } from '#base';
import { grown } from '../grown.ts';

/** One break's numbers, `STRIDE` of them in `BreakList.sums`. */
export const BEFORE = 0;
export const STRETCH_BEFORE = 1;
export const SHRINK_BEFORE = 2;
export const BOXES_BEFORE = 3;
export const AFTER = 4;
export const STRETCH_AFTER = 5;
export const SHRINK_AFTER = 6;
export const BOXES_AFTER = 7;
export const COST = 8;
export const STRIDE = 9;

/** The line shows a hyphen at its end. */
export const HYPHEN = 1;
/** The line must end here. */
export const FORCED = 2;
/** What follows is too little to stand alone on a last line: a lone short word, the stub of a divided one. */
export const SHORT_END = 4;
/** No break opportunity of the text: only there to save a word wider than its measure. */
export const TEAR = 8;

/** The hyphen is added, not the text's own: left out where words are not to be divided. */
export const DIVIDED = 16;

/** Stretch that fills any line; `\hfil` in TeX's words. */
export const FILL = 1e7;

export interface BreakList {
  /** Number of breaks: the paragraph's start is 0, its end the last. */
  readonly count: number;
  readonly sums: Float64Array;
  readonly flags: Uint8Array;
  /** For each break two names: of the word that ends the line before it, of the word that starts the one after; 0 for none. */
  readonly names: Int32Array;
  /** Most that a break adds to the end of its line, and takes off the start of the next: what pruning must allow for. */
  readonly slack: number;
}

/** Collects a paragraph's items. One builder serves many paragraphs: `take` hands the list over and starts anew. */
export class ItemList {
  private sums = new Float64Array(512 * STRIDE);
  private flags = new Uint8Array(512);
  private names = new Int32Array(1024);
  private count = 0;
  /** First break whose sums after it are still open. */
  private open = 0;
  private width = 0;
  private stretch = 0;
  private shrink = 0;
  private boxes = 0;
  private slack = 0;
  private afterBox = false;

  /** @param pool what the lists are taken from. */
  constructor(private readonly pool = new ArrayPool()) {
    this.start();
  }

  /** Something that has its width on whatever line it stands. */
  box(width: number): void {
    if (this.open < this.count) this.close();
    this.width += width;
    this.boxes += width;
    this.afterBox = true;
  }

  /** Elastic space; a break where a box stands before it. Gives the break, or -1. */
  glue(width: number, stretch: number, shrink: number): number {
    const at = this.afterBox ? this.add(0, 0) : -1;
    this.tie(width, stretch, shrink);
    this.afterBox = false;
    return at;
  }

  /** Elastic space at which no line may end. */
  tie(width: number, stretch: number, shrink: number): void {
    this.width += width;
    this.stretch += stretch;
    this.shrink += shrink;
  }

  /** A place where a line may end at a cost. Gives the break. */
  penalty(cost: number, flags: number): number {
    this.afterBox = false;
    return this.add(cost, flags);
  }

  /** A place where the line must end. */
  forcedBreak(): number {
    if (this.open < this.count) this.close();
    const at = this.penalty(0, FORCED);
    return at;
  }

  /**
   * What a break changes: `end` is added to the line before it (a hyphen, less the kerning that it cuts), `start` to the
   * line after it.
   */
  change(at: number, end: number, start: number): void {
    this.sums[at * STRIDE + BOXES_BEFORE]! += end;
    this.sums[at * STRIDE + BOXES_AFTER]! -= start;
    this.hang(at, -end, -start);
  }

  /** How far the lines before and after a break hang out of their places. */
  hang(at: number, end: number, start: number): void {
    this.sums[at * STRIDE + BEFORE]! -= end;
    this.sums[at * STRIDE + AFTER]! += start;
    this.slack = Math.max(this.slack, Math.abs(end) + Math.abs(start));
  }

  mark(at: number, flags: number): void {
    this.flags[at]! |= flags;
  }

  /** Names the words on either side of a break. */
  name(at: number, end: number, start: number): void {
    this.names[at * 2] = end;
    this.names[at * 2 + 1] = start;
  }

  /** The list of all since the last call. The last item must be a forced break. */
  take(): BreakList {
    const { count, slack, pool } = this;
    if (!(this.flags[count - 1]! & FORCED)) throw new RangeError('a paragraph must end with a forced break');
    this.close();
    const list = {
      count,
      sums: pool.numbers(count * STRIDE),
      flags: pool.bytes(count),
      names: pool.words(count * 2),
      slack,
    };
    list.sums.set(this.sums.subarray(0, count * STRIDE));
    list.flags.set(this.flags.subarray(0, count));
    list.names.set(this.names.subarray(0, count * 2));
    this.start();
    return list;
  }

  private start(): void {
    this.count = this.open = 0;
    this.width = this.stretch = this.shrink = this.boxes = this.slack = 0;
    this.afterBox = false;
    this.add(0, 0);
  }

  private add(cost: number, flags: number): number {
    const at = this.count++;
    if (at === this.flags.length) this.grow();
    const { sums } = this;
    const base = at * STRIDE;
    sums[base + BEFORE] = this.width;
    sums[base + STRETCH_BEFORE] = this.stretch;
    sums[base + SHRINK_BEFORE] = this.shrink;
    sums[base + BOXES_BEFORE] = this.boxes;
    sums[base + AFTER] = 0;
    sums[base + BOXES_AFTER] = 0;
    sums[base + COST] = cost;
    this.flags[at] = flags;
    this.names[at * 2] = this.names[at * 2 + 1] = 0;
    return at;
  }

  /** A box follows: here begin the lines after the breaks that are open. */
  private close(): void {
    const { sums } = this;
    for (let base = this.open * STRIDE; base < this.count * STRIDE; base += STRIDE) {
      sums[base + AFTER]! += this.width;
      sums[base + STRETCH_AFTER] = this.stretch;
      sums[base + SHRINK_AFTER] = this.shrink;
      sums[base + BOXES_AFTER]! += this.boxes;
    }
    this.open = this.count;
  }

  private grow(): void {
    const room = this.flags.length * 2;
    this.sums = grown(this.sums, room * STRIDE);
    this.flags = grown(this.flags, room);
    this.names = grown(this.names, room * 2);
  }
}
