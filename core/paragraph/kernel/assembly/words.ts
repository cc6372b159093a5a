/**
 * The words of all founts, each once, in columns: a novel has tens of thousands of them. In: stretches of text without
 * spaces; out: ids, and by id what there is to know of a word.
 */
import { widened } from '../../../base/assembly/room';
import { textFrom, unitOfText } from './text';
import { traitsIn } from './traits';

/** No id, no list. */
export const NONE: i32 = -1;
/** In `whole` and `divided`: not yet asked for. */
export const UNKNOWN: i32 = -2;

/** A word. Its letters go on to where the next word's begin. */
@unmanaged
export class Word {
  /** In text sizes. */
  width: f64;
  /** How far its first and its last character hang out of a line that starts or ends with it. */
  hangStart: f64;
  hangEnd: f64;
  /** Equal for words that read the same, whatever marks stand around them; 0 for none. */
  name: i32;
  /** First of its cuts, without and with added hyphens. */
  whole: i32;
  divided: i32;
  firstGlyph: i32;
  first: i32;
  /** One past its last glyph: words are not always shaped in their order. */
  endGlyph: i32;
  /** Number of the fount, and in the lowest bit whether the word runs to the left. */
  kind: u16;
  traits: u16;
  padding: i32;
}

/** FNV-1a, 32 bits. */
const HASH_START: i32 = 0x811c9dc5;
const HASH_PRIME: i32 = 0x01000193;

export let count: i32 = 0;
let room: i32 = 0;
let words: usize = 0;
let letters: usize = 0;
let letterRoom: i32 = 0;

/** An entry of the hash table: a word, `NONE` where it is free, and what a look at it would tell. */
@unmanaged
class Slot {
  id: i32;
  hash: i32;
  first: i32;
  /** The length in the upper half. */
  kindAndLength: i32;
}

/** A hash table with linear probing. */
let slots: usize = 0;
let slotCount: i32 = 0;

export function wordOf(id: i32): Word {
  return changetype<Word>(words + <usize>id * offsetof<Word>());
}

export function wordsAt(): usize {
  return words;
}

export function wordCount(): i32 {
  return count;
}

export function lettersAt(): usize {
  return letters;
}

/** The word's UTF-16 unit. */
export function letterOf(id: i32, at: i32): i32 {
  return load<u16>(letters + ((<usize>(wordOf(id).first + at)) << 1));
}

export function lengthOf(id: i32): i32 {
  return wordOf(id + 1).first - wordOf(id).first;
}

/** What the hash of a word of a kind begins with. */
export function hashStart(kind: i32): i32 {
  return HASH_START ^ ((kind + 1) * HASH_PRIME);
}

export function hashed(hash: i32, unit: i32): i32 {
  return (hash ^ unit) * HASH_PRIME;
}

/** The word that is the whole text. */
export function wordOfText(length: i32, kind: i32): i32 {
  let hash = hashStart(kind);
  for (let i = 0; i < length; i++) hash = hashed(hash, unitOfText(i));
  return wordAt(0, length, hash, kind);
}

/** The word that a stretch of the text makes, whose characters have been hashed. A new one is not yet shaped. */
export function wordAt(from: i32, to: i32, charactersHash: i32, kind: i32): i32 {
  // The low bits choose the slot: let the high ones take part.
  const hash = charactersHash ^ (charactersHash >>> 15);
  if (slotCount === 0) widenTable();
  let slot = hash & (slotCount - 1);
  const kindAndLength = kind | ((to - from) << 16);
  for (let entry = slotOf(slot); entry.id !== NONE; entry = slotOf(slot)) {
    if (entry.hash === hash && entry.kindAndLength === kindAndLength && reads(entry.first, from, to)) return entry.id;
    slot = (slot + 1) & (slotCount - 1);
  }
  const id = addWord(from, to, kind);
  const entry = slotOf(slot);
  entry.id = id;
  entry.hash = hash;
  entry.first = wordOf(id).first;
  entry.kindAndLength = kindAndLength;
  if (count * 2 >= slotCount) widenTable();
  return id;
}

function slotOf(slot: i32): Slot {
  return changetype<Slot>(slots + ((<usize>slot) << 4));
}

/** Whether letters are those of a stretch of the text. */
function reads(first: i32, from: i32, to: i32): bool {
  let word = letters + ((<usize>first) << 1);
  let other = textFrom(from);
  const end = word + ((<usize>(to - from)) << 1);
  for (; word + 8 <= end; word += 8, other += 8) if (load<u64>(word) !== load<u64>(other)) return false;
  for (; word < end; word += 2, other += 2) if (load<u16>(word) !== load<u16>(other)) return false;
  return true;
}

function addWord(from: i32, to: i32, kind: i32): i32 {
  const id = count++;
  if (count >= room) widenWords();
  const first = id === 0 ? 0 : wordOf(id).first;
  const end = first + to - from;
  if (end > letterRoom) {
    letterRoom = max(end, max(letterRoom, 8192)) * 2;
    letters = widened(letters, (<usize>letterRoom) << 1);
  }
  memory.copy(letters + ((<usize>first) << 1), textFrom(from), (<usize>(to - from)) << 1);
  const name = nameOf(from, to);
  const traits = traitsIn(from, to);
  const word = wordOf(id);
  word.width = 0;
  word.hangStart = 0;
  word.hangEnd = 0;
  word.name = name;
  word.whole = UNKNOWN;
  word.divided = UNKNOWN;
  word.first = first;
  word.kind = <u16>kind;
  word.traits = <u16>traits;
  wordOf(id + 1).first = end;
  return id;
}

/**
 * A number for the letters of a stretch of the text (FNV-1a), whatever marks stand around them; 0 for none: equal for
 * equal words, and all but never for different ones; a mistake costs no more than a slightly worse line.
 */
export function nameOf(from: i32, to: i32): i32 {
  let hash = HASH_START;
  let found = 0;
  for (let i = from; i < to; i++) {
    let unit = unitOfText(i);
    if (unit >= 0x41 && unit <= 0x5a) unit += 0x20;
    if (unit < 0x30 || (unit > 0x39 && unit < 0x61) || (unit >= 0x2000 && unit < 0x2070)) continue;
    hash = hashed(hash, unit);
    found++;
  }
  return found === 0 ? 0 : hash | 1;
}

function widenWords(): void {
  room = max(2048, room * 2);
  words = widened(words, <usize>room * offsetof<Word>());
}

function widenTable(): void {
  const old = slots;
  const oldCount = slotCount;
  slotCount = max(4096, slotCount * 2);
  slots = widened(0, (<usize>slotCount) << 4);
  for (let slot = 0; slot < slotCount; slot++) slotOf(slot).id = NONE;
  const mask = slotCount - 1;
  for (let slot = 0; slot < oldCount; slot++) {
    const entry = changetype<Slot>(old + ((<usize>slot) << 4));
    if (entry.id === NONE) continue;
    let free = entry.hash & mask;
    while (slotOf(free).id !== NONE) free = (free + 1) & mask;
    memory.copy(changetype<usize>(slotOf(free)), changetype<usize>(entry), offsetof<Slot>());
  }
}
