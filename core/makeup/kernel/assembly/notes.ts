/**
 * The notes of one page as it grows, counted in their rows. In: how many rows run on from the page before, and the notes of
 * the page's rows; out: how many stand at its foot. Notes come in the order of the text, so that those which run on are
 * always the last of all up to there, and their number says which they are.
 */
import { noteAt, rowOf } from './rows';

/** Least rows of a note on each page that it stands on. */
const NOTE_SHARE: i32 = 2;
/** Lines that notes running on leave to the text. */
const TEXT_BESIDE_NOTES: i32 = 3;

let pageLines: i32 = 0;
let noteLeading: f64 = 0;
let leading: f64 = 0;

/** Rows so far, and those of the last note that a row of this page refers to. */
let count: i32 = 0;
let lastLength: i32 = 0;
/** Rows that stand here where not even those from the page before find room: what else comes runs on. */
let limit: i32 = 0;

export function setNotes(lines: i32, ofNotes: f64, ofText: f64): void {
  pageLines = lines;
  noteLeading = ofNotes;
  leading = ofText;
}

/** Begins a page. */
export function startNotes(carried: i32): void {
  count = carried;
  lastLength = 0;
  const now = fitting(pageLines - TEXT_BESIDE_NOTES);
  limit = now < carried ? max(1, now) : i32.MAX_VALUE;
}

/** Lines of the grid that so many rows of notes take, with the white and the rule above them. */
export function noteLines(rows: i32): i32 {
  return rows === 0 ? 0 : <i32>Math.ceil(1.5 + (<f64>(rows - 1) * noteLeading) / leading - 0.001);
}

/** Rows that the page shows. */
export function shownNotes(): i32 {
  return min(limit, count);
}

/** Rows so far. */
export function notesSoFar(): i32 {
  return count;
}

/** Lines of the grid that the notes take whole. */
export function linesOfNotes(): i32 {
  return noteLines(shownNotes());
}

/** Lines that they take at least: the last one may run on. */
export function leastLines(): i32 {
  if (count === 0) return 0;
  const spared = limit < count ? 0 : max(0, lastLength - NOTE_SHARE);
  return noteLines(shownNotes() - (lastLength < 2 * NOTE_SHARE ? 0 : spared));
}

export function takeNotes(row: i32): void {
  const end = rowOf(row).endNote;
  for (let note = rowOf(row).firstNote; note < end; note++) {
    lastLength = noteAt(note);
    count += lastLength;
  }
}

/** The state, to come back to. */
export function markNotes(): u64 {
  return ((<u64>count) << 32) | <u64>lastLength;
}

export function backTo(mark: u64): void {
  count = <i32>(mark >> 32);
  lastLength = <i32>(mark & 0xffffffff);
}

/** Most rows in some lines of the grid such that only the last note runs on, or -1 where it can't be divided so. */
export function shareOf(lines: i32): i32 {
  if (limit < count || lastLength < 2 * NOTE_SHARE) return -1;
  const before = count - lastLength;
  const share = min(lastLength - NOTE_SHARE, fitting(lines) - before);
  return share < NOTE_SHARE ? -1 : before + share;
}

/** Most rows in some lines of the grid, divided well where that can be. */
export function mostIn(lines: i32): i32 {
  const shown = shownNotes();
  const most = min(shown, fitting(lines));
  if (most === shown) return most;
  const share = shareOf(lines);
  return share < 0 ? most : share;
}

function fitting(lines: i32): i32 {
  let rows = count;
  while (rows > 0 && noteLines(rows) > lines) rows--;
  return rows;
}
