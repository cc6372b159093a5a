/**
 * Moves a figure that leaves a hole. In: the pages of a section; out: the flow with the text after the figure put before
 * it, as much as fills the page that the figure did not fit on, or null where no page has such a hole. A figure moves once.
 */
import { type Flow, type FlowItem, FORBIDDEN, fixedItem, type Row } from '../flow.ts';
import type { End } from './end.ts';
import type { Strip } from './strip.ts';

/** White lines before a figure that are a hole. */
const HOLE = 3;

/** The flow with the first figure moved that is worth it. */
export function moveFigure(strip: Strip, ends: readonly End[]): Flow | null {
  for (const end of ends) {
    if (end.short < HOLE || end.carried.length > 0) continue;
    const figure = strip.itemAt(end.next);
    if (!strip.flow.items[figure]?.floats) continue;
    const items = moved(strip.flow.items, figure, end.short);
    if (items) return { ...strip.flow, items };
  }
  return null;
}

/** The items with those rows before the figure that follow it and fill `room`, or null where none do. */
function moved(items: readonly FlowItem[], figure: number, room: number): readonly FlowItem[] | null {
  const from = isSpace(items[figure - 1]) ? figure - 1 : figure;
  const after = isSpace(items[figure + 1]) ? figure + 2 : figure + 1;
  const cut = cutAfter(items, after, room);
  if (!cut) return null;
  const whole = items.slice(after, cut.item);
  const split = items[cut.item];
  if (!split) return null;
  const [head, tail] = divided(split.rows, cut.rows);
  const carried = items.slice(from, after).map((item) => (item.floats ? { ...item, floats: false } : item));
  const first = tail.length === 0 ? split : fixedItem(...head);
  const rest = tail.length === 0 ? [] : [fixedItem(...tail)];
  return [...items.slice(0, from), ...whole, first, ...carried, ...rest, ...items.slice(cut.item + 1)];
}

/** The rows before a cut and those after it: two lines at least stay together on each side. */
function divided(rows: readonly Row[], cut: number): readonly [readonly Row[], readonly Row[]] {
  const held = (row: Row, index: number): Row =>
    index === cut - 2 || (index === cut && index < rows.length - 1) ? { ...row, penalty: FORBIDDEN } : row;
  const bound = rows.map(held);
  return [bound.slice(0, cut), bound.slice(cut)];
}

/** The last place within `room` lines after which a page may end. */
function cutAfter(
  items: readonly FlowItem[],
  from: number,
  room: number,
): { readonly item: number; readonly rows: number } | null {
  let best: { item: number; rows: number } | null = null;
  let used = 0;
  for (let item = from; item < items.length && !items[item]?.floats; item++) {
    const rows = items[item]?.rows ?? [];
    for (let row = 0; row < rows.length; row++) {
      const each = rows[row];
      used += each?.height ?? 0;
      if (used > room || !each || each.notes.length > 0) return best;
      if (Number.isFinite(each.penalty) && each.kind === 'line') best = { item, rows: row + 1 };
    }
  }
  return best;
}

function isSpace(item: FlowItem | undefined): boolean {
  return item?.rows.every((row) => row.kind === 'space') ?? false;
}
