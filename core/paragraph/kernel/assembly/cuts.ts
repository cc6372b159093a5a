/**
 * Cutting words at lines' ends. In: a word; out: the places where it can be cut and what each part then measures, as
 * records one after the other; a list goes on to the cut that is marked as its last.
 */

import { widened } from '../../../base/assembly/room';
import { cutsOfCompound, foundKind, foundPlace } from './compounds';
import { DIVISION, KIND, LAST, SHORTEST } from './cutKinds';
import { fountOf, hangAtEnd, hangAtStart } from './founts';
import { ASK, divideWord, Patterns } from './hyphenate';
import { divide, findCuts, kerning, partWidth } from './outside';
import { placeOf } from './places';
import { advanceOf, clusterOf, isUnsafe } from './shapes';
import { RARE, WHOLE } from './traits';
import { lengthOf, letterOf, NONE, UNKNOWN, wordOf } from './words';

/** One cut; lengths in text sizes. */
@unmanaged
export class Cut {
  /** Of the word up to there, as part of the whole. */
  width: f64;
  /** What cutting adds to the first part, and to the rest. */
  end: f64;
  start: f64;
  /** How far what then stands at the end of the line before hangs out, and what starts the line after. */
  hangEnd: f64;
  hangStart: f64;
  /** Offset in the word's text. */
  place: i32;
  kind: i32;
}

const HYPHEN: i32 = 0x2d;

let cuts: usize = 0;
let count: i32 = 0;
let room: i32 = 0;
/** What `measure` found. */
const measured: usize = memory.data(24, 8);

export function cutOf(cut: i32): Cut {
  return changetype<Cut>(cuts + <usize>cut * offsetof<Cut>());
}

export function cutsAt(): usize {
  return cuts;
}

/** Adds a cut to the list that is being made; gives it. */
export function addCut(place: i32, kind: i32, width: f64, end: f64, start: f64, hangEnd: f64, hangStart: f64): i32 {
  if (count === room) {
    room = max(4096, room * 2);
    cuts = widened(cuts, <usize>room * offsetof<Cut>());
  }
  const cut = cutOf(count);
  cut.width = width;
  cut.end = end;
  cut.start = start;
  cut.hangEnd = hangEnd;
  cut.hangStart = hangStart;
  cut.place = place;
  cut.kind = kind;
  return count++;
}

/** Ends the list of the cuts added last. */
export function endCuts(): void {
  const cut = cutOf(count - 1);
  cut.kind = cut.kind | LAST;
}

/**
 * The first of a word's cuts, `NONE` for a word without: the places where the text itself lets a line end, and if wanted
 * those where a hyphen may be added. Worked out when first asked for.
 */
export function cutsIn(id: i32, divided: bool): i32 {
  const known = divided ? wordOf(id).divided : wordOf(id).whole;
  if (known !== UNKNOWN) return known;
  const found = findAny(id, divided);
  const word = wordOf(id);
  if (divided) word.divided = found;
  else word.whole = found;
  return found;
}

function findAny(id: i32, divided: bool): i32 {
  const traits = wordOf(id).traits;
  if (traits & RARE) return findCuts(id, divided);
  // Nearly all words: nothing but letters, and marks that hold at their ends.
  if (traits & WHOLE) return divided ? divisions(id) : NONE;
  const kind = wordOf(id).kind;
  if (kind & 1) return findCuts(id, divided);
  const count = cutsOfCompound(id, divided ? fountOf(kind >> 1).patterns : 0);
  if (count < 0) return findCuts(id, divided);
  return count === 0 ? NONE : keepCompound(id, count);
}

function keepCompound(id: i32, found: i32): i32 {
  const first = count;
  for (let i = 0; i < found; i++) keep(id, foundPlace(i), foundKind(i));
  endCuts();
  return first;
}

function keep(id: i32, place: i32, kind: i32): void {
  const divided = (kind & KIND) === DIVISION;
  measure(id, place, divided);
  const fount = wordOf(id).kind >> 1;
  const hangEnd = hangAtEnd(fount, divided ? HYPHEN : letterOf(id, place - 1));
  const hangStart = hangAtStart(fount, letterOf(id, place));
  addCut(place, kind, load<f64>(measured), load<f64>(measured, 8), load<f64>(measured, 16), hangEnd, hangStart);
}

function divisions(id: i32): i32 {
  const kind = wordOf(id).kind;
  const patterns = fountOf(kind >> 1).patterns;
  if (patterns === 0 || lengthOf(id) < SHORTEST || kind & 1) return NONE;
  let found = divideWord(changetype<Patterns>(patterns), id);
  if (found === ASK) found = divide(id);
  if (found === 0) return NONE;
  const first = count;
  for (let i = 0; i < found; i++) keep(id, placeOf(i), DIVISION);
  endCuts();
  return first;
}

/**
 * Measures a cut of a word that is not rare; gives where width, end and start stand (see `Cut`). Kerning across it is
 * undone by the pair's own value, and a cut inside a ligature is measured by shaping both parts; what else the neighbours
 * might change shows only when the line is placed, which shapes the parts.
 */
export function measure(id: i32, at: i32, divided: bool): usize {
  const number = wordOf(id).kind >> 1;
  const width = widthUpTo(id, at);
  let start: f64 = 0;
  let end: f64 = 0;
  const glyph = glyphAt(id, at);
  if (glyph === NONE) {
    end = partWidth(id, 0, at, divided) - width;
    const rest = partWidth(id, at, lengthOf(id), false);
    start = rest + fountOf(number).tracking - (wordOf(id).width - width);
  } else {
    const left = letterOf(id, at - 1);
    end = isUnsafe(glyph) ? -kerning(number, left, letterOf(id, at)) : 0;
    if (divided) end += fountOf(number).hyphenWidth + kerning(number, left, HYPHEN);
    end -= fountOf(number).tracking;
  }
  store<f64>(measured, width);
  store<f64>(measured, end, 8);
  store<f64>(measured, start, 16);
  return measured;
}

/** The glyph whose cluster begins at a place, `NONE` inside a cluster. */
function glyphAt(id: i32, at: i32): i32 {
  const end = wordOf(id).endGlyph;
  for (let glyph = wordOf(id).firstGlyph; glyph < end; glyph++) if (clusterOf(glyph) === at) return glyph;
  return NONE;
}

/** Natural width of the first characters of a word that is not rare, as part of the whole word. */
export function widthUpTo(id: i32, at: i32): f64 {
  const end = wordOf(id).endGlyph;
  let width: i32 = 0;
  for (let glyph = wordOf(id).firstGlyph; glyph < end; glyph++) if (clusterOf(glyph) < at) width += advanceOf(glyph);
  return <f64>width * fountOf(wordOf(id).kind >> 1).scale;
}
