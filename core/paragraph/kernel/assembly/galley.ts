/**
 * From copy to breaks. In: a paragraph's pieces and what is allowed (hyphens, hanging marks, tearing); out: the list of
 * breaks that the search weighs, each with where it stands in the copy.
 */
import { COMPOUND, DASH, DIVISION, HYPHENED, KIND, LAST, TORN } from './cutKinds';
import { Cut, cutOf, cutsIn } from './cuts';
import { fountOf, KERNS_SPACES, LONG_WORDS, NAMES } from './founts';
import {
  box,
  breakOf,
  change,
  DIVIDED,
  endList,
  FILL,
  forcedBreak,
  glue,
  HYPHEN,
  hang,
  mark,
  name,
  penalty,
  SHORT_END,
  stand,
  startList,
  TEAR,
  tie,
} from './lists';
import { isLetter } from './marks';
import { findTornCuts, lettersFrom, spaceKerning, touchesLetters } from './outside';
import {
  endingAt,
  isSpaceAt,
  kindAt,
  LINE_BREAK,
  MARK,
  NO_END,
  pieceCount,
  valueAt,
  WORD,
  wordAtPiece,
} from './reader';
import { CAPITAL, HYPHEN_END, RARE, SENTENCE_END } from './traits';
import { lengthOf, letterOf, NONE, wordOf } from './words';

/**
 * A lone last word of fewer letters is too short (fewer than 4 to 5: common practice), and so is what a divided word
 * brings to the last line (at least 4: The Chicago Manual of Style 2.116).
 */
const LONE_WORD: i32 = 5;
/** Price of tearing a word: more than any other break's, less than a line that runs over. */
const TEAR_COST: f64 = 1e12;

/** What may happen to words at lines' ends: nothing but what the text itself offers, division, or tearing as well. */
const DIVIDED_WORDS: i32 = 1;
const TORN_WORDS: i32 = 2;

// Elasticity of spaces and prices of breaks: see `BreakSettings`.
let spaceStretch: f64 = 0;
let spaceShrink: f64 = 0;
let hyphenPenalty: f64 = 0;
let longWordPenalty: f64 = 0;
let properNamePenalty: f64 = 0;
let explicitHyphenPenalty: f64 = 0;
let compoundPenalty: f64 = 0;
let dashPenalty: f64 = 0;
let otherPenalty: f64 = 0;

let hangs: bool = false;
let divides: bool = false;
let tears: bool = false;
let opensWithDash: bool = false;
let last: i32 = 0;

export function price(
  stretch: f64,
  shrink: f64,
  hyphen: f64,
  longWord: f64,
  properName: f64,
  explicitHyphen: f64,
  compound: f64,
  dash: f64,
  other: f64,
): void {
  spaceStretch = stretch;
  spaceShrink = shrink;
  hyphenPenalty = hyphen;
  longWordPenalty = longWord;
  properNamePenalty = properName;
  explicitHyphenPenalty = explicitHyphen;
  compoundPenalty = compound;
  dashPenalty = dash;
  otherPenalty = other;
}

/** Builds the list of the copy at hand. */
export function build(hangsOut: bool, words: i32, startsWithDash: bool): void {
  hangs = hangsOut;
  divides = words >= DIVIDED_WORDS;
  tears = words === TORN_WORDS;
  opensWithDash = startsWithDash;
  startList();
  if (hangs) hangStart(0, 0);
  const pieces = pieceCount();
  for (let index = 0; index < pieces; index++) piece(index);
  end(pieces);
  markShortEnds();
  endList();
}

function piece(index: i32): void {
  const ending = endingAt(index);
  const kind = kindAt(index);
  if (kind === WORD) {
    if (ending !== NO_END) joint(index, ending);
    word(valueAt(index), index);
  } else if (kind === MARK) box(wordOf(valueAt(index)).width);
  else if (kind === LINE_BREAK) end(index);
  else space(index, ending);
}

function space(index: i32, ending: i32): void {
  const fount = fountOf(valueAt(index));
  let width = fount.spaceWidth;
  if (fount.flags & KERNS_SPACES) width += spaceKerning(index);
  if (index === 1 && opensWithDash) {
    tie(width, 0, 0);
    return;
  }
  const stretch = width * spaceStretch;
  const shrink = width * spaceShrink;
  if (ending === NO_END) {
    if (tears) note(penalty(TEAR_COST, TEAR), index, 0);
    tie(width, stretch, shrink);
    return;
  }
  const at = glue(width, stretch, shrink);
  if (at < 0) return;
  note(at, index, 0);
  const before = wordAtPiece(index - 1);
  const after = wordAtPiece(index + 1);
  if (before !== NONE && wordOf(before).traits & HYPHEN_END) mark(at, HYPHEN);
  name(at, before === NONE ? 0 : wordOf(before).name, after === NONE ? 0 : wordOf(after).name);
  changeEnds(at, before, after);
}

/** A break where the style changes in the middle of things. */
function joint(index: i32, ending: i32): void {
  const at = penalty(costOf(ending), ending === HYPHENED ? HYPHEN : 0);
  note(at, index, 0);
  changeEnds(at, wordAtPiece(index - 1), wordAtPiece(index));
}

function word(id: i32, index: i32): void {
  const first = cutsOfWord(id, index);
  const width = wordOf(id).width;
  if (first === NONE) {
    box(width);
    return;
  }
  const cost = divides ? divisionCost(id, index) : 0;
  let done: f64 = 0;
  for (let at = first; ; at++) {
    const cut = cutOf(at);
    const kind = cut.kind;
    box(cut.width - done);
    done = cut.width;
    note(
      penalty((kind & (KIND | COMPOUND)) === DIVISION ? cost : cutCost(kind), flagsOf(kind & KIND)),
      index,
      cut.place,
    );
    changeAtCut(last, cut);
    if (kind & LAST) break;
  }
  box(width - done);
}

function changeAtCut(at: i32, cut: Cut): void {
  change(at, cut.end, cut.start);
  if (hangs && (cut.hangEnd !== 0 || cut.hangStart !== 0)) hang(at, cut.hangEnd, cut.hangStart);
}

function cutsOfWord(id: i32, index: i32): i32 {
  if (!divides) return cutsIn(id, false);
  // A word that goes on in another style: its parts by themselves are no words to divide.
  const beside = (index > 0 && kindAt(index - 1) === WORD) || (index + 1 < pieceCount() && kindAt(index + 1) === WORD);
  const divided = !beside || !touchesLetters(index);
  return tears ? findTornCuts(id, divided) : cutsIn(id, divided);
}

/** Price of dividing a word that is no compound. */
function divisionCost(id: i32, index: i32): f64 {
  const flags = fountOf(wordOf(id).kind >> 1).flags;
  if (wordOf(id).traits & CAPITAL && flags & NAMES && !startsSentence(index)) return properNamePenalty;
  return flags & LONG_WORDS ? longWordPenalty : hyphenPenalty;
}

/** Price of any other cut. */
function cutCost(kind: i32): f64 {
  if ((kind & KIND) === TORN) return TEAR_COST;
  return (kind & KIND) === DIVISION ? compoundPenalty : costOf(kind & KIND);
}

function startsSentence(index: i32): bool {
  const before = wordAtPiece(index - 2);
  return before === NONE || (wordOf(before).traits & SENTENCE_END) !== 0;
}

function costOf(ending: i32): f64 {
  if (ending === HYPHENED) return explicitHyphenPenalty;
  return ending === DASH ? dashPenalty : otherPenalty;
}

/** What the marks and letters around a break that stands between pieces change in its lines. */
function changeEnds(at: i32, before: i32, after: i32): void {
  const tracking = before === NONE ? 0 : fountOf(wordOf(before).kind >> 1).tracking;
  if (tracking !== 0) change(at, -tracking, 0);
  if (!hangs) return;
  const end = before === NONE ? 0 : wordOf(before).hangEnd;
  const start = after === NONE ? 0 : wordOf(after).hangStart;
  if (end !== 0 || start !== 0) hang(at, end, start);
}

function hangStart(at: i32, index: i32): void {
  const id = wordAtPiece(index);
  if (id !== NONE) hang(at, 0, wordOf(id).hangStart);
}

/** The paragraph's end, or a forced break. */
function end(index: i32): void {
  tie(0, FILL, 0);
  const at = forcedBreak();
  note(at, index, 0);
  changeEnds(at, wordAtPiece(index - 1), wordAtPiece(index));
  if (hangs) hangStart(at, index + 1);
}

function note(at: i32, index: i32, place: i32): void {
  stand(at, index, place);
  last = at;
}

/** Marks the breaks that would leave too little for the last line. */
function markShortEnds(): void {
  for (let at = last - 1; at > 0; at--) {
    const index = breakOf(at).piece;
    const letters = lettersAfter(index, breakOf(at).cut);
    if (letters < LONE_WORD) mark(at, SHORT_END);
    if (isSpaceAt(index) || letters >= LONE_WORD) return;
  }
}

/** Letters and figures from a place in the copy to its end, as far as it matters how many they are. */
function lettersAfter(index: i32, cut: i32): i32 {
  let letters = 0;
  const pieces = pieceCount();
  for (let each = index; each < pieces && letters < LONE_WORD; each++) {
    if (kindAt(each) !== WORD) continue;
    const id = valueAt(each);
    if (wordOf(id).traits & RARE) return lettersFrom(index, cut);
    const length = lengthOf(id);
    for (let at = each === index ? cut : 0; at < length; at++) {
      const unit = letterOf(id, at);
      if (isLetter(unit) || (unit >= 0x30 && unit <= 0x39)) letters++;
      else if (unit >= 0x80 && !(unit >= 0x2010 && unit < 0x2028)) return lettersFrom(index, cut);
    }
  }
  return letters;
}

function flagsOf(kind: i32): i32 {
  if (kind === TORN) return TEAR;
  if (kind === DIVISION) return HYPHEN | DIVIDED;
  return kind === HYPHENED ? HYPHEN : 0;
}
