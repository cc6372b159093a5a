/**
 * Lists of breaks that are kept: they know nothing of the measure, so that a paragraph which is set to another one needs no
 * new list. In: the list at hand; out: its number, by which it is taken up again. When their room is full all are forgotten
 * at once, and those that are still wanted come back one by one.
 */

import { widened } from '../../../base/assembly/room';
import { Break, breaksAt, count, slack, takeUp } from './lists';

/** Bytes of a chunk of their room; a list that is longer, of some 6000 words, is not kept. */
const CHUNK: usize = 1 << 20;
/** Chunks: as many as a book of 300,000 words fills. */
const MOST: i32 = 64;
/** In place of a list's number. */
const TOO_LONG: i32 = -1;

@unmanaged
class Kept {
  slack: f64;
  at: usize;
  count: i32;
}

/** The lists that are not forgotten, by their numbers less the first. */
let lists: usize = 0;
let room: i32 = 0;
let first: i32 = 0;
let next: i32 = 0;

const chunks: usize = memory.data(MOST * 4, 4);
let chunkCount: i32 = 0;
/** The chunk that is being filled, and how far. */
let chunk: i32 = -1;
let used: usize = CHUNK;

function keptOf(number: i32): Kept {
  return changetype<Kept>(lists + <usize>(number - first) * offsetof<Kept>());
}

/** Keeps the list at hand; gives its number, or `TOO_LONG`. */
export function keepList(): i32 {
  const size = <usize>count * offsetof<Break>();
  if (size > CHUNK) return TOO_LONG;
  if (used + size > CHUNK) openChunk();
  if (next - first === room) {
    room = max(1024, room * 2);
    lists = widened(lists, <usize>room * offsetof<Kept>());
  }
  const at = <usize>load<u32>(chunks + ((<usize>chunk) << 2)) + used;
  memory.copy(at, breaksAt(), size);
  used += size;
  const number = next++;
  const kept = keptOf(number);
  kept.at = at;
  kept.count = count;
  kept.slack = slack;
  return number;
}

export function hasList(number: i32): bool {
  return number >= first;
}

/** Takes up a list by its number; false where there is none. */
export function takeList(number: i32): bool {
  if (!hasList(number)) return false;
  const kept = keptOf(number);
  takeUp(kept.at, kept.count, kept.slack);
  return true;
}

function openChunk(): void {
  chunk++;
  if (chunk === MOST) {
    chunk = 0;
    first = next;
  }
  if (chunk === chunkCount) {
    store<u32>(chunks + ((<usize>chunk) << 2), <u32>widened(0, CHUNK));
    chunkCount++;
  }
  used = 0;
}
