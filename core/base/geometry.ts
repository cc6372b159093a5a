/** Sizes and rectangles in points, origin at the top left, y down. */
import type { Points } from './units.ts';

export interface Size {
  readonly width: Points;
  readonly height: Points;
}

export interface Rect extends Size {
  readonly x: Points;
  readonly y: Points;
}
