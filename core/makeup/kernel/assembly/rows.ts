/**
 * A section's rows as one strip, by number: what filling asks of them. Blocks at another length lie behind the strip as
 * stretches of their own, from which the way leads back into it.
 */
import { widened } from '../../../base/assembly/room';
import { askLengths } from './outside';
import { LONE_PAIR, price } from './prices';

/** A row at which a page has to be looked at, whatever its height: see `Row.quiet`. */
export const LOUD: i32 = -1;
/** The row looks the same at the edges of a page. */
export const NO_EDGE: i32 = -1;
/** Dropped at the head and the foot of a page. */
export const WHITE: i32 = 1;
/** The line ends in a hyphen made by dividing a word. */
export const HYPHENATED: i32 = 2;

const UNKNOWN: i32 = -1;

@unmanaged
export class Row {
  /** Cost of ending a page after it. */
  penalty: f64;
  /** The row that stands below it, and the block that it belongs to. */
  following: i32;
  item: i32;
  /** Its notes among those of all rows. */
  firstNote: i32;
  endNote: i32;
  /** Lines of the grid that it takes, and at the head or the foot of a page where that differs. */
  height: i32;
  edge: i32;
  /**
   * Its height where the walk down a page may pass over it, far from the foot: a row without notes, no scene break, not the
   * last of its block or of the section. `LOUD` for any other.
   */
  quiet: i32;
  flags: i32;
}

/** A block at another length. */
@unmanaged
export class Stretch {
  cost: f64;
  /** Its first row, and how many it has. */
  first: i32;
  rows: i32;
  /** Lines more or fewer than the block has at its best. */
  change: i32;
  padding: i32;
}

@unmanaged
class Item {
  firstRow: i32;
  /** Its stretches, `UNKNOWN` as long as nobody has asked. */
  firstStretch: i32;
  stretches: i32;
}

let rows: usize = 0;
let rowRoom: i32 = 0;
/** Rows in all, those of stretches among them. */
export let rowCount: i32 = 0;
/** Rows of the strip, and the number of the row that stands for the section's end. */
export let count: i32 = 0;
/** The last row that a page would show at its foot. */
let lastRow: i32 = 0;

let items: usize = 0;
let itemRoom: i32 = 0;
export let itemCount: i32 = 0;

let stretches: usize = 0;
let stretchRoom: i32 = 0;
let stretchCount: i32 = 0;

/** Rows of the notes that the rows refer to, in their order. */
let notes: usize = 0;
let noteRoom: i32 = 0;
let noteCount: i32 = 0;

/** First row of the block or stretch that is being added. */
let begun: i32 = 0;

/** A row. It moves when one is added. */
export function rowOf(row: i32): Row {
  return changetype<Row>(rows + <usize>row * offsetof<Row>());
}

export function stretchOf(stretch: i32): Stretch {
  return changetype<Stretch>(stretches + <usize>stretch * offsetof<Stretch>());
}

function itemOf(item: i32): Item {
  return changetype<Item>(items + <usize>item * offsetof<Item>());
}

/** Rows of a note. */
export function noteAt(note: i32): i32 {
  return load<i32>(notes + ((<usize>note) << 2));
}

/** Begins a strip. */
export function startStrip(): void {
  rowCount = itemCount = stretchCount = noteCount = 0;
}

/** Begins a block; `gives` where it can be set to other lengths. Rows follow, then `endItem`. */
export function startItem(gives: bool): void {
  roomForItems(itemCount + 2);
  const item = itemOf(itemCount);
  item.firstRow = begun = rowCount;
  item.firstStretch = 0;
  item.stretches = gives ? UNKNOWN : 0;
}

/** Adds a row; its notes follow. */
export function addRow(height: i32, penalty: f64, edge: i32, flags: i32): void {
  const at = rowCount++;
  if (at === rowRoom) {
    rowRoom = max(512, rowRoom * 2);
    rows = widened(rows, <usize>rowRoom * offsetof<Row>());
  }
  const row = rowOf(at);
  row.penalty = penalty;
  row.following = at + 1;
  row.item = itemCount;
  row.firstNote = row.endNote = noteCount;
  row.height = height;
  row.edge = edge;
  row.quiet = LOUD;
  row.flags = flags;
}

/** A note of the row added last, of so many rows. */
export function addNote(length: i32): void {
  const at = noteCount++;
  if (at === noteRoom) {
    noteRoom = max(64, noteRoom * 2);
    notes = widened(notes, (<usize>noteRoom) << 2);
  }
  store<i32>(notes + ((<usize>at) << 2), length);
  rowOf(rowCount - 1).endNote = noteCount;
}

/**
 * Adds the lines of a paragraph without notes. `inside` and `after` are the costs of a page end between two of them and
 * after the last; so many `orphans` and `widows` at least stay together.
 */
export function addLines(lines: i32, height: i32, orphans: i32, widows: i32, inside: f64, after: f64): void {
  for (let line = 1; line <= lines; line++) {
    const whole = line >= orphans && lines - line >= widows;
    addRow(height, line === lines ? after : whole ? inside : Infinity, NO_EDGE, 0);
  }
}

/** Notes that a line of the block at hand ends in a hyphen. */
export function hyphenate(line: i32): void {
  const row = rowOf(begun + line);
  row.flags |= HYPHENATED;
}

export function endItem(): void {
  judge();
  itemCount++;
}

/** Ends the strip. */
export function endStrip(): void {
  count = rowCount;
  lastRow = count - 1;
  while (lastRow >= 0 && rowOf(lastRow).flags & WHITE) lastRow--;
  startItem(false);
  addRow(0, Infinity, NO_EDGE, WHITE);
  for (let row = max(0, lastRow); row < count; row++) rowOf(row).quiet = LOUD;
}

/** Begins another length of a block, whose rows follow, then `endStretch`. */
export function startStretch(item: i32, change: i32, cost: f64): void {
  const at = stretchCount++;
  if (at === stretchRoom) {
    stretchRoom = max(64, stretchRoom * 2);
    stretches = widened(stretches, <usize>stretchRoom * offsetof<Stretch>());
  }
  if (itemOf(item).stretches === UNKNOWN) {
    itemOf(item).firstStretch = at;
    itemOf(item).stretches = 0;
  }
  itemOf(item).stretches++;
  const stretch = stretchOf(at);
  stretch.cost = cost;
  stretch.first = begun = rowCount;
  stretch.change = change;
  stretchItem = item;
}

let stretchItem: i32 = 0;

export function endStretch(): void {
  judge();
  stretchOf(stretchCount - 1).rows = rowCount - begun;
  for (let row = begun; row < rowCount; row++) rowOf(row).item = stretchItem;
  rowOf(rowCount - 1).following = firstOf(stretchItem + 1);
}

/** Finds which of the rows at hand may be passed over, and what a page end after each of them costs. */
function judge(): void {
  for (let at = begun; at < rowCount - 1; at++) {
    const row = rowOf(at);
    if (row.endNote === row.firstNote && row.edge === NO_EDGE) row.quiet = row.height;
    // A pair is alone where the row before it, or after it, can't be the last.
    const lone = rowOf(at + 1).penalty === Infinity || (at > begun && rowOf(at - 1).penalty === Infinity);
    if (lone) row.penalty += price(LONE_PAIR);
  }
}

/** The other lengths of a block: how many, the first of them at `firstStretchOf`. Asks for them the first time. */
export function stretchesOf(item: i32): i32 {
  if (itemOf(item).stretches === UNKNOWN) {
    askLengths(item);
    if (itemOf(item).stretches === UNKNOWN) itemOf(item).stretches = 0;
  }
  return itemOf(item).stretches;
}

export function firstStretchOf(item: i32): i32 {
  return itemOf(item).firstStretch;
}

export function firstOf(item: i32): i32 {
  return itemOf(item).firstRow;
}

/** The first row at or after one that a page would show at its head. */
export function head(from: i32): i32 {
  let row = from;
  while (row < count && rowOf(row).flags & WHITE) row++;
  return row;
}

/** Whether nothing that a page would show follows a row. */
export function endsAfter(row: i32): bool {
  if (row < count) return row >= lastRow;
  const next = rowOf(row).following;
  return next <= count && next > lastRow;
}

/** Cost of ending a page after a row. */
export function penaltyOf(row: i32): f64 {
  return endsAfter(row) ? 0 : rowOf(row).penalty;
}

function roomForItems(wanted: i32): void {
  if (wanted <= itemRoom) return;
  itemRoom = max(128, itemRoom * 2);
  items = widened(items, <usize>itemRoom * offsetof<Item>());
}
