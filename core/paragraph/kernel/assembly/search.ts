/**
 * Total fit: the breaks of a paragraph with the least demerits in all (D. E. Knuth and M. F. Plass, "Breaking Paragraphs
 * into Lines", Software: Practice and Experience 11, 1981).
 *
 * Departures from the paper: a break may change the width of the lines before and after it; a node knows how many lines
 * running end in a hyphen before it; the first line has no neighbour above that it could differ from; boxes may give a
 * little (`scaling`); the last line may be too short.
 */

import { widened } from '../../../base/assembly/room';
import { breakOf, count, DIVIDED, FILL, FORCED, HYPHEN, slack } from './lists';
import { add, clear, drop, head, NONE, Node, nodeOf, unlink } from './nodes';
import { isShortEnd, writeBest, writeBestOfEachLength } from './solutions';

/** Demerits of a line that runs over: more than all the fitting lines of a paragraph can have. */
const OVERFULL: f64 = 1e30;
/** Ratios beyond this are all the same. */
const WORST_RATIO: f64 = 1e3;
/** Fitness (tight, decent, loose, very loose) times hyphens running (at most one, two or more). */
const CLASSES: i32 = 8;
/** Those with at most one hyphen running. */
const FREE: i32 = 0x55;
/** More lines than any paragraph has. */
const ENDLESS: i32 = 0x3fffffff;

// What the breaking is tuned by: see `BreakSettings`.
let linePenalty: f64 = 0;
let shrinkBadness: f64 = 0;
let doubleHyphenDemerits: f64 = 0;
let tripleHyphenDemerits: f64 = 0;
let finalHyphenDemerits: f64 = 0;
let fitnessDemerits: f64 = 0;
let repeatDemerits: f64 = 0;
let shortLastLineDemerits: f64 = 0;

export function tune(
  line: f64,
  shrink: f64,
  doubleHyphen: f64,
  tripleHyphen: f64,
  finalHyphen: f64,
  fitness: f64,
  repeat: f64,
  shortLastLine: f64,
): void {
  linePenalty = line;
  shrinkBadness = shrink;
  doubleHyphenDemerits = doubleHyphen;
  tripleHyphenDemerits = tripleHyphen;
  finalHyphenDemerits = finalHyphen;
  fitnessDemerits = fitness;
  repeatDemerits = repeat;
  shortLastLineDemerits = shortLastLine;
}

// The place: see `LineWidths`.
let widths: usize = 0;
let widthRoom: i32 = 0;
let lastWidth: i32 = 0;
/** The narrowest of all lines, and of all but the first. */
let narrowest: f64 = 0;
let narrowestRest: f64 = 0;
let scaling: f64 = 0;
let ragged: f64 = 0;
let lastLineMin: f64 = 0;

/** Where so many widths of lines are to be written. */
export function widthsAt(count: i32): usize {
  if (count > widthRoom) {
    widthRoom = count * 2;
    widths = widened(widths, (<usize>widthRoom) << 3);
  }
  lastWidth = count - 1;
  return widths;
}

/** Takes up the widths that were written, and how lines fill them. */
export function setPlace(give: f64, stretch: f64, shortest: f64): void {
  scaling = give;
  ragged = stretch;
  lastLineMin = shortest;
  narrowestRest = widthOf(lastWidth);
  for (let line = 1; line < lastWidth; line++) narrowestRest = min(narrowestRest, widthOf(line));
  narrowest = min(widthOf(0), narrowestRest);
}

/** The narrowest of the lines that begin at a node, or at one after it in the text. */
function narrowestFrom(node: Node): f64 {
  return node.point === 0 ? narrowest : narrowestRest;
}

function widthOf(line: i32): f64 {
  return load<f64>(widths + ((<usize>min(line, lastWidth)) << 3));
}

// The search.
let last: i32 = 0;
let tolerance: f64 = 0;
let most: f64 = Infinity;
let rescues: bool = false;
let countedLines: i32 = 0;

/** The best ways to the break at hand, by line and class. */
@unmanaged
class Way {
  total: f64;
  from: i32;
}

let ways: usize = 0;
let wayRoom: i32 = 0;
/** For each line a byte that says to which classes there are ways. */
let foundWays: usize = 0;
let lowestLine: i32 = 0;
let highestLine: i32 = 0;
/** What the break at hand costs, and whether it shows a hyphen. */
let cost: f64 = 0;
let hyphenated: bool = false;
let rescuer: i32 = NONE;
let rescueExcess: f64 = 0;

function wayOf(slot: i32): Way {
  return changetype<Way>(ways + ((<usize>slot) << 4));
}

function roomForWays(wanted: i32): void {
  if (wanted <= wayRoom) return;
  const known = wayRoom;
  wayRoom = max(wanted, wayRoom * 2);
  ways = widened(ways, (<usize>wayRoom) << 4);
  for (let slot = known; slot < wayRoom; slot++) wayOf(slot).total = Infinity;
  foundWays = widened(foundWays, wayRoom);
  memory.fill(foundWays + known, 0, wayRoom - known);
}

/** In place of a number of solutions: the list does not end with a forced break. */
const ENDLESS_LIST: i32 = -1;

/**
 * The best solutions of the list, written as `solutions.ts` says; gives how many there are, or `ENDLESS_LIST`. For the rest see `Search`;
 * `greatest` is the tolerance that `most` leaves.
 */
export function search(greatest: f64, greatestDemerits: f64, divide: bool, rescue: bool, everyLength: bool): i32 {
  last = count - 1;
  if (!(breakOf(last).flags & FORCED)) return ENDLESS_LIST;
  tolerance = greatest;
  most = greatestDemerits;
  rescues = rescue;
  countedLines = everyLength ? ENDLESS : lastWidth;
  roomForWays((lastWidth + 2) * CLASSES);
  clear();
  reach(add(breakOf(0), 0, 0, 1), 0, NONE, 0);
  if (!weighAll(divide ? 0 : DIVIDED)) return 0;
  return everyLength ? writeBestOfEachLength(lastLineMin) : writeBest(lastLineMin);
}

/** False where no line fits any more. */
function weighAll(barred: i32): bool {
  // What a stretch counts for, and the least that a break must reach: most breaks are passed over by these alone.
  const loose = ragged > 0 ? 0 : tolerance;
  let least = leastReach();
  for (let at = 1; at < last; at++) {
    const place = breakOf(at);
    if (place.flags & barred) continue;
    const reach = place.before + loose * (place.stretchBefore + scaling * place.boxesBefore);
    if (reach < least && !(place.flags & FORCED)) continue;
    tryBreak(at);
    if (head === NONE) return false;
    least = leastReach();
  }
  tryBreak(last);
  return true;
}

/** How far a break must reach, with all the stretch before it, for the line from the oldest node not to be too short. */
function leastReach(): f64 {
  const oldest = nodeOf(head);
  const start = narrowestFrom(oldest) + oldest.after - slack;
  if (ragged > 0) return start - tolerance * ragged;
  return start + tolerance * (oldest.stretch + scaling * oldest.boxes);
}

/** Looks at all lines that could end at a break, and makes a node of the best of each class. */
function tryBreak(at: i32): void {
  lowestLine = ENDLESS;
  highestLine = -1;
  rescuer = NONE;
  rescueExcess = Infinity;
  cost = breakOf(at).cost;
  hyphenated = (breakOf(at).flags & HYPHEN) !== 0;
  weighLines(at);
  if (breakOf(at).flags & FORCED) drop();
  if (highestLine >= 0) keepBest(at);
  else if (head === NONE && rescues && rescuer !== NONE) addRescue(at);
}

function weighLines(at: i32): void {
  const place = breakOf(at);
  const before = place.before;
  const stretchBefore = place.stretchBefore;
  const shrinkBefore = place.shrinkBefore;
  const boxesBefore = place.boxesBefore;
  let previous = NONE;
  let id = head;
  while (id !== NONE) {
    const node = nodeOf(id);
    const next = node.next;
    const width = before - node.after;
    const room = widthOf(node.line) - width;
    const give = scaling === 0 ? 0 : scaling * (boxesBefore - node.boxes);
    if (room >= 0) {
      let elastic = stretchBefore - node.stretch + give;
      if (ragged > 0 && elastic < FILL / 2) elastic = ragged;
      if (room > tolerance * elastic) {
        // Nodes stand in the order of the text: the lines from later ones are shorter still.
        if (narrowestFrom(node) - width - slack > tolerance * elastic) return;
      } else consider(at, id, room === 0 ? 0 : min(WORST_RATIO, room / elastic));
    } else {
      const elastic = ragged > 0 ? 0 : shrinkBefore - node.shrink + give;
      if (-room <= elastic) consider(at, id, room / elastic);
      else if (runsOver(id, -room - elastic)) {
        unlink(id, previous);
        id = next;
        continue;
      }
    }
    previous = id;
    id = next;
  }
}

/** Notes the line that runs over least; true where the line from a node will only run over farther from now on. */
function runsOver(id: i32, excess: f64): bool {
  if (excess < rescueExcess) {
    rescuer = id;
    rescueExcess = excess;
  }
  return excess > slack;
}

/** The paper's classes: 0 tight, 1 decent, 2 loose, 3 very loose. */
function fitness(ratio: f64): i32 {
  if (ratio < -0.5) return 0;
  if (ratio <= 0.5) return 1;
  return ratio <= 1 ? 2 : 3;
}

function badnessOf(ratio: f64): f64 {
  const cube = 100 * ratio * ratio * ratio;
  return cube < 0 ? -cube * shrinkBadness : cube;
}

function consider(at: i32, id: i32, ratio: f64): void {
  const node = nodeOf(id);
  const kind = fitness(ratio);
  const ordinal = min(node.line + 1, countedLines);
  const stacked = hyphenated && node.hyphens > 0 ? 1 : 0;
  const slot = ordinal * CLASSES + kind * 2 + stacked;
  if (slot >= wayRoom) roomForWays(slot + CLASSES);
  const way = wayOf(slot);
  const bad = linePenalty + badnessOf(ratio);
  const plain = node.total + (cost >= 0 ? (bad + cost) * (bad + cost) : bad * bad - cost * cost);
  // What comes on top is never less than nothing.
  if (plain > most || plain >= way.total) return;
  const total = plain + surcharge(at, node, kind);
  if (total > most || !(total < way.total)) return;
  way.total = total;
  way.from = id;
  const found = foundWays + ordinal;
  store<u8>(found, load<u8>(found) | ((<u8>1) << (<u8>(slot & (CLASSES - 1)))));
  if (ordinal < lowestLine) lowestLine = ordinal;
  if (ordinal > highestLine) highestLine = ordinal;
}

/** Demerits that a line has for what stands above it, and for what ends or begins it. */
function surcharge(at: i32, node: Node, kind: i32): f64 {
  const start = node.point;
  let demerits: f64 = 0;
  if (hyphenated && node.hyphens > 0) {
    demerits += doubleHyphenDemerits + (node.hyphens > 1 ? tripleHyphenDemerits : 0);
  }
  if (start === 0) return demerits;
  if (abs(kind - node.kind) > 1) demerits += fitnessDemerits;
  const ends = breakOf(at);
  const begins = breakOf(start);
  if (ends.endName === begins.endName && ends.endName !== 0) demerits += repeatDemerits;
  if (ends.startName === begins.startName && ends.startName !== 0) demerits += repeatDemerits;
  if (at === last) demerits += endDemerits(node);
  return demerits;
}

/** What the last line's look and the end of the line above it cost. */
function endDemerits(node: Node): f64 {
  return (
    (node.hyphens > 0 ? finalHyphenDemerits : 0) + (isShortEnd(node.point, lastLineMin) ? shortLastLineDemerits : 0)
  );
}

/** Makes nodes of the best ways found. A class so much worse than another that it can't win any more is left out. */
function keepBest(at: i32): void {
  const place = breakOf(at);
  for (let line = lowestLine; line <= highestLine; line++) {
    const base = line * CLASSES;
    const found = takeFound(line);
    const free = leastOf(base, found & FREE) + fitnessDemerits;
    const stacked = min(free, leastOf(base, found & ~FREE) + fitnessDemerits);
    for (let rest = found; rest !== 0; rest &= rest - 1) {
      const slot = base + ctz(rest);
      const way = wayOf(slot);
      const total = way.total;
      way.total = Infinity;
      if (total > (slot & 1 ? stacked : free)) continue;
      reach(add(place, at, line, (slot - base) >> 1), total, way.from, hyphenated ? 1 + (slot & 1) : 0);
    }
  }
}

/** The classes of a line to which ways were found, a bit for each; they are forgotten. */
function takeFound(line: i32): i32 {
  const found = <i32>load<u8>(foundWays + line);
  store<u8>(foundWays + line, 0);
  return found;
}

function reach(node: Node, total: f64, from: i32, hyphens: i32): void {
  node.total = total;
  node.before = from;
  node.hyphens = hyphens;
}

/** The least of some classes of a line. */
function leastOf(base: i32, classes: i32): f64 {
  let least = Infinity;
  for (let rest = classes; rest !== 0; rest &= rest - 1) least = min(least, wayOf(base + ctz(rest)).total);
  return least;
}

/** No line fits: lets the one run over that does so least. */
function addRescue(at: i32): void {
  const from = nodeOf(rescuer);
  const line = min(from.line + 1, countedLines);
  const total = from.total + OVERFULL;
  reach(add(breakOf(at), at, line, 0), total, rescuer, hyphenated ? 1 : 0);
}
