/** Characters that somebody outside has written: the text that is being read. */
import { widened } from '../../../base/assembly/room';

let text: usize = 0;
let room: i32 = 0;

/** Where a text of so many UTF-16 units is to be written. */
export function textAt(length: i32): usize {
  if (length > room) {
    room = max(length, 4096) * 2;
    text = widened(text, (<usize>room) << 1);
  }
  return text;
}

/** Where a character stands. */
export function textFrom(at: i32): usize {
  return text + ((<usize>at) << 1);
}

export function unitOfText(at: i32): i32 {
  return load<u16>(textFrom(at));
}
