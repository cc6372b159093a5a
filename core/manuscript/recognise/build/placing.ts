/**
 * Where a picture of the manuscript is to stand in the book. In: a line with nothing but pictures, and what comes after it;
 * out: a page of its own, a plate over the page's edges, or nothing: in the text.
 */
import type { Item, Line } from '../collect/lines.ts';

/** Points beyond the text of a manuscript's page (8.5 by 11 in less margins of 1 in) from which a picture fills the page. */
const WIDE = 468 + 72;
const HIGH = 648 + 72;

export type PicturePlace = 'page' | 'bleed';

/**
 * A picture that reached into the margins on all sides was meant to fill its page; one that stood alone between two page
 * breaks was meant to have one. A picture that is merely large is left in the text: pages are made up so that it fits.
 * @param after what comes after the picture and its caption; undefined at a section's end, where the next begins a page.
 */
export function placeOfPicture(line: Line, after: Item | undefined): PicturePlace | null {
  const [leaf, ...others] = line.rich.leaves;
  if (leaf?.kind !== 'image' || others.length > 0) return null;
  if ((leaf.width ?? 0) >= WIDE && (leaf.height ?? 0) >= HIGH) return 'bleed';
  return line.page && (after === undefined || after.page) ? 'page' : null;
}
