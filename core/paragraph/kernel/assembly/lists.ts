/**
 * A paragraph as the search sees it. In: boxes, glue and penalties in the order of the text (Knuth and Plass 1981); out:
 * its feasible breaks, each with the running sums of width, stretch and shrink before and after it, so that the measure of
 * any line is a subtraction. The sums after a break leave out the glue that vanishes at a line's start.
 */
import { widened } from '../../../base/assembly/room';

/** A break. Lengths in text sizes. */
@unmanaged
export class Break {
  before: f64;
  stretchBefore: f64;
  shrinkBefore: f64;
  boxesBefore: f64;
  after: f64;
  stretchAfter: f64;
  shrinkAfter: f64;
  boxesAfter: f64;
  cost: f64;
  /** The piece of the copy at which it stands, and the offset in that piece's word; see `Galley`. */
  piece: i32;
  cut: u16;
  flags: u16;
  /** Names of the words that end the line before it and start the one after; 0 for none. */
  endName: i32;
  startName: i32;
}

/** The line shows a hyphen at its end. */
export const HYPHEN: i32 = 1;
/** The line must end here. */
export const FORCED: i32 = 2;
/** What follows is too little to stand alone on a last line: a lone short word, the stub of a divided one. */
export const SHORT_END: i32 = 4;
/** No break opportunity of the text: only there to save a word wider than its measure. */
export const TEAR: i32 = 8;
/** The hyphen is added, not the text's own: left out where words are not to be divided. */
export const DIVIDED: i32 = 16;

/** Stretch that fills any line; `\hfil` in TeX's words. */
export const FILL: f64 = 1e7;

let room: i32 = 0;
/** Where lists are made, and where the one at hand lies. */
let made: usize = 0;
let breaks: usize = 0;
/** Number of breaks: the paragraph's start is 0, its end the last. */
export let count: i32 = 0;
/** Most that a break adds to the end of its line, and takes off the start of the next: what pruning must allow for. */
export let slack: f64 = 0;
/** First break whose sums after it are still open. */
let opened: i32 = 0;
let width: f64 = 0;
let stretch: f64 = 0;
let shrink: f64 = 0;
let boxes: f64 = 0;
let afterBox: bool = false;

/** A break of the list. It moves when one is added. */
export function breakOf(at: i32): Break {
  return changetype<Break>(breaks + <usize>at * offsetof<Break>());
}

/** Where the breaks begin, and how many they are. */
export function breaksAt(): usize {
  return breaks;
}

export function breakCount(): i32 {
  return count;
}

/** Takes up a list that lies elsewhere. */
export function takeUp(at: usize, breakCount: i32, widest: f64): void {
  breaks = at;
  count = breakCount;
  slack = widest;
}

/** Begins a list. */
export function startList(): void {
  breaks = made;
  count = opened = 0;
  width = stretch = shrink = boxes = slack = 0;
  afterBox = false;
  add(0, 0);
}

/** Ends it. The last item must be a forced break. */
export function endList(): void {
  close();
}

/** Something that has its width on whatever line it stands. */
export function box(wide: f64): void {
  if (opened < count) close();
  width += wide;
  boxes += wide;
  afterBox = true;
}

/** Elastic space; a break where a box stands before it. Gives the break, or -1. */
export function glue(wide: f64, more: f64, less: f64): i32 {
  const at = afterBox ? add(0, 0) : -1;
  tie(wide, more, less);
  afterBox = false;
  return at;
}

/** Elastic space at which no line may end. */
export function tie(wide: f64, more: f64, less: f64): void {
  width += wide;
  stretch += more;
  shrink += less;
}

/** A place where a line may end at a cost. Gives the break. */
export function penalty(cost: f64, flags: i32): i32 {
  afterBox = false;
  return add(cost, flags);
}

/** A place where the line must end. */
export function forcedBreak(): i32 {
  if (opened < count) close();
  return penalty(0, FORCED);
}

/**
 * What a break changes: `end` is added to the line before it (a hyphen, less the kerning that it cuts), `start` to the
 * line after it.
 */
export function change(at: i32, end: f64, start: f64): void {
  const place = breakOf(at);
  place.boxesBefore += end;
  place.boxesAfter -= start;
  hang(at, -end, -start);
}

/** How far the lines before and after a break hang out of their places. */
export function hang(at: i32, end: f64, start: f64): void {
  const place = breakOf(at);
  place.before -= end;
  place.after += start;
  slack = max(slack, abs(end) + abs(start));
}

export function mark(at: i32, flags: i32): void {
  const place = breakOf(at);
  place.flags = place.flags | <u16>flags;
}

/** Names the words on either side of a break. */
export function name(at: i32, end: i32, start: i32): void {
  const place = breakOf(at);
  place.endName = end;
  place.startName = start;
}

/** Says where in the copy a break stands. */
export function stand(at: i32, piece: i32, cut: i32): void {
  const place = breakOf(at);
  place.piece = piece;
  place.cut = <u16>cut;
}

function add(cost: f64, flags: i32): i32 {
  const at = count++;
  if (at === room) {
    room = max(512, room * 2);
    breaks = made = widened(made, <usize>room * offsetof<Break>());
  }
  const place = breakOf(at);
  place.before = width;
  place.stretchBefore = stretch;
  place.shrinkBefore = shrink;
  place.boxesBefore = boxes;
  place.after = 0;
  place.boxesAfter = 0;
  place.cost = cost;
  place.piece = 0;
  place.cut = 0;
  place.endName = 0;
  place.startName = 0;
  place.flags = <u16>flags;
  return at;
}

/** A box follows: here begin the lines after the breaks that are open. */
function close(): void {
  for (let at = opened; at < count; at++) {
    const place = breakOf(at);
    place.after += width;
    place.stretchAfter = stretch;
    place.shrinkAfter = shrink;
    place.boxesAfter += boxes;
  }
  opened = count;
}
