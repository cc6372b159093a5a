/**
 * Where a page may end. In: the row it begins with and the notes that run on from the page before; out: the ends worth
 * weighing, each with what the page then holds. The blocks that lie whole on a page may take other lengths, for each change
 * in all the cheapest of them; the block that the page ends in may take one as well.
 */
import { widened } from '../../../base/assembly/room';
import { addChanges, costOfChange, longer, mostShorter, shorter, startChanges } from './changes';
import {
  backTo,
  leastLines,
  linesOfNotes,
  markNotes,
  mostIn,
  noteLines,
  notesSoFar,
  setNotes,
  shareOf,
  shownNotes,
  startNotes,
  takeNotes,
} from './notes';
import { FORCED, NOTE_RUNS_ON, price } from './prices';
import {
  count,
  endsAfter,
  firstOf,
  firstStretchOf,
  HYPHENATED,
  head,
  itemCount,
  NO_EDGE,
  penaltyOf,
  rowCount,
  rowOf,
  stretchesOf,
  stretchOf,
} from './rows';

/** Ends that leave more white than this count only where blocks at their own length offer no other. */
const MOST_SHORT: i32 = 4;

const NONE: i32 = -1;

/** The section's last page. */
export const LAST: i32 = 1;

/** A possible page: see `fill/end.ts`. */
@unmanaged
export class End {
  cost: f64;
  from: i32;
  to: i32;
  next: i32;
  used: i32;
  short: i32;
  foot: i32;
  change: i32;
  /** The other length of the block that the page ends in; -1 for none. */
  partial: i32;
  /** Rows of notes that stand at the foot, and those that run on. */
  shown: i32;
  carried: i32;
  /** `LAST` of this module, `HYPHENATED` of the rows. */
  flags: i32;
  padding: i32;
}

let ends: usize = 0;
let endRoom: i32 = 0;
export let endCount: i32 = 0;

/** The ends known for each row that a page begins with, without and with other lengths: the first, and one past the last. */
let known: usize = 0;
let knownRoom: i32 = 0;
let knownRows: i32 = 0;

// The page.
let lines: i32 = 0;
let extra: i32 = 0;
// The walk.
let first: i32 = 0;
let elastic: bool = false;
let body: i32 = 0;
let natural: bool = false;
/** Rows of notes at the page's beginning. */
let begun: u64 = 0;
/** The fullest end with a note that runs on and yet too much white, where `scantUsed` is not -1. */
const scant: usize = memory.data(offsetof<End>(), 8);
let scantUsed: i32 = -1;

/** What `endsOf` found. */
export let foundFrom: i32 = 0;
export let foundTo: i32 = 0;

/** An end. It moves when one is added. */
export function endOf(end: i32): End {
  return changetype<End>(ends + <usize>end * offsetof<End>());
}

export function endsAt(): usize {
  return ends;
}

/** Begins with a new strip. Leadings in points. */
export function startEnds(pageLines: i32, moreLines: i32, noteLeading: f64, leading: f64): void {
  lines = pageLines;
  extra = moreLines;
  setNotes(pageLines, noteLeading, leading);
  endCount = knownRows = 0;
}

/** Finds the ends of a page, in the order of the text. */
export function endsOf(start: i32, carried: i32, mayGive: bool): void {
  if (carried > 0) {
    walk(start, carried, mayGive);
    return;
  }
  roomForKnown();
  const at = (<usize>(start * 2 + (mayGive ? 1 : 0))) << 3;
  foundFrom = load<i32>(known + at);
  foundTo = load<i32>(known + at, 4);
  if (foundFrom >= 0) return;
  walk(start, carried, mayGive);
  // Rows may have been added: their places are new.
  roomForKnown();
  store<i32>(known + at, foundFrom);
  store<i32>(known + at, foundTo, 4);
}

function roomForKnown(): void {
  if (knownRows === rowCount) return;
  if (rowCount > knownRoom) {
    knownRoom = max(1024, rowCount * 2);
    known = widened(known, (<usize>knownRoom) << 4);
  }
  memory.fill(known + ((<usize>knownRows) << 4), 0xff, (<usize>(rowCount - knownRows)) << 4);
  knownRows = rowCount;
}

/** Walks down a page. */
function walk(start: i32, carried: i32, mayGive: bool): void {
  foundFrom = endCount;
  elastic = mayGive;
  first = head(start);
  body = 0;
  natural = false;
  scantUsed = -1;
  startChanges();
  startNotes(carried);
  begun = markNotes();
  findEnds();
  foundTo = endCount;
}

function findEnds(): void {
  if (first === count) {
    push(first, linesOfNotes(), 0, NONE, 0, shownNotes());
    return;
  }
  let item = rowOf(first).item;
  if (first !== firstOf(item)) {
    takeRest(item);
    item++;
  }
  for (; item < itemCount && !isFull(0); item++) takeItem(item);
  if (!natural) pushScant();
}

/** The rows of a block that the page before began. */
function takeRest(item: i32): void {
  for (let row = pass(first); rowOf(row).item === item; row = rowOf(row).following) {
    take(row);
    weigh(row, NONE);
  }
}

function takeItem(item: i32): void {
  const stretches = elastic ? stretchesOf(item) : 0;
  for (let stretch = 0; stretch < stretches; stretch++) tryStretch(firstStretchOf(item) + stretch);
  const spare = mostShorter(item, stretches);
  const end = firstOf(item + 1);
  for (let row = pass(firstOf(item)); row < end; row++) {
    take(row);
    if (row === end - 1) addChanges(item, stretches);
    weigh(row, NONE);
    if (isFull(spare)) return;
  }
}

/** Ends inside a block at another length; the one after its last row comes with the block as a whole. */
function tryStretch(stretch: i32): void {
  const before = body;
  const mark = markNotes();
  const from = stretchOf(stretch).first;
  const end = from + stretchOf(stretch).rows - 1;
  for (let row = pass(from); row < end && !isFull(0); row++) {
    take(row);
    weigh(row, stretch);
  }
  body = before;
  backTo(mark);
}

/** Takes the rows from one on that are too far from the foot for a page to end after them; gives the next. */
function pass(from: i32): i32 {
  const room = lines - MOST_SHORT - longer - linesOfNotes();
  let row = from;
  let height = rowOf(row).quiet;
  while (height >= 0 && body + height < room) {
    body += height;
    row++;
    height = rowOf(row).quiet;
  }
  return row;
}

function take(at: i32): void {
  const row = rowOf(at);
  body += at === first && row.edge !== NO_EDGE ? row.edge : row.height;
  if (row.endNote !== row.firstNote) takeNotes(at);
}

/** Whether no row more can be on the page, so many lines more given. */
function isFull(spare: i32): bool {
  return body + leastLines() - shorter - spare > lines + extra;
}

/** Notes the ends of the page after a row. */
function weigh(row: i32, partial: i32): void {
  const penalty = penaltyOf(row);
  if (penalty === Infinity) return;
  const own = body + footOf(row);
  const ofNotes = linesOfNotes();
  const most = own + longer + ofNotes;
  if (most < lines - MOST_SHORT && !endsAfter(row)) return;
  for (let change = -shorter; change <= longer; change++) {
    const cost = costOfChange(change);
    if (cost === Infinity) continue;
    const used = own + change + ofNotes;
    if (used > lines + extra) continue;
    const other = partial === NONE ? 0 : stretchOf(partial).cost;
    keep(row, used, change, partial, penalty + cost + other, shownNotes());
  }
  if (own + ofNotes > lines && partial === NONE) weighRunningOn(row, own, penalty);
}

/** An end with a last note that runs on. */
function weighRunningOn(row: i32, own: i32, penalty: f64): void {
  const shown = shareOf(lines - own);
  if (shown >= 0) keep(row, own + noteLines(shown), 0, NONE, penalty, shown);
}

/** Height that a scene break takes more at the foot of a page than inside it. */
function footOf(at: i32): i32 {
  const row = rowOf(at);
  return row.edge !== NO_EDGE && at !== first && !endsAfter(at) ? row.edge - row.height : 0;
}

function keep(row: i32, used: i32, change: i32, partial: i32, cost: f64, shown: i32): void {
  const at = push(row, used, change, partial, cost, shown);
  const end = endOf(at);
  if (end.short <= MOST_SHORT || end.flags & LAST) {
    if (change === 0 && partial === NONE) natural = true;
    return;
  }
  endCount--;
  if (end.carried === 0 || end.used <= scantUsed) return;
  scantUsed = end.used;
  memory.copy(scant, changetype<usize>(end), offsetof<End>());
}

/** The end where there is no better: the fullest that leaves too much white, or one where none may be. */
function pushScant(): void {
  if (findScant()) return;
  if (scantUsed >= 0) {
    memory.copy(changetype<usize>(endOf(newEnd())), scant, offsetof<End>());
    return;
  }
  pushForced();
}

/** The fullest end that leaves too much white, if it is fuller than those known: looked for late, which few pages need. */
function findScant(): bool {
  let best = NONE;
  let bestUsed = -1;
  let bestMark: u64 = 0;
  body = 0;
  backTo(begun);
  for (let row = first; row !== count; row = rowOf(row).following) {
    take(row);
    if (body + leastLines() > lines) break;
    const used = body + footOf(row) + linesOfNotes();
    if (lines - used <= MOST_SHORT || used <= bestUsed || penaltyOf(row) === Infinity) continue;
    best = row;
    bestUsed = used;
    bestMark = markNotes();
  }
  if (best === NONE || bestUsed < scantUsed) return false;
  backTo(bestMark);
  push(best, bestUsed, 0, NONE, penaltyOf(best), shownNotes());
  return true;
}

/** The end taken where none is allowed: after the last row that fits, or after the first where none does. */
function pushForced(): void {
  body = 0;
  backTo(begun);
  let last = first;
  take(last);
  while (!endsAfter(last)) {
    const before = body;
    const mark = markNotes();
    const next = rowOf(last).following;
    take(next);
    if (body + footOf(next) + leastLines() > lines) {
      body = before;
      backTo(mark);
      break;
    }
    last = next;
  }
  const own = body + footOf(last);
  const shown = mostIn(lines - own);
  push(last, own + noteLines(shown), 0, NONE, price(FORCED), shown);
}

function newEnd(): i32 {
  const at = endCount++;
  if (at === endRoom) {
    endRoom = max(4096, endRoom * 2);
    ends = widened(ends, <usize>endRoom * offsetof<End>());
  }
  return at;
}

function push(row: i32, used: i32, change: i32, partial: i32, cost: f64, mayShow: i32): i32 {
  const at = newEnd();
  const shown = min(mayShow, notesSoFar());
  const carried = notesSoFar() - shown;
  const ended = first === count || endsAfter(row);
  const next = ended ? count : head(rowOf(row).following);
  const flags = rowOf(row).flags & HYPHENATED;
  const short = lines - used;
  const end = endOf(at);
  end.cost = cost + (carried > 0 ? price(NOTE_RUNS_ON) : 0);
  end.from = first;
  end.to = row;
  end.next = next;
  end.used = used;
  end.short = short;
  end.foot = shown > 0 ? min(0, short) : short;
  end.change = change;
  end.partial = partial;
  end.shown = shown;
  end.carried = carried;
  end.flags = flags | (ended && carried === 0 ? LAST : 0);
  return at;
}
