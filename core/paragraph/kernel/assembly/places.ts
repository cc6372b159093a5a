/** Places in a word, as whoever divides it writes them. */
import { widened } from '../../../base/assembly/room';

let places: usize = 0;
let room: i32 = 0;

/** Where so many places of a word are to be written, 16 bits each. */
export function placesAt(wanted: i32): usize {
  if (wanted > room) {
    room = max(256, wanted * 2);
    places = widened(places, (<usize>room) << 1);
  }
  return places;
}

export function placeOf(index: i32): i32 {
  return load<u16>(places + ((<usize>index) << 1));
}
