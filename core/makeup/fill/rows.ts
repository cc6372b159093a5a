/** The rows of a page: blocks at the lengths that the search chose. In: a strip and a page's end; out: its parts in order. */
import { type Part, type Row, type RowStretch, rowAt, rowCount } from '../flow.ts';
import { chosenStretches } from './changes.ts';
import type { End } from './end.ts';
import type { Strip } from './strip.ts';

/** The parts of blocks that make up a page. */
export function partsOf(strip: Strip, end: End): readonly Part[] {
  if (end.from === strip.count) return [];
  const parts: Part[] = [];
  const begun = strip.itemAt(end.from);
  let item = begun;
  if (end.from !== strip.firstOf(begun)) {
    const rest = strip.partFrom(end.from);
    const ends = end.to - end.from < rest.to - rest.from && end.to >= end.from;
    parts.push(ends ? { ...rest, to: rest.from + end.to - end.from + 1 } : rest);
    if (ends) return parts;
    item++;
  }
  const last = strip.itemAt(end.to);
  const isWhole = end.partial === null && end.to + 1 === strip.firstOf(last + 1);
  const whole = isWhole ? last : last - 1;
  const other = chosenStretches(strip, item, whole, end.change);
  for (; item <= whole; item++) {
    const at = item;
    const of: RowStretch = other.find((each) => each.item === at)?.variant ?? strip.items[item]!;
    parts.push({ of, from: 0, to: rowCount(of) });
  }
  if (whole === last) return parts;
  const { partial } = end;
  const first = partial?.first ?? strip.firstOf(last);
  parts.push({ of: partial?.variant ?? strip.items[last]!, from: 0, to: end.to - first + 1 });
  return parts;
}

/** All rows of some parts. */
export function rowsOf(parts: readonly Part[]): readonly Row[] {
  const rows: Row[] = [];
  for (const { of, from, to } of parts) for (let row = from; row < to; row++) rows.push(rowAt(of, row));
  return rows;
}
