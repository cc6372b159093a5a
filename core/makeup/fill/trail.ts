/**
 * What a search came upon, page by page: kept, so that the next search over nearly the same section goes over the pages
 * that changed alone. Ways are known by their places in their page, not by each other, so that pages can be taken over.
 */
import type { Row } from '../flow.ts';
import type { End } from './end.ts';

/** A way to have filled the pages so far. */
export interface Way {
  /** The last page; null before the first. */
  readonly end: End | null;
  /** Which of the ways before that page it goes on from. */
  readonly from: number;
  readonly cost: number;
}

/** Ways that go on from the same row with the same notes, one for each depth of the page before. */
export class Fork {
  /** Cost of the cheapest. */
  least = Number.POSITIVE_INFINITY;
  /** Place of the first among all ways before the page. */
  first = 0;
  /** Whether blocks on the page were asked for other lengths. */
  elastic = false;

  constructor(
    readonly start: number,
    readonly carried: readonly Row[],
    public ways: Way[] = [],
  ) {}

  /** Takes a way in, unless one that leaves the same to do is as cheap. */
  take(way: Way): void {
    const { ways } = this;
    let at = 0;
    while (at < ways.length && ways[at]!.end!.foot !== way.end!.foot) at++;
    if (at < ways.length && ways[at]!.cost <= way.cost) return;
    ways[at] = way;
    if (way.cost < this.least) this.least = way.cost;
  }
}

/** A way to the section's end. */
export interface Done {
  readonly end: End;
  /** Its number of pages, the last one left out. */
  readonly page: number;
  readonly from: number;
  readonly cost: number;
}

/** The ways before a page, and what was known by then. */
export interface Level {
  readonly forks: readonly Fork[];
  readonly bound: number;
  readonly done: Done | null;
}

/** A whole search. */
export interface Trail {
  readonly levels: readonly Level[];
  readonly done: Done | null;
  /** The finder's revision. */
  readonly revision: number;
}

/** The ways before a page, counted. */
export function levelOf(forks: readonly Fork[], bound: number, done: Done | null): Level {
  let first = 0;
  for (const fork of forks) {
    fork.first = first;
    first += fork.ways.length;
  }
  return { forks, bound, done };
}

/** Whether two levels leave the very same to do, their ways in the same places; none with notes that run on. */
export function isSameLevel(one: Level, other: Level | undefined): boolean {
  return (
    other !== undefined &&
    one.done === null &&
    other.done === null &&
    one.bound === other.bound &&
    one.forks.length === other.forks.length &&
    one.forks.every((fork, index) => isSameFork(fork, other.forks[index]!))
  );
}

function isSameFork(one: Fork, other: Fork): boolean {
  return (
    one.start === other.start &&
    one.carried.length + other.carried.length === 0 &&
    one.ways.length === other.ways.length &&
    one.ways.every((way, index) => isSameWay(way, other.ways[index]!))
  );
}

function isSameWay(one: Way, other: Way): boolean {
  return one.cost === other.cost && one.end?.foot === other.end?.foot;
}

/** The pages of a way to the section's end. */
export function pathOf({ levels, done }: Trail): readonly End[] {
  if (!done) return [];
  const path = [done.end];
  let { from } = done;
  for (let page = done.page; page > 0; page--) {
    const way = wayAt(levels[page]!, from);
    path.push(way.end!);
    from = way.from;
  }
  return path.reverse();
}

function wayAt({ forks }: Level, place: number): Way {
  const fork = forks.findLast(({ first }) => first <= place)!;
  return fork.ways[place - fork.first]!;
}
