/** Lengths as they are typed. In: characters; out: points, or null for what is no length of a page. */
import { inches, type Points } from '#base';

/** Least and greatest side in inches that is taken for a page's: what presses bind lies well inside. */
const SIDES = { least: 3, most: 17 };

/** A length typed in inches, with a point or a comma. */
export function pageLength(typed: string): Points | null {
  const text = typed.trim().replace(',', '.');
  const length = Number(text);
  return text !== '' && length >= SIDES.least && length <= SIDES.most ? inches(length) : null;
}
