/**
 * The passes over a paragraph, each more tolerant than the one before: without hyphens, with hyphens, at any price. In:
 * the paragraph's breaks; out: the solution of the first pass that has one.
 */
import type { BreakSettings } from '../settings.ts';
import type { BreakList } from './breakList.ts';
import { isShortEnd } from './line.ts';
import type { LineWidths } from './place.ts';
import type { BreakSearch, Solution } from './search.ts';

export interface Ladder {
  readonly search: BreakSearch;
  readonly settings: BreakSettings;
}

/** The best breaks of all. */
export function bestBreaks({ search, settings }: Ladder, list: BreakList, place: LineWidths): Solution {
  const { firstTolerance, secondTolerance, tripleHyphenDemerits } = settings;
  const attempt = (tolerance: number, divide: boolean, rescue: boolean) =>
    search.run(list, place, { tolerance, divide, rescue, everyLength: false })[0];
  const whole = attempt(firstTolerance, false, false);
  if (whole && !isShortEnd(list, place, whole.breaks.at(-2) ?? 0)) return whole;
  const divided = attempt(secondTolerance, true, false);
  if (whole && (!divided || whole.demerits <= divided.demerits)) return whole;
  // Three hyphens running are worse than a loose line.
  if (divided && divided.demerits < tripleHyphenDemerits) return divided;
  const forced = attempt(Infinity, true, true);
  if (!forced) throw new RangeError(`no breaks in a paragraph of ${list.count} places`);
  return forced;
}

/** The best breaks of each number of lines that fits within the second tolerance, by rising number. */
export function breaksByLength({ search, settings }: Ladder, list: BreakList, place: LineWidths): readonly Solution[] {
  return search.run(list, place, {
    tolerance: settings.secondTolerance,
    divide: true,
    rescue: false,
    everyLength: true,
  });
}
