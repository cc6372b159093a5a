/** A single line as a paint: markers, figures of notes, folios of contents pages. */
import type { SingleLine } from '#paragraph';
import type { Paint } from '../flow.ts';

export function once(line: SingleLine): Paint {
  return { place: (_line, x, y, page) => line.place(x, y, page) };
}
