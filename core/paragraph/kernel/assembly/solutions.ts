/**
 * What a search found, for whoever asks from outside: one record after the other, all in 64-bit floats: demerits, number of
 * lines, whether the last line is too short to stand alone (1 or 0), and then for each line what `write` says.
 */

import { widened } from '../../../base/assembly/room';
import { breakOf, count, SHORT_END } from './lists';
import { head, NONE, nodeOf } from './nodes';

/** Floats of a record before its lines, and of a line. */
const HEADER: usize = 3;
const LINE: usize = 7;

let room: usize = 0;
let records: usize = 0;
let used: usize = 0;

/** Where the records begin. */
export function solutionsAt(): usize {
  return records;
}

/** Writes the best solution of those that end in the list, of equals the shortest; gives their number, 1 or 0. */
export function writeBest(lastLineMin: f64): i32 {
  used = 0;
  let best = head;
  for (let id = head; id !== NONE; id = nodeOf(id).next) {
    const more = nodeOf(id).total - nodeOf(best).total;
    if (more < 0 || (more === 0 && nodeOf(id).line < nodeOf(best).line)) best = id;
  }
  if (best === NONE) return 0;
  write(best, lastLineMin);
  return 1;
}

/** Writes the best solution of each number of lines, by rising number; gives how many they are. */
export function writeBestOfEachLength(lastLineMin: f64): i32 {
  used = 0;
  let found = 0;
  let best = head;
  for (let id = head; id !== NONE; id = nodeOf(id).next) {
    // Nodes of one break stand by rising number of lines.
    if (nodeOf(id).line !== nodeOf(best).line) {
      write(best, lastLineMin);
      found++;
      best = id;
    } else if (nodeOf(id).total < nodeOf(best).total) best = id;
  }
  if (best === NONE) return 0;
  write(best, lastLineMin);
  return found + 1;
}

/** Whether a last line that starts after a break would be too short to stand alone. */
export function isShortEnd(start: i32, lastLineMin: f64): bool {
  if (start === 0) return false;
  const width = breakOf(count - 1).before - breakOf(start).after;
  return (breakOf(start).flags & SHORT_END) !== 0 || width < lastLineMin;
}

/** A line: its width with its stretch, its shrink and its boxes, then the piece, the cut and the flags of the break at its end. */
function write(end: i32, lastLineMin: f64): void {
  let lines = 0;
  for (let id = end; nodeOf(id).before !== NONE; id = nodeOf(id).before) lines++;
  const size = (HEADER + <usize>lines * LINE) << 3;
  if (used + size > room) {
    room = (used + size) * 2;
    records = widened(records, room);
  }
  const record = records + used;
  store<f64>(record, nodeOf(end).total);
  store<f64>(record, lines, 8);
  const before = nodeOf(end).before;
  store<f64>(record, before !== NONE && isShortEnd(nodeOf(before).point, lastLineMin) ? 1 : 0, 16);
  let at = record + size;
  for (let id = end; nodeOf(id).before !== NONE; id = nodeOf(id).before) {
    at -= LINE << 3;
    const place = breakOf(nodeOf(id).point);
    const start = nodeOf(nodeOf(id).before);
    store<f64>(at, place.before - start.after);
    store<f64>(at, place.stretchBefore - start.stretch, 8);
    store<f64>(at, place.shrinkBefore - start.shrink, 16);
    store<f64>(at, place.boxesBefore - start.boxes, 24);
    store<f64>(at, place.piece, 32);
    store<f64>(at, place.cut, 40);
    store<f64>(at, place.flags, 48);
  }
  used += size;
}
