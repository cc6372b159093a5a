/**
 * New words and their glyphs. In: words of one kind, and the glyphs that the font engine gave them; out: the glyphs in the
 * columns of all words, and the words that are more than letters and glyphs side by side.
 */

import { widened } from '../../../base/assembly/room';
import { fountOf, hangAtEnd, hangAtStart, hasUnit, JOINTS, PLAIN } from './founts';
import { hasJoints } from './outside';
import { RARE } from './traits';
import { count, lengthOf, letterOf, wordOf } from './words';

/** Longest text whose clusters a packed glyph holds. */
const LONGEST: i32 = 0x7fff;
const SOFT_HYPHEN: i32 = 0xad;

/** Two 32-bit numbers: the glyph with its cluster in the upper half, and its advance in font units (`PACKED` of the page room). */
const PACKED: usize = 8;

let glyphs: usize = 0;
/** Whether a text can't be cut before a glyph without being shaped anew. */
let unsafe: usize = 0;
let glyphRoom: i32 = 0;
let glyphCount: i32 = 0;

/** Bounds of the words to be shaped, in the letters; then the words that are rare. */
let bounds: usize = 0;
let boundRoom: i32 = 0;

/** What the font engine gave, in the order of `shapedAt`. */
let shaped: usize = 0;
let shapedRoom: i32 = 0;
let shapedWords: i32 = 0;
let shapedGlyphs: i32 = 0;

export function glyphsAt(): usize {
  return glyphs;
}

export function boundsAt(): usize {
  return bounds;
}

/** One past the last of the words of one kind that begin with a word. */
export function endOfKind(first: i32): i32 {
  const kind = wordOf(first).kind;
  let end = first + 1;
  while (end < count && wordOf(end).kind === kind) end++;
  return end;
}

/** Writes the bounds of the plain ones among words of one kind, and marks the others as rare; gives how many are plain. */
export function plainWords(first: i32, end: i32): i32 {
  const wanted = (end - first) * 2;
  if (wanted > boundRoom) {
    boundRoom = max(512, wanted * 2);
    bounds = widened(bounds, (<usize>boundRoom) << 2);
  }
  let plain = 0;
  for (let id = first; id < end; id++) {
    if (!isPlain(id)) {
      wordOf(id).traits |= <u16>RARE;
      continue;
    }
    const at = bounds + ((<usize>plain) << 3);
    store<i32>(at, wordOf(id).first);
    store<i32>(at, wordOf(id + 1).first, 4);
    plain++;
  }
  return plain;
}

/** Whether a word's glyphs are all in its fount's face and stand side by side as they come, as far as can be told. */
function isPlain(id: i32): bool {
  const number = wordOf(id).kind >> 1;
  const flags = fountOf(number).flags;
  const length = lengthOf(id);
  if (!(flags & PLAIN) || length > LONGEST) return false;
  for (let at = 0; at < length; at++) {
    const unit = letterOf(id, at);
    if (unit === SOFT_HYPHEN || (unit >= 0xd800 && unit < 0xe000) || !hasUnit(number, unit)) return false;
  }
  return !(flags & JOINTS) || !hasJoints(id);
}

/**
 * Where the columns of so many shaped words with so many glyphs are to be written, one after the other: starts, counts and
 * widths of the words and advances of the glyphs (32 bits each), ids and clusters of the glyphs (16), whether a word has
 * moved glyphs and whether a glyph is unsafe to cut before (8).
 */
export function shapedAt(words: i32, glyphCount: i32): usize {
  const wanted = words * 13 + glyphCount * 9;
  if (wanted > shapedRoom) {
    shapedRoom = wanted * 2;
    shaped = widened(shaped, shapedRoom);
  }
  shapedWords = words;
  shapedGlyphs = glyphCount;
  return shaped;
}

/** Keeps the glyphs that were written for the plain ones among words; gives how many are rare, whose ids stand in `boundsAt`. */
export function keepWords(first: i32, end: i32): i32 {
  roomForGlyphs(glyphCount + shapedGlyphs);
  const moved = shaped + <usize>(shapedWords * 12 + shapedGlyphs * 8);
  let word = 0;
  let rare = 0;
  for (let id = first; id < end; id++) {
    const plain = !(wordOf(id).traits & RARE);
    wordOf(id).firstGlyph = glyphCount;
    wordOf(id).endGlyph = glyphCount;
    if (plain && load<u8>(moved + word) === 0) keepGlyphs(id, word);
    else {
      store<i32>(bounds + ((<usize>rare) << 2), id);
      rare++;
    }
    if (plain) word++;
    if (!(wordOf(id).kind & 1)) keepHangs(id);
  }
  return rare;
}

function keepGlyphs(id: i32, word: i32): void {
  const starts = shaped + ((<usize>word) << 2);
  const from = load<i32>(starts);
  const found = load<i32>(starts + ((<usize>shapedWords) << 2));
  const width = load<i32>(starts + ((<usize>shapedWords) << 3));
  const advances = shaped + <usize>(shapedWords * 12);
  const ids = advances + <usize>(shapedGlyphs * 4);
  const clusters = advances + <usize>(shapedGlyphs * 6);
  const flags = shaped + <usize>(shapedWords * 13 + shapedGlyphs * 8);
  const first = glyphCount;
  for (let i = 0; i < found; i++) {
    const at = <usize>(from + i);
    const packed = glyphs + <usize>(first + i) * PACKED;
    store<i32>(packed, <i32>load<u16>(ids + (at << 1)) | ((<i32>load<u16>(clusters + (at << 1))) << 16));
    store<i32>(packed, load<i32>(advances + (at << 2)), 4);
    store<u8>(unsafe + first + i, load<u8>(flags + at));
  }
  glyphCount = first + found;
  wordOf(id).endGlyph = glyphCount;
  wordOf(id).width = <f64>width * fountOf(wordOf(id).kind >> 1).scale;
}

/** For a rare word it is done anew from outside: its text may be another. */
function keepHangs(id: i32): void {
  const length = lengthOf(id);
  if (length === 0) return;
  const number = wordOf(id).kind >> 1;
  wordOf(id).hangStart = hangAtStart(number, letterOf(id, 0));
  wordOf(id).hangEnd = hangAtEnd(number, letterOf(id, length - 1));
}

function roomForGlyphs(wanted: i32): void {
  if (wanted <= glyphRoom) return;
  glyphRoom = max(wanted, max(16384, glyphRoom * 2));
  glyphs = widened(glyphs, <usize>glyphRoom * PACKED);
  unsafe = widened(unsafe, glyphRoom);
}

/** Cluster of a glyph. */
export function clusterOf(glyph: i32): i32 {
  return load<i32>(glyphs + <usize>glyph * PACKED) >>> 16;
}

/** Advance of a glyph in font units. */
export function advanceOf(glyph: i32): i32 {
  return load<i32>(glyphs + <usize>glyph * PACKED, 4);
}

export function isUnsafe(glyph: i32): bool {
  return load<u8>(unsafe + glyph) !== 0;
}
