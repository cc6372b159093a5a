/**
 * What a search found, for whoever asks from outside: one record after the other, each its demerits (64-bit float), its
 * number of lines (32-bit integer, padded to 64) and the break that ends each line (32-bit integers, padded to 64).
 */
import { head, NONE, nodeOf } from './nodes';
import { widened } from './room';

let room: usize = 0;
let records: usize = 0;
let used: usize = 0;

/** Where the records begin. */
export function solutionsAt(): usize {
  return records;
}

/** Writes the best solution of those that end in the list, of equals the shortest; gives their number, 1 or 0. */
export function writeBest(): i32 {
  used = 0;
  let best = head;
  for (let id = head; id !== NONE; id = nodeOf(id).next) {
    const more = nodeOf(id).total - nodeOf(best).total;
    if (more < 0 || (more === 0 && nodeOf(id).line < nodeOf(best).line)) best = id;
  }
  if (best === NONE) return 0;
  write(best);
  return 1;
}

/** Writes the best solution of each number of lines, by rising number; gives how many they are. */
export function writeBestOfEachLength(): i32 {
  used = 0;
  let found = 0;
  let best = head;
  for (let id = head; id !== NONE; id = nodeOf(id).next) {
    // Nodes of one break stand by rising number of lines.
    if (nodeOf(id).line !== nodeOf(best).line) {
      write(best);
      found++;
      best = id;
    } else if (nodeOf(id).total < nodeOf(best).total) best = id;
  }
  if (best === NONE) return 0;
  write(best);
  return found + 1;
}

function write(end: i32): void {
  let lines = 0;
  for (let id = end; nodeOf(id).before !== NONE; id = nodeOf(id).before) lines++;
  const size: usize = 16 + ((<usize>lines * 4 + 7) & ~(<usize>7));
  if (used + size > room) {
    room = (used + size) * 2;
    records = widened(records, room);
  }
  const record = records + used;
  store<f64>(record, nodeOf(end).total);
  store<i32>(record, lines, 8);
  let at = record + 16 + <usize>lines * 4;
  for (let id = end; nodeOf(id).before !== NONE; id = nodeOf(id).before) {
    at -= 4;
    store<i32>(at, nodeOf(id).point);
  }
  used += size;
}
