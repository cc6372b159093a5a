/**
 * Traits of words that are letters of the English alphabet between common marks, as nearly all are in most languages: the
 * outcome of the rules in `text/traits.ts`, which answer for all others.
 */
import { isClosing, isLetter, isOpening, isQuote, isStop } from './marks';
import { traitsOf } from './outside';
import { unitOfText } from './text';

// Codes: see `text/traits.ts`.
export const WHOLE: i32 = 1;
export const CAPITAL: i32 = 2;
export const SENTENCE_END: i32 = 4;
export const ENDS_PLAINLY: i32 = 8;
export const STARTS_PLAINLY: i32 = 16;
export const LONE_DASH: i32 = 32;
export const RARE: i32 = 64;
export const HYPHEN_END: i32 = 128;

/** Longest form of address with its full stop. */
const LONGEST_FORM: i32 = 7;
/** Their first letters, counted from C. */
const FORMS: i32 = 0b1_1010_0100_0010_1011;
const APOSTROPHE: i32 = 0x2019;
const FULL_STOP: i32 = 0x2e;

export function traitsIn(start: i32, end: i32): i32 {
  let from = start;
  if (isOpening(unitOfText(from))) from++;
  let to = end;
  while (to > from && isClosing(unitOfText(to - 1))) to--;
  if (to <= from || clings(from, end)) return traitsOf(start, end);
  for (let at = from; at < to; at++) {
    const unit = unitOfText(at);
    if (!isLetter(unit) && (unit !== APOSTROPHE || at === from)) return traitsOf(start, end);
  }
  let traits = WHOLE | ENDS_PLAINLY | STARTS_PLAINLY;
  if (unitOfText(from) <= 0x5a) traits |= CAPITAL;
  let last = end - 1;
  while (isQuote(unitOfText(last))) last--;
  if (isStop(unitOfText(last))) traits |= SENTENCE_END;
  return traits;
}

/** Whether a form of address may begin with a letter. */
function opensForm(unit: i32): bool {
  // M, D, S, P, R, H, C and F
  return unit >= 0x43 && unit <= 0x53 && ((1 << (unit - 0x43)) & FORMS) !== 0;
}

/** Whether a name might have to stay with the word: a letter and a full stop, or a form of address. */
function clings(from: i32, end: i32): bool {
  const length = end - from;
  if (length > LONGEST_FORM) return false;
  const first = unitOfText(from);
  return (length === 2 && unitOfText(from + 1) === FULL_STOP) || opensForm(first);
}
