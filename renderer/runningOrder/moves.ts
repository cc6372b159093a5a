/**
 * Sections in another order. In: rows, those that move and where to; out: changes. A part takes its chapters along, and all
 * that moves at once keeps its own order.
 */
import type { SectionId } from '#base';
import type { Change } from '#book';
import type { SectionRow } from '../state/index.ts';

export type Ordered = Pick<SectionRow, 'id' | 'kind' | 'part'>;

/** Those that move, in running order, with the chapters of the parts among them. */
export function withChapters(rows: readonly Ordered[], chosen: ReadonlySet<SectionId>): readonly SectionId[] {
  return rows.filter((row) => chosen.has(row.id) || (row.part !== null && chosen.has(row.part))).map((row) => row.id);
}

/** Moves sections so that they stand before `before`, or at the end for null. Null where nothing would change. */
export function moveBefore(
  rows: readonly Ordered[],
  moving: readonly SectionId[],
  before: SectionId | null,
): Change | null {
  const order = rows.map((row) => row.id);
  const target = firstAtRest(order, moving, before);
  const changes: Change[] = [];
  for (const section of moving) {
    const from = order.indexOf(section);
    if (from < 0) continue;
    order.splice(from, 1);
    const index = target === null ? order.length : order.indexOf(target);
    order.splice(index, 0, section);
    if (index !== from) changes.push({ kind: 'moveSection', section, index });
  }
  return changes.length === 0 ? null : { kind: 'group', changes };
}

/** The first section from `before` on that stays where it is: what moves can't be landed before itself. */
function firstAtRest(
  order: readonly SectionId[],
  moving: readonly SectionId[],
  before: SectionId | null,
): SectionId | null {
  const from = before === null ? order.length : order.indexOf(before);
  return order.slice(from).find((each) => !moving.includes(each)) ?? null;
}

/** Moves sections one place up or down; a part goes past its neighbour part as a whole. */
export function moveBy(rows: readonly Ordered[], chosen: ReadonlySet<SectionId>, step: 1 | -1): Change | null {
  const moving = withChapters(rows, chosen);
  const places = moving.map((id) => rows.findIndex((row) => row.id === id));
  const byParts = rows.some((row) => row.kind === 'part' && chosen.has(row.id));
  if (step < 0) return moveUp(rows, moving, Math.min(...places), byParts);
  return moveDown(rows, moving, Math.max(...places), byParts);
}

function moveUp(
  rows: readonly Ordered[],
  moving: readonly SectionId[],
  first: number,
  byParts: boolean,
): Change | null {
  const above = rows[first - 1];
  if (!above) return null;
  return moveBefore(rows, moving, byParts && above.part !== null ? above.part : above.id);
}

function moveDown(
  rows: readonly Ordered[],
  moving: readonly SectionId[],
  last: number,
  byParts: boolean,
): Change | null {
  const below = rows[last + 1];
  if (!below) return null;
  let end = last + 2;
  if (byParts && below.kind === 'part') while (rows[end]?.part === below.id) end++;
  return moveBefore(rows, moving, rows[end]?.id ?? null);
}
