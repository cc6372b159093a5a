/** The founts, as far as the loops need to know them: what each is comes from outside, once. */

import { widened } from '../../../base/assembly/room';
import { has } from './outside';

/** Words of it may be letters and glyphs side by side. */
export const PLAIN: i32 = 1;
/** Its language has places that no ligature reaches across. */
export const JOINTS: i32 = 2;
/** Its face kerns with the space. */
export const KERNS_SPACES: i32 = 4;
/** A capital inside a sentence tells a name. */
export const NAMES: i32 = 8;
/** Its language has long words. */
export const LONG_WORDS: i32 = 16;

/** Lengths are shares of the text size. */
@unmanaged
export class Fount {
  /** Natural width of a space. */
  spaceWidth: f64;
  /** Text sizes to a font unit. */
  scale: f64;
  /** Space after each letter. */
  tracking: f64;
  /** Width of a hyphen. */
  hyphenWidth: f64;
  flags: i32;
  /** How its words are divided (`hyphenate.ts`), 0 for not at all. */
  patterns: usize;
}

/** Units below this are common. */
const COMMON: i32 = 0x2100;
/** Marks that may hang, numbered from 1; 0 for what stands inside. */
const MARKS: i32 = 64;
/** A fount's record: itself, how far each mark hangs out at a line's start and at its end, and which units it has. */
const HANGS: i32 = <i32>offsetof<Fount>();
const UNITS: i32 = HANGS + MARKS * 16;
const SIZE: i32 = UNITS + COMMON;

const HAS: u8 = 1;
const LACKS: u8 = 2;

let founts: usize = 0;
let count: i32 = 0;
let room: i32 = 0;
let marks: usize = 0;

/** Where the number of each unit's mark is to be written, a byte each. */
export function marksAt(): usize {
  if (marks === 0) {
    marks = widened(0, COMMON);
    memory.fill(marks, 0, COMMON);
  }
  return marks;
}

/** A new fount; gives where its hanging marks are to be written, two numbers each: at a line's start, at its end. */
export function addFount(
  spaceWidth: f64,
  scale: f64,
  tracking: f64,
  hyphenWidth: f64,
  flags: i32,
  patterns: usize,
): usize {
  if (count === room) {
    room = room === 0 ? 8 : room * 2;
    founts = widened(founts, <usize>(room * SIZE));
  }
  const fount = fountOf(count++);
  fount.spaceWidth = spaceWidth;
  fount.scale = scale;
  fount.tracking = tracking;
  fount.hyphenWidth = hyphenWidth;
  fount.flags = flags;
  fount.patterns = patterns;
  memory.fill(changetype<usize>(fount) + HANGS, 0, SIZE - HANGS);
  return changetype<usize>(fount) + HANGS;
}

export function fountOf(number: i32): Fount {
  return changetype<Fount>(founts + <usize>(number * SIZE));
}

/** How far a line that starts with a unit hangs out. */
export function hangAtStart(number: i32, unit: i32): f64 {
  return hangOf(number, unit, 0);
}

/** How far a line that ends with a unit hangs out. */
export function hangAtEnd(number: i32, unit: i32): f64 {
  return hangOf(number, unit, 8);
}

function hangOf(number: i32, unit: i32, side: i32): f64 {
  if (unit >= COMMON) return 0;
  const mark: i32 = load<u8>(marks + unit);
  return mark === 0 ? 0 : load<f64>(founts + <usize>(number * SIZE + HANGS + mark * 16 + side));
}

/** Whether a fount's face has a unit that is no surrogate. */
export function hasUnit(number: i32, unit: i32): bool {
  if (unit >= COMMON) return has(number, unit);
  const place = <usize>(number * SIZE + UNITS + unit);
  const known = load<u8>(founts + place);
  if (known !== 0) return known === HAS;
  const found = has(number, unit);
  store<u8>(founts + place, found ? HAS : LACKS);
  return found;
}
