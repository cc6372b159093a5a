/**
 * Where words of plain letters may be divided: Liang's pattern matching (F. M. Liang, "Word Hy-phen-a-tion by Com-put-er",
 * STAN-CS-83-977, 1983) over the tables of a language's hyphenator. In: a word; out: places in it. Words with anything else
 * in them, and the exceptions, are left to the hyphenator itself.
 */

import { widened } from '../../../base/assembly/room';
import { placesAt } from './places';
import { lengthOf, letterOf } from './words';

/** A language's tables; see `HyphenationTables`. */
@unmanaged
export class Patterns {
  /** Fewest letters before and after a hyphen. */
  before: i32;
  after: i32;
  /** Number of a word's end. */
  end: i32;
  width: i32;
  branches: i32;
  exceptionCount: i32;
  /** Where the tables begin: for each unit its number, and 1 for a small letter, 2 for a capital, 0 for neither. */
  numbers: usize;
  cases: usize;
  next: usize;
  values: usize;
  levels: usize;
  exceptions: usize;
}

/** In place of a number of places: the hyphenator itself must be asked. */
export const ASK: i32 = -1;

const APOSTROPHE: i32 = 0x27;
const CURLY_APOSTROPHE: i32 = 0x2019;

/** Units below this have entries in the tables. */
const COMMON: i32 = 0x2100;

let numbers: usize = 0;
let found: usize = 0;
let room: i32 = 0;

/**
 * Makes room for a language's tables; gives where its record stands. The tables are to be written where the record says.
 */
export function addPatterns(
  before: i32,
  after: i32,
  end: i32,
  width: i32,
  branches: i32,
  nodes: i32,
  levels: i32,
  exceptions: i32,
): usize {
  const patterns = changetype<Patterns>(widened(0, offsetof<Patterns>()));
  patterns.before = before;
  patterns.after = after;
  patterns.end = end;
  patterns.width = width;
  patterns.branches = branches;
  patterns.exceptionCount = exceptions;
  patterns.numbers = widened(0, COMMON);
  patterns.cases = widened(0, COMMON);
  patterns.next = widened(0, (<usize>(branches * width)) << 2);
  patterns.values = widened(0, (<usize>nodes) << 2);
  patterns.levels = widened(0, levels);
  patterns.exceptions = widened(0, (<usize>max(1, exceptions)) << 2);
  return changetype<usize>(patterns);
}

/** Writes a word's places to `placesAt`; gives how many they are, or `ASK`. */
export function divideWord(patterns: Patterns, id: i32): i32 {
  return divideStretch(patterns, id, 0, lengthOf(id));
}

/** The same for a stretch of a word; places count from its start. */
export function divideStretch(patterns: Patterns, id: i32, start: i32, end: i32): i32 {
  if (end - start < patterns.before + patterns.after) return 0;
  // One run of letters, between marks that are none.
  let from = start;
  while (from < end && isMark(letterOf(id, from))) from++;
  let to = from;
  let small = false;
  let apostrophes = 0;
  for (; to < end; to++) {
    const unit = letterOf(id, to);
    const kind = caseOf(patterns, unit);
    if (kind === 0) {
      if (!isApostrophe(unit) || to === from || to + 1 === end) break;
      if (caseOf(patterns, letterOf(id, to - 1)) === 0 || caseOf(patterns, letterOf(id, to + 1)) === 0) break;
      apostrophes++;
    } else if (kind === 1) small = true;
  }
  for (let at = to; at < end; at++) if (!isMark(letterOf(id, at))) return ASK;
  // Words in capitals are not divided (FACTS T-11).
  if (!small) return 0;
  if (to - from < patterns.before + patterns.after) return 0;
  const hash = number(patterns, id, from, to);
  for (let i = 0; i < patterns.exceptionCount; i++) {
    if (load<i32>(patterns.exceptions + ((<usize>i) << 2)) === hash) return ASK;
  }
  match(patterns, to - from + 2);
  const places = placesAt(to - from);
  let count = 0;
  for (let place = patterns.before; place <= to - from - patterns.after; place++) {
    if (apostrophes > 0 && !standsFree(patterns, place)) continue;
    if (!(load<u8>(found + place + 1) & 1)) continue;
    store<u16>(places + ((<usize>count) << 1), <u16>(from - start + place));
    count++;
  }
  return count;
}

/** Minimums count letters on the near side of an apostrophe only: `don’t` has three, not five. */
function standsFree(patterns: Patterns, place: i32): bool {
  const apostrophe = load<u8>(patterns.numbers + APOSTROPHE);
  for (let i = 1; i <= patterns.before; i++) if (load<u8>(numbers + 1 + place - i) === apostrophe) return false;
  for (let i = 0; i < patterns.after; i++) if (load<u8>(numbers + 1 + place + i) === apostrophe) return false;
  return true;
}

function isApostrophe(unit: i32): bool {
  return unit === APOSTROPHE || unit === CURLY_APOSTROPHE;
}

function caseOf(patterns: Patterns, unit: i32): i32 {
  return unit < COMMON ? load<u8>(patterns.cases + unit) : 0;
}

/** Writes the numbers of a stretch of letters between two word ends; gives their hash. */
function number(patterns: Patterns, id: i32, from: i32, to: i32): i32 {
  const length = to - from + 2;
  if (length > room) {
    room = max(128, length * 2);
    numbers = widened(numbers, room);
    found = widened(found, room + 1);
  }
  let hash = length;
  for (let i = 0; i < length; i++) {
    const end = i === 0 || i === length - 1;
    const value: i32 = end ? patterns.end : numberOf(patterns, letterOf(id, from + i - 1));
    store<u8>(numbers + i, <u8>value);
    hash = hash * 31 + value;
  }
  return hash;
}

function numberOf(patterns: Patterns, unit: i32): i32 {
  return load<u8>(patterns.numbers + (unit === CURLY_APOSTROPHE ? APOSTROPHE : unit));
}

/** Raises each place's level to the highest that any pattern gives it. */
function match(patterns: Patterns, length: i32): void {
  memory.fill(found, 0, length + 1);
  const branches = patterns.branches;
  const width = patterns.width;
  for (let start = 0; start < length; start++) {
    // The levels of a pattern that begins with a word's end leave that end out.
    const base = found + (start === 0 ? 1 : start);
    let node = 0;
    for (let i = start; i < length && node < branches; i++) {
      const step = node * width + <i32>load<u8>(numbers + i);
      node = load<i32>(patterns.next + ((<usize>step) << 2));
      if (node === 0) break;
      const value = load<i32>(patterns.values + ((<usize>node) << 2));
      if (value < 0) continue;
      const count: i32 = load<u8>(patterns.levels + value);
      for (let k = 0; k < count; k++) {
        const level = load<u8>(patterns.levels + value + 1 + k);
        if (level > load<u8>(base + k)) store<u8>(base + k, level);
      }
    }
  }
}

/** Quotation marks, stops and the like that may stand at a word's ends; no letter, digit, hyphen or dash. */
function isMark(unit: i32): bool {
  if (unit >= 0x2018 && unit <= 0x201f) return true;
  if (unit >= 0x80) return unit === 0x2026 || unit === 0xab || unit === 0xbb;
  if (unit === 0x2d || (unit >= 0x30 && unit <= 0x39)) return false;
  const small = unit | 0x20;
  return small < 0x61 || small > 0x7a;
}
