/**
 * The optimum of a section's pages: dynamic programming over page ends. In: a section's rows and the side of its first
 * page; out: the pages whose costs are the least in all.
 *
 * Two ways to the same next row, with the same notes running on and the same depth of the page before, leave the same to
 * do: only the cheaper is kept, and the search goes on from page to page. The literature: M. F. Plass, "Optimal Pagination
 * Techniques for Automatic Typesetting Systems", Stanford 1981 (dynamic programming over lines and pages; FACTS 8.4 G-01);
 * F. Mittelbach, "A General Framework for Globally Optimized Pagination", DocEng 2016 (spreads that run long or short, and
 * paragraphs at other lengths; G-02). Other lengths are asked for late: a first search does without, its cost bounds the
 * second, and there a block is asked only where the bound leaves room for the least that another length can cost.
 */
import type { Side } from '#page';
import type { Row } from '../flow.ts';
import { costOfFoot, costOfPair, VARIANT_LEAST } from './costs.ts';
import type { End, EndFinder } from './ends.ts';

/** Ways kept after each page: a guard for text that only a machine would make; an ordinary section has far fewer. */
const MOST_WAYS = 8192;
/** Ways kept by the first search, which only has to come near: its cost bounds the second, which leaves nothing out. */
const FIRST_WAYS = 6;

/** A section filled. */
export interface Filling {
  readonly ends: readonly End[];
  readonly cost: number;
}

/** A way to have filled the pages so far. */
interface Way {
  readonly end: End | null;
  readonly before: Way | null;
  readonly cost: number;
}

/** The cheapest pages of a section. */
export function bestFilling(finder: EndFinder, side: Side): Filling {
  if (finder.strip.count === 0) return { ends: [], cost: 0 };
  const search = new Search(finder, side);
  const plain = search.run({ elastic: false, bound: Number.POSITIVE_INFINITY, most: FIRST_WAYS });
  if (!plain) throw new RangeError('a section could not be filled into pages');
  const best = plain.cost === 0 ? plain : (search.run({ elastic: true, bound: plain.cost, most: MOST_WAYS }) ?? plain);
  return { ends: pathTo(best), cost: best.cost };
}

/** Ways that go on from the same row with the same notes, one for each depth of the page before. */
class Fork {
  /** Cost of the cheapest. */
  least = Number.POSITIVE_INFINITY;

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

class Search {
  /** Cost of the best way to the section's end, or what a way must cost less than. */
  private bound = 0;
  private done: Way | null = null;

  constructor(
    private readonly finder: EndFinder,
    private readonly firstSide: Side,
  ) {}

  /** The cheapest way that costs less than the bound; with other lengths of blocks where `elastic`. */
  run({ elastic, bound, most }: { elastic: boolean; bound: number; most: number }): Way | null {
    this.bound = bound;
    this.done = null;
    let forks: readonly Fork[] = [begun()];
    for (let page = 0; forks.length > 0; page++) {
      const next = new Map<number | string, Fork>();
      for (const fork of forks) this.goOn(fork, page, elastic, next);
      forks = this.open([...next.values()], most);
    }
    return this.done;
  }

  /** Fills one page more. */
  private goOn(fork: Fork, page: number, elastic: boolean, next: Map<number | string, Fork>): void {
    const { start, carried, least, ways } = fork;
    const side = this.side(page);
    const pays = elastic && least + VARIANT_LEAST < this.bound;
    for (const end of this.finder.of({ start, carried, elastic: pays })) {
      const { short, hyphenated, last, used } = end;
      const own = end.cost + costOfFoot({ short, hyphenated, last, used, side, first: page === 0 });
      if (least + own >= this.bound) continue;
      let best: Way | null = null;
      let cost = this.bound;
      for (const way of ways) {
        const pair = way.end ? costOfPair({ side, before: way.end.foot, after: end.foot, last }) : 0;
        if (way.cost + own + pair >= cost) continue;
        cost = way.cost + own + pair;
        best = way;
      }
      if (best) this.reach({ end, before: best, cost }, end, next);
    }
  }

  private reach(way: Way, end: End, next: Map<number | string, Fork>): void {
    if (end.last) {
      this.done = way;
      this.bound = way.cost;
      return;
    }
    const key = startKeyOf(end);
    const fork = next.get(key) ?? new Fork(end.next, end.carried);
    if (fork.ways.length === 0) next.set(key, fork);
    fork.take(way);
  }

  /** The forks that may still become the best, with no more ways than `most` but for equals. */
  private open(forks: readonly Fork[], most: number): readonly Fork[] {
    const limit = nthLeast(forks, most);
    for (const fork of forks) fork.ways = fork.ways.filter(({ cost }) => cost < this.bound && cost <= limit);
    return forks.filter((fork) => fork.ways.length > 0);
  }

  private side(page: number): Side {
    return (this.firstSide === 'recto') === (page % 2 === 0) ? 'recto' : 'verso';
  }
}

const NO_ROWS: readonly Row[] = [];

/** Before the first page. */
function begun(): Fork {
  const fork = new Fork(0, NO_ROWS, [{ end: null, before: null, cost: 0 }]);
  fork.least = 0;
  return fork;
}

/** The nth of the costs of all ways, by their rise; infinite where there are fewer. */
function nthLeast(forks: readonly Fork[], nth: number): number {
  let count = 0;
  for (const { ways } of forks) count += ways.length;
  if (count < nth) return Number.POSITIVE_INFINITY;
  const costs = new Float64Array(count);
  for (const { ways } of forks) for (const { cost } of ways) costs[--count] = cost;
  return costs.sort()[nth - 1]!;
}

/** Where a page leaves off: the row, and the notes that run on. */
function startKeyOf({ next, carried }: End): number | string {
  const [first] = carried;
  return first ? `${next}/${first.start?.block}/${first.line}/${carried.length}` : next;
}

function pathTo(way: Way): readonly End[] {
  const path: End[] = [];
  for (let each: Way | null = way; each?.end; each = each.before) path.push(each.end);
  return path.reverse();
}
