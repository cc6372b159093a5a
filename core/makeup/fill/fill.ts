/** Fills a section's pages: finds the best ends, moves figures that leave a hole, and puts rows on their lines. */
import type { Side } from '#page';
import type { Flow, Paint, Row } from '../flow.ts';
import { chosenStretches } from './changes.ts';
import type { PageContent, PlacedRow } from './content.ts';
import type { End } from './end.ts';
import { EndFinder } from './ends.ts';
import { moveFigure } from './figures.ts';
import type { Filler, FillRequest } from './filler.ts';
import { bestFilling } from './search.ts';
import { Strip } from './strip.ts';

/** Fills a section's pages. */
export const fillPages: Filler = ({ flow, side, memory }: FillRequest) => {
  const finder = memory?.finderFor(flow) ?? new EndFinder(new Strip(flow));
  const { strip } = finder;
  const { ends } = bestFilling(finder, side);
  const moved = moveFigure(strip, ends);
  if (moved) return fillMoved(moved, side);
  const pages = new Map(ends.map((end, index) => [end, memory?.page(end) ?? contentOf(strip, end, index === 0)]));
  memory?.keepPages(pages);
  return [...pages.values()];
};

/** Fills pages with a figure moved, and then with others as long as one leaves a hole. */
function fillMoved(flow: Flow, side: Side): readonly PageContent[] {
  let strip = new Strip(flow);
  let { ends } = bestFilling(new EndFinder(strip), side);
  for (let moved = moveFigure(strip, ends); moved; moved = moveFigure(strip, ends)) {
    strip = new Strip(moved);
    ends = bestFilling(new EndFinder(strip), side).ends;
  }
  return ends.map((end, index) => contentOf(strip, end, index === 0));
}

/** The rows of a page on their lines. */
function contentOf(strip: Strip, end: End, first: boolean): PageContent {
  const rows = rowsOf(strip, end);
  const placed: PlacedRow[] = [];
  let line = -1;
  rows.forEach((row, index) => {
    const edge = edgeOf(row, { head: index === 0, foot: index === rows.length - 1 && !end.last });
    line += edge?.height ?? row.height;
    placed.push({ row, line, paint: edge?.paint ?? row.paint });
  });
  return { flow: strip.flow, rows: placed, notes: end.notes, short: end.short, first, last: end.last };
}

/** What a scene break at an edge of the page shows instead of white. */
function edgeOf(
  row: Row,
  at: { readonly head: boolean; readonly foot: boolean },
): { readonly height: number; readonly paint: Paint } | null {
  if (row.edge === null || !(at.head || at.foot)) return null;
  return { height: row.edge.height, paint: at.head ? row.edge.head : row.edge.foot };
}

/** The rows of a page, blocks at the lengths that the search chose. */
export function rowsOf(strip: Strip, end: End): readonly Row[] {
  if (end.from === strip.count) return [];
  const rows: Row[] = [];
  const begun = strip.itemAt(end.from);
  let item = begun;
  if (end.from !== strip.firstOf(begun)) {
    for (let row = end.from; strip.itemAt(row) === begun; row = strip.after(row)) {
      rows.push(strip.rows[row]!);
      if (row === end.to) return rows;
    }
    item++;
  }
  const last = strip.itemAt(end.to);
  const whole = end.partial === null && strip.after(end.to) === strip.firstOf(last + 1) ? last : last - 1;
  const other = new Map(chosenStretches(strip, item, whole, end.change).map((each) => [each.item, each]));
  for (; item <= whole; item++) rows.push(...(other.get(item)?.variant.rows ?? strip.items[item]!.rows));
  if (whole === last) return rows;
  for (let row = end.partial?.first ?? strip.firstOf(last); ; row++) {
    rows.push(strip.rows[row]!);
    if (row === end.to) return rows;
  }
}
