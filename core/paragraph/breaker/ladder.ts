/**
 * The passes over a paragraph, each more tolerant than the one before: without hyphens, with hyphens, at any price. In:
 * a paragraph and the widths of its lines; out: the solution of the first pass that has one.
 */
import type { BreakSettings } from '../settings.ts';
import { demeritsAt } from './demerits.ts';
import type { LineWidths } from './place.ts';
import type { BreakableWords, BreakSearch, Search, Solution } from './search.ts';

export interface Ladder {
  readonly search: BreakSearch;
  readonly settings: BreakSettings;
}

/** A paragraph to be broken. */
export interface Breakable {
  /** Opens it in the search: without the breaks that divide words, with them, or with those that tear them. */
  open(words: BreakableWords): void;
  readonly place: LineWidths;
  /** One of so many words that it will hardly do without divided ones: it does not pay to list the others apart. */
  readonly isLong: boolean;
}

/** The best breaks of all: most paragraphs need no divided word, and no list of the places for one. */
export function bestBreaks(ladder: Ladder, of: Breakable): Solution {
  return of.place.ragged > 0 ? raggedBreaks(ladder, of) : justifiedBreaks(ladder, of);
}

/** The best breaks however loose; where nothing fits, the line that runs over least. */
export function breaksAtAnyPrice(ladder: Ladder, { place }: Breakable): Solution {
  const solution = attempt(ladder, place, { tolerance: Infinity, divide: true, rescue: true });
  if (!solution) throw new RangeError('no breaks in a paragraph');
  return solution;
}

/**
 * Ratio up to which the search with divided words goes at first: where it finds breaks of fewer demerits than one line
 * beyond it has, these are the best of all. In a novel 24 of 25 paragraphs are done so, with half of the lines weighed.
 */
const NEAR = 1.5;

function justifiedBreaks(ladder: Ladder, of: Breakable): Solution {
  const { firstTolerance, secondTolerance, tripleHyphenDemerits } = ladder.settings;
  const { place } = of;
  of.open(of.isLong ? 'divided' : 'whole');
  const whole = attempt(ladder, place, { tolerance: firstTolerance, divide: false, rescue: false });
  if (whole && !whole.endsShort) return whole;
  of.open('divided');
  const divided =
    attempt(ladder, place, { tolerance: NEAR, divide: true, rescue: false, most: demeritsAt(NEAR, ladder.settings) }) ??
    attempt(ladder, place, { tolerance: secondTolerance, divide: true, rescue: false });
  if (whole && (!divided || whole.demerits <= divided.demerits)) return whole;
  // Three hyphens running are worse than a loose line.
  if (divided && divided.demerits < tripleHyphenDemerits) return divided;
  return breaksAtAnyPrice(ladder, of);
}

/** Words of ragged text stay whole wherever that is possible. */
function raggedBreaks(ladder: Ladder, of: Breakable): Solution {
  const { secondTolerance } = ladder.settings;
  of.open(of.isLong ? 'divided' : 'whole');
  const whole =
    attempt(ladder, of.place, { tolerance: secondTolerance, divide: false, rescue: false }) ??
    attempt(ladder, of.place, { tolerance: Infinity, divide: false, rescue: false });
  if (whole) return whole;
  of.open('divided');
  return breaksAtAnyPrice(ladder, of);
}

function attempt({ search }: Ladder, place: LineWidths, pass: Search): Solution | undefined {
  return search.run(place, pass)[0];
}

/**
 * The best breaks of each number of lines that is wanted and fits within the second tolerance, by rising number; none of
 * more demerits than `most`, with three hyphens running or a last line too short to stand alone.
 */
export function breaksByLength(
  { search, settings }: Ladder,
  of: Breakable,
  { most, wanted }: { readonly most: number; readonly wanted: (lines: number) => boolean },
): readonly Solution[] {
  of.open('divided');
  const { place } = of;
  const divide = place.ragged === 0;
  const pass = { tolerance: settings.secondTolerance, divide, rescue: false, everyLength: true, most };
  const { tripleHyphenDemerits } = settings;
  return search
    .run(place, pass, (lines, demerits) => wanted(lines) && demerits < tripleHyphenDemerits)
    .filter((solution) => !solution.endsShort);
}
