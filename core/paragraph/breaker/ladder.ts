/**
 * The passes over a paragraph, each more tolerant than the one before: without hyphens, with hyphens, at any price. In:
 * the paragraph's breaks; out: the solution of the first pass that has one.
 */
import type { BreakSettings } from '../settings.ts';
import type { BreakList } from './breakList.ts';
import { demeritsAt } from './demerits.ts';
import { isShortEnd } from './line.ts';

import type { LineWidths } from './place.ts';
import type { BreakSearch, Search, Solution } from './search.ts';

export interface Ladder {
  readonly search: BreakSearch;
  readonly settings: BreakSettings;
}

/** Something that has a list of breaks. */
interface Listed {
  readonly list: BreakList;
}

/** A paragraph's breaks without those that divide words, and with them; the latter are asked for where they are needed. */
export interface Lists<Of extends Listed> {
  readonly whole: Of;
  readonly divided: () => Of;
}

/** The breaks chosen, and the list that they are numbered by. */
export interface Chosen<Of extends Listed> {
  readonly of: Of;
  readonly solution: Solution;
}

/** The best breaks of all: most paragraphs need no divided word, and no list of the places for one. */
export function bestBreaks<Of extends Listed>(ladder: Ladder, lists: Lists<Of>, place: LineWidths): Chosen<Of> {
  return place.ragged > 0 ? raggedBreaks(ladder, lists, place) : justifiedBreaks(ladder, lists, place);
}

/** The best breaks however loose; where nothing fits, the line that runs over least. */
export function breaksAtAnyPrice(ladder: Ladder, list: BreakList, place: LineWidths): Solution {
  const solution = attempt(ladder, list, place, { tolerance: Infinity, divide: true, rescue: true });
  if (!solution) throw new RangeError(`no breaks in a paragraph of ${list.count} places`);
  return solution;
}

const DIVIDED_WORDS = { divide: true, rescue: false } as const;

/**
 * Ratio up to which the search with divided words goes at first: where it finds breaks of fewer demerits than one line
 * beyond it has, these are the best of all. In a novel 24 of 25 paragraphs are done so, with half of the lines weighed.
 */
const NEAR = 1.5;

function justifiedBreaks<Of extends Listed>(ladder: Ladder, lists: Lists<Of>, place: LineWidths): Chosen<Of> {
  const { firstTolerance, secondTolerance, tripleHyphenDemerits } = ladder.settings;
  const { list } = lists.whole;
  const whole = attempt(ladder, list, place, { tolerance: firstTolerance, divide: false, rescue: false });
  if (whole && !endsShort(list, place, whole)) return { of: lists.whole, solution: whole };
  const of = lists.divided();
  const divided =
    attempt(ladder, of.list, place, { ...DIVIDED_WORDS, tolerance: NEAR, most: demeritsAt(NEAR, ladder.settings) }) ??
    attempt(ladder, of.list, place, { ...DIVIDED_WORDS, tolerance: secondTolerance });
  if (whole && (!divided || whole.demerits <= divided.demerits)) return { of: lists.whole, solution: whole };
  // Three hyphens running are worse than a loose line.
  if (divided && divided.demerits < tripleHyphenDemerits) return { of, solution: divided };
  return { of, solution: breaksAtAnyPrice(ladder, of.list, place) };
}

/** Words of ragged text stay whole wherever that is possible. */
function raggedBreaks<Of extends Listed>(ladder: Ladder, lists: Lists<Of>, place: LineWidths): Chosen<Of> {
  const { secondTolerance } = ladder.settings;
  const { list } = lists.whole;
  const whole =
    attempt(ladder, list, place, { tolerance: secondTolerance, divide: false, rescue: false }) ??
    attempt(ladder, list, place, { tolerance: Infinity, divide: false, rescue: false });
  if (whole) return { of: lists.whole, solution: whole };
  const of = lists.divided();
  return { of, solution: breaksAtAnyPrice(ladder, of.list, place) };
}

function endsShort(list: BreakList, place: LineWidths, { breaks }: Solution): boolean {
  return isShortEnd(list, place, breaks.at(-2) ?? 0);
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
 * The best breaks of each number of lines that fits within the second tolerance, by rising number; none of more demerits
 * than `most`, with three hyphens running or a last line too short to stand alone.
 */
export function breaksByLength(
  { search, settings }: Ladder,
  { list, place, most }: { readonly list: BreakList; readonly place: LineWidths; readonly most: number },
): readonly Solution[] {
  const divide = place.ragged === 0;
  const pass = { tolerance: settings.secondTolerance, divide, rescue: false, everyLength: true, most };
  return search
    .run(list, place, pass)
    .filter((solution) => solution.demerits < settings.tripleHyphenDemerits && !endsShort(list, place, solution));
}
