/**
 * A paragraph's copy while it is read: its pieces in order, in columns (see `Copy`). In: the characters of its spans; out:
 * words and spaces, and where lines may end between them.
 */

import { widened } from '../../../base/assembly/room';
import { jointOf, mayBreak } from './outside';
import { unitOfText } from './text';
import { ENDS_PLAINLY, LONE_DASH, STARTS_PLAINLY } from './traits';
import { hashed, hashStart, NONE, wordAt, wordOf } from './words';

export const WORD: i32 = 0;
export const SPACE: i32 = 1;
export const HOLDING_SPACE: i32 = 2;
export const MARK: i32 = 3;
export const LINE_BREAK: i32 = 4;

export const NO_END: i32 = 0;
export const SPACE_END: i32 = 1;

const BLANK: i32 = 0x20;
const TAB: i32 = 0x09;
const NEW_LINE: i32 = 0x0a;
const NO_BREAK_SPACE: i32 = 0xa0;

/** Characters without a space after which a word is read as two: no language has one as long, but a spoilt file may. */
const LONGEST_WORD: i32 = 4096;

// A piece in one number: its kind, the code of its ending, and above these its word or the number of its fount.
const ENDING_SHIFT: i32 = 3;
const VALUE_SHIFT: i32 = 6;
const CODE: i32 = 7;

let room: i32 = 0;
let pieces: usize = 0;
let offsets: usize = 0;
let spans: usize = 0;
let count: i32 = 0;
/** The last word, which what follows may break from or cling to; `NONE` at the start of a line. */
let context: i32 = NONE;
/** Where the spaces before the text to come begin, -1 where it follows at once. */
let spacesFrom: i32 = -1;
let held: bool = false;

export function piecesAt(): usize {
  return pieces;
}

export function offsetsAt(): usize {
  return offsets;
}

export function spansAt(): usize {
  return spans;
}

export function pieceCount(): i32 {
  return count;
}

function pieceAt(piece: i32): i32 {
  return load<i32>(pieces + ((<usize>piece) << 2));
}

export function kindAt(piece: i32): i32 {
  return pieceAt(piece) & CODE;
}

export function endingAt(piece: i32): i32 {
  return (pieceAt(piece) >>> ENDING_SHIFT) & CODE;
}

export function valueAt(piece: i32): i32 {
  return pieceAt(piece) >>> VALUE_SHIFT;
}

/** The word at a place, also that of a note mark; `NONE` for anything else. */
export function wordAtPiece(piece: i32): i32 {
  if (piece < 0 || piece >= count) return NONE;
  const kind = kindAt(piece);
  return kind === WORD || kind === MARK ? valueAt(piece) : NONE;
}

export function isSpaceAt(piece: i32): bool {
  const kind = kindAt(piece);
  return kind === SPACE || kind === HOLDING_SPACE;
}

/** Makes room for so many pieces; gives where they are to be written. */
export function takePieces(wanted: i32): usize {
  roomForPieces(wanted);
  count = wanted;
  return pieces;
}

export function startCopy(): void {
  count = 0;
  reset(NONE);
}

/** Reads the first so many characters of the text. `offset` and `span` say where they stand in the paragraph. */
export function read(length: i32, offset: i32, kind: i32, span: i32): void {
  const start = hashStart(kind);
  let from = 0;
  let hash = start;
  for (let i = 0; i < length; i++) {
    const unit = unitOfText(i);
    if (unit !== BLANK && unit !== NO_BREAK_SPACE && unit !== TAB && unit !== NEW_LINE) {
      hash = hashed(hash, unit);
      if (i - from < LONGEST_WORD || (i + 1 < length && isLowSurrogate(unitOfText(i + 1)))) continue;
      readWord(wordAt(from, i + 1, hash, kind), offset + from, span);
      from = i + 1;
      hash = start;
      continue;
    }
    if (i > from) readWord(wordAt(from, i, hash, kind), offset + from, span);
    readSpace(unit === NO_BREAK_SPACE, offset + i, kind >> 1, span);
    from = i + 1;
    hash = start;
  }
  if (length > from) readWord(wordAt(from, length, hash, kind), offset + from, span);
}

/** A reference clings to what stands before it. */
export function readMark(word: i32, offset: i32, span: i32): void {
  push(MARK, word, offset, span, NO_END);
  reset(context);
}

export function readLineBreak(offset: i32, span: i32): void {
  dropTrailingSpaces();
  push(LINE_BREAK, 0, offset, span, NO_END);
  reset(NONE);
}

export function dropTrailingSpaces(): void {
  while (count > 0 && isSpaceAt(count - 1)) count--;
}

function readWord(word: i32, offset: i32, span: i32): void {
  push(WORD, word, offset, span, endingBefore(word));
  reset(word);
}

function reset(word: i32): void {
  context = word;
  spacesFrom = -1;
  held = false;
}

/** How a line could end before a word; where spaces stand between, the first of them takes the answer. */
function endingBefore(word: i32): i32 {
  if (held) return NO_END;
  if (spacesFrom < 0) return context === NONE ? NO_END : jointOf(context, word);
  if (context === NONE || mayBreakBefore(word)) breakAt(spacesFrom);
  return NO_END;
}

/** Lets a line end at a space. */
function breakAt(space: i32): void {
  store<i32>(pieces + ((<usize>space) << 2), pieceAt(space) | (SPACE_END << ENDING_SHIFT));
}

function mayBreakBefore(word: i32): bool {
  const after = wordOf(word).traits;
  if (after & LONE_DASH) return false;
  if (wordOf(context).traits & ENDS_PLAINLY && after & STARTS_PLAINLY) return true;
  return mayBreak(context, word);
}

function readSpace(holds: bool, offset: i32, fount: i32, span: i32): void {
  if (spacesFrom < 0) spacesFrom = count;
  if (holds) held = true;
  push(holds ? HOLDING_SPACE : SPACE, fount, offset, span, NO_END);
}

function push(kind: i32, value: i32, offset: i32, span: i32, ending: i32): void {
  roomForPieces(count + 1);
  const at = count++;
  store<i32>(pieces + ((<usize>at) << 2), kind | (ending << ENDING_SHIFT) | (value << VALUE_SHIFT));
  store<i32>(offsets + ((<usize>at) << 2), offset);
  store<i32>(spans + ((<usize>at) << 2), span);
}

function isLowSurrogate(unit: i32): bool {
  return unit >= 0xdc00 && unit < 0xe000;
}

function roomForPieces(wanted: i32): void {
  if (wanted <= room) return;
  room = max(wanted, max(1024, room * 2));
  pieces = widened(pieces, (<usize>room) << 2);
  offsets = widened(offsets, (<usize>room) << 2);
  spans = widened(spans, (<usize>room) << 2);
}
