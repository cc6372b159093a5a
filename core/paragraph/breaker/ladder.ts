/**
 * The passes over a paragraph, each more tolerant than the one before: without hyphens, with hyphens, at any price. In:
 * the paragraph's breaks; out: the solution of the first pass that has one.
 */
import type { BreakSettings } from '../settings.ts';
import type { BreakList } from './breakList.ts';
import { isShortEnd } from './line.ts';
import type { LineWidths } from './place.ts';
import type { BreakSearch, Search, Solution } from './search.ts';

export interface Ladder {
  readonly search: BreakSearch;
  readonly settings: BreakSettings;
}

/**
 * The best breaks without a divided word, where those are good enough: most paragraphs need no other. The list may leave
 * out the places at which words can be divided.
 */
export function wholeBreaks(ladder: Ladder, list: BreakList, place: LineWidths): Solution | undefined {
  const { firstTolerance, secondTolerance } = ladder.settings;
  const tolerance = place.ragged > 0 ? secondTolerance : firstTolerance;
  const whole = attempt(ladder, list, place, { tolerance, divide: false, rescue: false });
  if (!whole || place.ragged > 0) return whole;
  return isShortEnd(list, place, whole.breaks.at(-2) ?? 0) ? undefined : whole;
}

/** The best breaks of all. */
export function bestBreaks(ladder: Ladder, list: BreakList, place: LineWidths): Solution {
  const found = place.ragged > 0 ? raggedBreaks(ladder, list, place) : justifiedBreaks(ladder, list, place);
  return found ?? breaksAtAnyPrice(ladder, list, place);
}

/** The best breaks however loose; where nothing fits, the line that runs over least. */
export function breaksAtAnyPrice(ladder: Ladder, list: BreakList, place: LineWidths): Solution {
  const solution = attempt(ladder, list, place, { tolerance: Infinity, divide: true, rescue: true });
  if (!solution) throw new RangeError(`no breaks in a paragraph of ${list.count} places`);
  return solution;
}

function justifiedBreaks(ladder: Ladder, list: BreakList, place: LineWidths): Solution | undefined {
  const { firstTolerance, secondTolerance, tripleHyphenDemerits } = ladder.settings;
  const whole = attempt(ladder, list, place, { tolerance: firstTolerance, divide: false, rescue: false });
  if (whole && !isShortEnd(list, place, whole.breaks.at(-2) ?? 0)) return whole;
  const divided = attempt(ladder, list, place, { tolerance: secondTolerance, divide: true, rescue: false });
  if (whole && (!divided || whole.demerits <= divided.demerits)) return whole;
  // Three hyphens running are worse than a loose line.
  return divided && divided.demerits < tripleHyphenDemerits ? divided : undefined;
}

/** Words of ragged text stay whole wherever that is possible. */
function raggedBreaks(ladder: Ladder, list: BreakList, place: LineWidths): Solution | undefined {
  const { secondTolerance } = ladder.settings;
  return (
    attempt(ladder, list, place, { tolerance: secondTolerance, divide: false, rescue: false }) ??
    attempt(ladder, list, place, { tolerance: Infinity, divide: false, rescue: false })
  );
}

function attempt(
  { search }: Ladder,
  list: BreakList,
  place: LineWidths,
  pass: Omit<Search, 'everyLength'>,
): Solution | undefined {
  return search.run(list, place, { ...pass, everyLength: false })[0];
}

/**
 * The best breaks of each number of lines that fits within the second tolerance, by rising number; none with three
 * hyphens running or a last line too short to stand alone.
 */
export function breaksByLength({ search, settings }: Ladder, list: BreakList, place: LineWidths): readonly Solution[] {
  const pass = { tolerance: settings.secondTolerance, divide: place.ragged === 0, rescue: false, everyLength: true };
  return search
    .run(list, place, pass)
    .filter(
      ({ breaks, demerits }) =>
        demerits < settings.tripleHyphenDemerits && !isShortEnd(list, place, breaks.at(-2) ?? 0),
    );
}
