/**
 * The passes over a paragraph, each more tolerant than the one before: without hyphens, with hyphens, at any price. In:
 * the paragraph's lists of breaks; out: the solution of the first pass that has one.
 */
import type { BreakSettings } from '../settings.ts';
import type { BreakList } from './breakList.ts';
import type { BreakSearch, LineWidths, Solution } from './search.ts';

export interface Candidates {
  /** The breaks of the text as it stands. */
  readonly plain: BreakList;
  /** Those and the places where words may be divided; null where none may. Asked for only when needed. */
  readonly divided: () => BreakList | null;
}

export interface Found {
  readonly list: BreakList;
  readonly solution: Solution;
}

/** The best breaks of all. */
export function bestBreaks(
  search: BreakSearch,
  settings: BreakSettings,
  candidates: Candidates,
  place: LineWidths,
): Found {
  const attempt = (list: BreakList, tolerance: number, rescue: boolean): Found | null => {
    const [solution] = search.run(list, place, { tolerance, rescue, everyLength: false });
    return solution ? { list, solution } : null;
  };
  const first = attempt(candidates.plain, settings.firstTolerance, false);
  if (first) return first;
  const list = candidates.divided() ?? candidates.plain;
  let found = attempt(list, settings.secondTolerance, false);
  // Three hyphens running are worse than a loose line.
  if (!found || found.solution.demerits >= settings.tripleHyphenDemerits) found = attempt(list, Infinity, true);
  if (!found) throw new RangeError(`no breaks in a paragraph of ${list.count} places`);
  return found;
}

/** The best breaks of each number of lines that fits within the second tolerance, by rising number. */
export function breaksByLength(
  search: BreakSearch,
  settings: BreakSettings,
  candidates: Candidates,
  place: LineWidths,
): readonly Found[] {
  const list = candidates.divided() ?? candidates.plain;
  const tolerance = settings.secondTolerance;
  return search
    .run(list, place, { tolerance, rescue: false, everyLength: true })
    .map((solution) => ({ list, solution }));
}
