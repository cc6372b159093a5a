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
import type { End } from './end.ts';
import type { EndFinder } from './ends.ts';
import { type Done, Fork, isSameLevel, type Level, levelOf, pathOf, type Trail, type Way } from './trail.ts';

/** Ways kept after each page: a guard for text that only a machine would make; an ordinary section has far fewer. */
const MOST_WAYS = 8192;
/** Ways kept by the first search, which only has to come near: its cost bounds the second, which leaves nothing out. */
const FIRST_WAYS = 6;

/** A section filled. */
export interface Filling {
  readonly ends: readonly End[];
  readonly cost: number;
}

/** Which ways are looked for: with other lengths of blocks where `elastic`, of less cost than the bound. */
interface Pass {
  readonly elastic: boolean;
  readonly bound: number;
  /** Ways kept after each page. */
  readonly most: number;
}

/** The cheapest pages of a section. */
export function bestFilling(finder: EndFinder, side: Side): Filling {
  if (finder.strip.count === 0) return { ends: [], cost: 0 };
  const search = new Search(finder, side);
  const plain = search.run({ elastic: false, bound: Number.POSITIVE_INFINITY, most: FIRST_WAYS });
  if (!plain.done) throw new RangeError('a section could not be filled into pages');
  const { cost } = plain.done;
  const better = cost === 0 ? null : search.run({ elastic: true, bound: cost, most: MOST_WAYS });
  return better?.done ? { ends: pathOf(better), cost: better.done.cost } : { ends: pathOf(plain), cost };
}

class Search {
  private levels: Level[] = [];
  /** Cost of the best way to the section's end, or what a way must cost less than. */
  private bound = 0;
  private done: Done | null = null;

  constructor(
    private readonly finder: EndFinder,
    private readonly firstSide: Side,
  ) {}

  /** All ways that may become the cheapest. Pages that the last search left as they would be are taken over from it. */
  run(pass: Pass): Trail {
    const key = `${this.firstSide} ${pass.elastic}`;
    const known = this.finder.trails.get(key);
    const old = known && known.levels[0]!.bound === pass.bound ? known : null;
    const touched = old ? this.touchedIn(old) : null;
    this.begin(pass.bound, old, touched);
    if (!old || touched) this.goOnFrom(pass, old, touched?.last ?? 0);
    const trail = { levels: this.levels, done: this.done, revision: this.finder.revision };
    this.finder.trails.set(key, trail);
    return trail;
  }

  /** The first and the last of a search's pages whose ends are not known to be what they were. */
  private touchedIn({ levels, revision }: Trail): { readonly first: number; readonly last: number } | null {
    const isTouched = ({ forks }: Level): boolean =>
      forks.some(({ start, carried, elastic }) => !this.finder.hasKept({ start, carried, elastic }, revision));
    const first = levels.findIndex(isTouched);
    return first < 0 ? null : { first, last: levels.findLastIndex(isTouched) };
  }

  private begin(bound: number, old: Trail | null, touched: { readonly first: number } | null): void {
    this.levels = old ? old.levels.slice(0, touched ? touched.first + 1 : undefined) : [begun(bound)];
    const last = this.levels.at(-1)!;
    this.bound = last.bound;
    this.done = old && !touched ? old.done : last.done;
  }

  private goOnFrom({ elastic, most }: Pass, old: Trail | null, touched: number): void {
    for (let page = this.levels.length - 1; this.levels[page]!.forks.length > 0; page++) {
      if (old && page > touched && isSameLevel(this.levels[page]!, old.levels[page])) {
        this.takeOver(old, page);
        return;
      }
      const next = new Map<number | string, Fork>();
      for (const fork of this.levels[page]!.forks) this.fill(fork, page, elastic, next);
      this.levels.push(levelOf(this.open([...next.values()], most), this.bound, this.done));
    }
  }

  /** From a page on, which leaves the same to do, all is as the last search had it. */
  private takeOver(old: Trail, page: number): void {
    this.levels[page]!.forks.forEach((fork, index) => {
      fork.elastic = old.levels[page]!.forks[index]!.elastic;
    });
    this.levels.push(...old.levels.slice(page + 1));
    this.done = old.done;
  }

  /** Fills one page more. */
  private fill(fork: Fork, page: number, elastic: boolean, next: Map<number | string, Fork>): void {
    const { least, ways } = fork;
    const side = this.side(page);
    fork.elastic = elastic && least + VARIANT_LEAST < this.bound;
    for (const end of this.finder.of(fork)) {
      const { short, hyphenated, last, used } = end;
      const own = end.cost + costOfFoot({ short, hyphenated, last, used, side, first: page === 0 });
      if (least + own >= this.bound) continue;
      let best = -1;
      let cost = this.bound;
      for (let at = 0; at < ways.length; at++) {
        const way = ways[at]!;
        const pair = way.end ? costOfPair({ side, before: way.end.foot, after: end.foot, last }) : 0;
        if (way.cost + own + pair >= cost) continue;
        cost = way.cost + own + pair;
        best = at;
      }
      if (best >= 0) this.reach({ end, from: fork.first + best, cost }, page, next);
    }
  }

  private reach(way: Way & { readonly end: End }, page: number, next: Map<number | string, Fork>): void {
    const { end, cost } = way;
    if (end.last) {
      this.done = { ...way, page };
      this.bound = cost;
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
function begun(bound: number): Level {
  const fork = new Fork(0, NO_ROWS, [{ end: null, from: 0, cost: 0 }]);
  fork.least = 0;
  return levelOf([fork], bound, null);
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
