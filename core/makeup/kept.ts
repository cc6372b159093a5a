/**
 * Pages that stayed as they were. In: a section's pages as filled anew, and as they were before; out: the new ones, with
 * the very objects of the old ones wherever nothing on a page changed, so that what was made of those is known again.
 */
import type { PageContent, PlacedRow } from './fill/content.ts';
import type { Row } from './flow.ts';

/** New pages, by old objects where they are the same. Edits move few pages, and those after them often only their place. */
export function keptContents(now: readonly PageContent[], before: readonly PageContent[]): readonly PageContent[] {
  let from = 0;
  return now.map((page) => {
    const same = before.indexOf(page, from);
    const at =
      same >= 0 ? same : before.findIndex((old, index) => index >= from && beginsLike(page, old) && isSame(page, old));
    if (at < 0) return page;
    from = at + 1;
    return before[at] as PageContent;
  });
}

function beginsLike(one: PageContent, other: PageContent): boolean {
  const [first, second] = [one.rows[0], other.rows[0]];
  return first !== undefined && second !== undefined && isSameRow(first.row, second.row);
}

function isSame(one: PageContent, other: PageContent): boolean {
  const { grid } = one.flow;
  const before = other.flow.grid;
  return (
    one.short === other.short &&
    one.first === other.first &&
    one.last === other.last &&
    grid.leading === before.leading &&
    grid.lines === before.lines &&
    grid.align === before.align &&
    one.flow.noteLeading === other.flow.noteLeading &&
    one.rows.length === other.rows.length &&
    one.notes.length === other.notes.length &&
    one.rows.every((placed, index) => isSamePlace(placed, other.rows[index] as PlacedRow)) &&
    one.notes.every((row, index) => isSameRow(row, other.notes[index] as Row))
  );
}

function isSamePlace(one: PlacedRow, other: PlacedRow): boolean {
  return one.line === other.line && one.paint === other.paint && isSameRow(one.row, other.row);
}

/** Two rows that print alike: one and the same, or white of one height. What a page end after them costs is no matter. */
function isSameRow(one: Row, other: Row): boolean {
  if (one === other) return true;
  return one.paint === other.paint && one.line === other.line && one.kind === other.kind && one.height === other.height;
}
