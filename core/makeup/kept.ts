/**
 * Pages that stayed as they were. In: a section's pages as filled anew, and as they were before; out: the new ones, with
 * the very objects of the old ones wherever nothing on a page changed, so that what was made of those is known again.
 */
import type { PageContent } from './fill/content.ts';
import { type Part, type Row, rowAt } from './flow.ts';

/** New pages, by old objects where they are the same. Edits move few pages, and those after them often only their place. */
export function keptContents(now: readonly PageContent[], before: readonly PageContent[]): readonly PageContent[] {
  let from = 0;
  return now.map((page) => {
    const at = before.findIndex((old, index) => index >= from && beginsLike(page, old) && isSame(page, old));
    if (at < 0) return page;
    from = at + 1;
    return before[at] as PageContent;
  });
}

function beginsLike(one: PageContent, other: PageContent): boolean {
  const [first, second] = [one.parts[0], other.parts[0]];
  if (!first || !second) return false;
  if (first.of === second.of) return first.from === second.from;
  return isSameRow(rowAt(first.of, first.from), rowAt(second.of, second.from));
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
    one.parts.length === other.parts.length &&
    one.notes.length === other.notes.length &&
    one.parts.every((part, index) => isSamePart(part, other.parts[index]!)) &&
    one.notes.every((row, index) => isSameRow(row, other.notes[index]!))
  );
}

function isSamePart(one: Part, other: Part): boolean {
  if (one.to - one.from !== other.to - other.from) return false;
  if (one.of === other.of) return one.from === other.from;
  for (let row = 0; row < one.to - one.from; row++) {
    if (!isSameRow(rowAt(one.of, one.from + row), rowAt(other.of, other.from + row))) return false;
  }
  return true;
}

/** Two rows that print alike: one and the same, or white of one height. What a page end after them costs is no matter. */
function isSameRow(one: Row, other: Row): boolean {
  if (one === other) return true;
  return one.paint === other.paint && one.line === other.line && one.kind === other.kind && one.height === other.height;
}
