/** Lengths as they are typed. In: characters; out: points, or null for what is no length of a page. */
import { inches, POINTS_PER_MILLIMETRE, type Points } from '#base';

/** Least and greatest side in inches that is taken for a page's: what presses bind lies well inside. */
const SIDES = { least: 3, most: 17 };

/** A length typed with a point or a comma: in inches, or in millimetres or centimetres where it says so. */
export function pageLength(typed: string): Points | null {
  const match = /^(\d+(?:[.,]\d+)?|[.,]\d+)\s*(in|"|mm|cm)?$/iu.exec(typed.trim());
  if (!match) return null;
  const number = Number((match[1] ?? '').replace(',', '.'));
  const length = number * UNITS[unitOf(match[2])];
  // A hair for sides that come to a bound in another unit.
  return length >= inches(SIDES.least) - 0.01 && length <= inches(SIDES.most) + 0.01 ? length : null;
}

const UNITS = { in: inches(1), mm: POINTS_PER_MILLIMETRE, cm: 10 * POINTS_PER_MILLIMETRE } as const;

function unitOf(typed = 'in'): keyof typeof UNITS {
  const unit = typed.toLowerCase();
  return unit === 'mm' || unit === 'cm' ? unit : 'in';
}
