/**
 * Fills pages by a search forward through a section: after each page the cheapest ways to have come so far are kept, a
 * few of them, so that a page may be a line short where the next ones gain by it. Where the result has faults, a second
 * search lets paragraphs near them be a line longer or shorter.
 */
import type { Side } from '#page';
import type { Paint, Row } from '../flow.ts';
import { costOfEnd } from './costs.ts';
import { type End, EndFinder } from './ends.ts';
import { moveFigure } from './figures.ts';
import type { Filler, FillRequest, PageContent, PlacedRow } from './filler.ts';
import { Strip } from './strip.ts';

/** Ways kept after each page. */
const KEPT = 16;
/** A page that costs less needs no mending. */
const FAULT = 8;

/** A way to have filled the pages so far. */
interface Way {
  readonly end: End | null;
  readonly before: Way | null;
  readonly cost: number;
  readonly pageCost: number;
  readonly pages: number;
}

/** Fills a section's pages. */
export const fillPages: Filler = ({ flow, side }: FillRequest) => {
  let strip = new Strip(flow);
  let ends = endsOf(strip, side);
  for (let moved = moveFigure(strip, ends); moved; moved = moveFigure(strip, ends)) {
    strip = new Strip(moved);
    ends = endsOf(strip, side);
  }
  return ends.map((end, index) => contentOf(strip, end, { index, last: index === ends.length - 1 }));
};

/** The ends of a section's pages, faults mended. */
function endsOf(strip: Strip, side: Side): readonly End[] {
  if (strip.rows.length === 0) return [];
  const search = new Search(strip, side);
  const ways = search.best(NOWHERE);
  const faults = faultyPages(ways);
  const best = faults.size > 0 ? search.best(faults) : ways;
  return best.flatMap((way) => (way.end ? [way.end] : []));
}

const NOWHERE: ReadonlySet<number> = new Set();

/** The pages at fault, with their neighbours. */
function faultyPages(ways: readonly Way[]): ReadonlySet<number> {
  const pages = new Set<number>();
  ways.forEach((way, index) => {
    if (way.pageCost >= FAULT) for (const near of [index - 1, index, index + 1]) pages.add(near);
  });
  return pages;
}

class Search {
  private readonly finder: EndFinder;

  constructor(
    private readonly strip: Strip,
    private readonly firstSide: Side,
  ) {
    this.finder = new EndFinder(strip);
  }

  /** The pages of the cheapest way; on `elastic` pages paragraphs may take another length. */
  best(elastic: ReadonlySet<number>): readonly Way[] {
    let ways: readonly Way[] = [{ end: null, before: null, cost: 0, pageCost: 0, pages: 0 }];
    let done: Way | null = null;
    while (ways.length > 0) {
      const next = new Map<string, Way>();
      for (const way of ways) {
        for (const longer of this.onward(way, elastic)) {
          if ((longer.end?.next ?? 0) < this.strip.rows.length || (longer.end?.carried.length ?? 0) > 0)
            keep(next, longer);
          else if (!done || longer.cost < done.cost) done = longer;
        }
      }
      ways = cheapest(next, done);
    }
    if (!done) throw new RangeError('a section could not be filled into pages');
    return pathTo(done);
  }

  private onward(way: Way, elastic: ReadonlySet<number>): readonly Way[] {
    const start = way.end ? way.end.next : 0;
    const carried = way.end ? way.end.carried : [];
    const side = this.side(way.pages);
    const facing = side === 'recto' && way.end && way.pages > 0 ? way.end.short : null;
    return this.finder.of({ start, carried, elastic: elastic.has(way.pages) }).map((end) => {
      const last = end.next >= this.strip.rows.length && end.carried.length === 0;
      const { short, used } = end;
      const hyphenated = this.strip.rows[end.to]?.hyphenated ?? false;
      const first = way.pages === 0;
      const pageCost = end.penalty + costOfEnd({ side, short, facing, hyphenated, last, used, first });
      return { end, before: way, cost: way.cost + pageCost, pageCost, pages: way.pages + 1 };
    });
  }

  private side(page: number): Side {
    return (this.firstSide === 'recto') === (page % 2 === 0) ? 'recto' : 'verso';
  }
}

/** Of two ways that leave the same to do, the cheaper. */
function keep(ways: Map<string, Way>, way: Way): void {
  const { end } = way;
  const key = `${end?.next}/${end?.short}/${end?.carried.length}`;
  const known = ways.get(key);
  if (!known || way.cost < known.cost) ways.set(key, way);
}

function cheapest(ways: ReadonlyMap<string, Way>, done: Way | null): readonly Way[] {
  const open = [...ways.values()].filter((way) => !done || way.cost < done.cost);
  return open.sort((one, other) => one.cost - other.cost).slice(0, KEPT);
}

function pathTo(way: Way): readonly Way[] {
  const path: Way[] = [];
  for (let each: Way | null = way; each?.end; each = each.before) path.push(each);
  return path.reverse();
}

/** The rows of a page on their lines. */
function contentOf(strip: Strip, end: End, place: { readonly index: number; readonly last: boolean }): PageContent {
  const rows = strip.slice(end.from, end.to, end.stretch);
  const placed: PlacedRow[] = [];
  let line = -1;
  rows.forEach((row: Row, index) => {
    const edge = edgeOf(row, { head: index === 0, foot: index === rows.length - 1 && !place.last });
    line += edge?.height ?? row.height;
    placed.push({ row, line, paint: edge?.paint ?? row.paint });
  });
  const { flow } = strip;
  return { flow, rows: placed, notes: end.notes, short: end.short, first: place.index === 0, last: place.last };
}

/** What a scene break at an edge of the page shows instead of white. */
function edgeOf(
  row: Row,
  at: { readonly head: boolean; readonly foot: boolean },
): { readonly height: number; readonly paint: Paint } | null {
  if (row.edge === null || !(at.head || at.foot)) return null;
  return { height: row.edge.height, paint: at.head ? row.edge.head : row.edge.foot };
}
