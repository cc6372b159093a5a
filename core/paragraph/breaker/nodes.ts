/**
 * The feasible ends of lines of one search. In: breaks, and how each was reached; out: a list in the order of the text of
 * those from which a line can go on, and the solutions that end in it.
 */
import { grown } from '../grown.ts';
import { AFTER, BOXES_AFTER, type BreakList, SHRINK_AFTER, STRETCH_AFTER, STRIDE } from './breakList.ts';

export interface Solution {
  /** The break that ends each line. */
  readonly breaks: readonly number[];
  readonly demerits: number;
}

/** No node. */
export const NONE = -1;
const ROOM = 1024;

/** How a node was reached: total demerits, the node before it, and lines running that end in a hyphen. */
export interface Way {
  readonly total: number;
  readonly from: number;
  readonly hyphens: number;
}

/** Nodes as columns of numbers, and those still in play as a linked list. One object serves search after search. */
export class Nodes {
  head = NONE;
  point = new Int32Array(ROOM);
  /** How many lines end with the node; the fitness of the last. */
  line = new Int32Array(ROOM);
  kind = new Uint8Array(ROOM);
  hyphens = new Uint8Array(ROOM);
  total = new Float64Array(ROOM);
  next = new Int32Array(ROOM);
  /** Running sums after the break. */
  after = new Float64Array(ROOM);
  stretch = new Float64Array(ROOM);
  shrink = new Float64Array(ROOM);
  boxes = new Float64Array(ROOM);
  private before = new Int32Array(ROOM);
  private count = 0;
  private tail = NONE;

  /** Forgets all nodes. */
  clear(): void {
    this.count = 0;
    this.drop();
  }

  /** Takes all nodes out of play: no line goes on past a forced break. */
  drop(): void {
    this.head = this.tail = NONE;
  }

  /** A new node at the end of the list. */
  add({ sums }: BreakList, at: number, line: number, kind: number): number {
    const id = this.count++;
    if (id === this.point.length) this.grow();
    const base = at * STRIDE;
    this.point[id] = at;
    this.line[id] = line;
    this.kind[id] = kind;
    this.after[id] = sums[base + AFTER]!;
    this.stretch[id] = sums[base + STRETCH_AFTER]!;
    this.shrink[id] = sums[base + SHRINK_AFTER]!;
    this.boxes[id] = sums[base + BOXES_AFTER]!;
    this.next[id] = NONE;
    if (this.tail === NONE) this.head = id;
    else this.next[this.tail] = id;
    this.tail = id;
    return id;
  }

  reach(node: number, { total, from, hyphens }: Way): void {
    this.total[node] = total;
    this.before[node] = from;
    this.hyphens[node] = hyphens;
  }

  /** Takes a node out of play. */
  unlink(node: number, previous: number): void {
    const next = this.next[node]!;
    if (previous === NONE) this.head = next;
    else this.next[previous] = next;
    if (this.tail === node) this.tail = previous;
  }

  /** The best solution of those that end in the list; null for an empty one. Of equals the shortest. */
  best(): Solution | null {
    let best = this.head;
    for (let node = this.head; node !== NONE; node = this.next[node]!) {
      const more = this.total[node]! - this.total[best]!;
      if (more < 0 || (more === 0 && this.line[node]! < this.line[best]!)) best = node;
    }
    return best === NONE ? null : this.trace(best);
  }

  /** The best solution of each number of lines, by rising number. */
  bestOfEachLength(): readonly Solution[] {
    const byLines = new Map<number, number>();
    for (let node = this.head; node !== NONE; node = this.next[node]!) {
      const rival = byLines.get(this.line[node]!);
      if (rival === undefined || this.total[node]! < this.total[rival]!) byLines.set(this.line[node]!, node);
    }
    return [...byLines.entries()].sort((a, b) => a[0] - b[0]).map(([, node]) => this.trace(node));
  }

  private trace(end: number): Solution {
    const breaks: number[] = [];
    for (let node = end; this.before[node] !== NONE; node = this.before[node]!) breaks.push(this.point[node]!);
    return { breaks: breaks.reverse(), demerits: this.total[end]! };
  }

  private grow(): void {
    const room = this.point.length + 1;
    this.point = grown(this.point, room);
    this.line = grown(this.line, room);
    this.kind = grown(this.kind, room);
    this.hyphens = grown(this.hyphens, room);
    this.total = grown(this.total, room);
    this.before = grown(this.before, room);
    this.next = grown(this.next, room);
    this.after = grown(this.after, room);
    this.stretch = grown(this.stretch, room);
    this.shrink = grown(this.shrink, room);
    this.boxes = grown(this.boxes, room);
  }
}
