/**
 * Cuts of words that hyphens and dashes join (`sea-captain`, `she—who`), as long as their parts are letters of the English
 * alphabet: what the rules in `text/opportunities.ts` and the hyphenator make of them, which answer for all others.
 */
import { COMPOUND, DASH as DASHED, DIVISION, HYPHENED, SHORTEST } from './cutKinds';
import { divideStretch, Patterns } from './hyphenate';
import { isClosing, isLetter, isOpening } from './marks';
import { placeOf } from './places';
import { lengthOf, letterOf } from './words';

const HYPHEN: i32 = 0x2d;
const DASH: i32 = 0x2014;
/** Letters before and after a hyphen at which a line may end. */
const BEFORE_HYPHEN: i32 = 3;
const AFTER_HYPHEN: i32 = 2;

/** Where the cuts that were found stand, and their kinds; a list of so many at most. */
const MOST: i32 = 256;
const found: usize = memory.data(MOST * 4, 4);

export function foundPlace(index: i32): i32 {
  return load<u16>(found + ((<usize>index) << 2));
}

export function foundKind(index: i32): i32 {
  return load<u16>(found + ((<usize>index) << 2), 2);
}

/** Finds the cuts of a word, with divisions where patterns are given; gives how many, or -1 where the rules must be asked. */
export function cutsOfCompound(id: i32, patterns: usize): i32 {
  const length = lengthOf(id);
  let from = isOpening(letterOf(id, 0)) ? 1 : 0;
  let to = length;
  while (to > from && isClosing(letterOf(id, to - 1))) to--;
  const hyphened = isCompound(id, from, to);
  if (hyphened < 0) return -1;
  let count = 0;
  from = 0;
  for (let at = 1; at <= length; at++) {
    const unit = at < length ? letterOf(id, at) : 0;
    if (at < length && unit !== HYPHEN && unit !== DASH) continue;
    if (patterns !== 0 && at - from >= SHORTEST) {
      const divisions = divideStretch(changetype<Patterns>(patterns), id, from, at);
      if (divisions < 0) return -1;
      if (count + divisions >= MOST - 1) return -1;
      const kind = DIVISION | (hyphened ? COMPOUND : 0);
      for (let i = 0; i < divisions; i++) keep(count++, from + placeOf(i), kind);
    }
    if (at === length) break;
    const after = at + 1;
    if (unit === DASH) keep(count++, after, DASHED);
    else if (after >= BEFORE_HYPHEN && length - after >= AFTER_HYPHEN) keep(count++, after, HYPHENED);
    from = after;
  }
  return count;
}

/** Whether letters with single joints between them are all there is: 1 with hyphens among these, 0 without, -1 if not. */
function isCompound(id: i32, from: i32, to: i32): i32 {
  if (to <= from) return -1;
  let hyphened = 0;
  for (let at = from; at < to; at++) {
    const unit = letterOf(id, at);
    if (isLetter(unit)) continue;
    if (unit !== HYPHEN && unit !== DASH) return -1;
    if (at === from || at + 1 === to || !isLetter(letterOf(id, at - 1)) || !isLetter(letterOf(id, at + 1))) return -1;
    if (unit === HYPHEN) hyphened = 1;
  }
  return hyphened;
}

function keep(index: i32, place: i32, kind: i32): void {
  store<u16>(found + ((<usize>index) << 2), <u16>place);
  store<u16>(found + ((<usize>index) << 2), <u16>kind, 2);
}
