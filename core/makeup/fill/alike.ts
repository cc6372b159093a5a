/** Whether filling pages would find any difference between two flows. In: a flow and one made after an edit; out: yes or no. */
import type { Flow, FlowItem, Footnote, Row } from '../flow.ts';

/** Two flows on the same grid, of blocks with as many rows each, with the same notes. */
export function isFlowAlike(one: Flow, other: Flow): boolean {
  const [grid, otherGrid] = [one.grid, other.grid];
  return (
    grid.leading === otherGrid.leading &&
    grid.lines === otherGrid.lines &&
    grid.extra === otherGrid.extra &&
    grid.align === otherGrid.align &&
    one.noteLeading === other.noteLeading &&
    one.items.length === other.items.length &&
    one.items.every((item, index) => item.rows.length === other.items[index]!.rows.length) &&
    one.notes.size === other.notes.size &&
    [...one.notes.values()].every((note) => isNoteAlike(note, other.notes.get(note.id)))
  );
}

function isNoteAlike(one: Footnote, other: Footnote | undefined): boolean {
  return one.rows.length === other?.rows.length && one.rows.every((row, index) => row === other.rows[index]);
}

/** Two blocks of as many rows that cost the same at every row. A block with other lengths is like itself alone. */
export function isItemAlike(one: FlowItem, other: FlowItem): boolean {
  return (
    one.variants === null &&
    other.variants === null &&
    one.demerits === other.demerits &&
    one.floats === other.floats &&
    one.rows.every((row, index) => isRowAlike(row, other.rows[index]!))
  );
}

function isRowAlike(one: Row, other: Row): boolean {
  return (
    one === other ||
    (one.kind === other.kind &&
      one.height === other.height &&
      one.penalty === other.penalty &&
      one.hyphenated === other.hyphenated &&
      one.edge?.height === other.edge?.height &&
      one.notes.length === other.notes.length &&
      one.notes.every((note, index) => note === other.notes[index]))
  );
}
