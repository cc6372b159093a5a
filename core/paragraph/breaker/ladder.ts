/**
 * The passes over a paragraph, each more tolerant than the one before: without hyphens, with hyphens, at any price. In:
 * a paragraph and the widths of its lines; out: the solution of the first pass that has one.
 */
import type { BreakSettings } from '../settings.ts';
import { demeritsAt } from './demerits.ts';
import type { LineWidths } from './place.ts';
import type { BreakableWords, BreakSearch, Search, Solution } from './search.ts';

export class Ladder {
  // The passes.
  readonly whole: Search;
  readonly near: Search;
  readonly divided: Search;
  /** Of ragged text, with words as they are. */
  readonly ragged: Search;
  readonly loose: Search = { tolerance: Infinity, divide: false, rescue: false };
  readonly anyPrice: Search = { tolerance: Infinity, divide: true, rescue: true };

  constructor(
    readonly search: BreakSearch,
    readonly settings: BreakSettings,
  ) {
    const { firstTolerance, secondTolerance } = settings;
    this.whole = { tolerance: firstTolerance, divide: false, rescue: false };
    this.near = { tolerance: NEAR, divide: true, rescue: false, most: demeritsAt(NEAR, settings) };
    this.divided = { tolerance: secondTolerance, divide: true, rescue: false };
    this.ragged = { tolerance: secondTolerance, divide: false, rescue: false };
  }
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
  const solution = ladder.search.best(place, ladder.anyPrice);
  if (!solution) throw new RangeError('no breaks in a paragraph');
  return solution;
}

/**
 * Ratio up to which the search with divided words goes at first: where it finds breaks of fewer demerits than one line
 * beyond it has, these are the best of all. In a novel 24 of 25 paragraphs are done so, with half of the lines weighed.
 */
const NEAR = 1.5;

function justifiedBreaks(ladder: Ladder, of: Breakable): Solution {
  const { search, settings } = ladder;
  const { place } = of;
  of.open(of.isLong ? 'divided' : 'whole');
  const whole = search.best(place, ladder.whole);
  if (whole && !whole.endsShort) return whole;
  of.open('divided');
  const divided = search.best(place, ladder.near) ?? search.best(place, ladder.divided);
  if (whole && (!divided || whole.demerits <= divided.demerits)) return whole;
  // Three hyphens running are worse than a loose line.
  if (divided && divided.demerits < settings.tripleHyphenDemerits) return divided;
  return breaksAtAnyPrice(ladder, of);
}

/** Words of ragged text stay whole wherever that is possible. */
function raggedBreaks(ladder: Ladder, of: Breakable): Solution {
  const { search } = ladder;
  of.open(of.isLong ? 'divided' : 'whole');
  const whole = search.best(of.place, ladder.ragged) ?? search.best(of.place, ladder.loose);
  if (whole) return whole;
  of.open('divided');
  return breaksAtAnyPrice(ladder, of);
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
  const pass = { tolerance: settings.secondTolerance, divide, rescue: false, most };
  const { tripleHyphenDemerits } = settings;
  return search
    .bestOfEachLength(place, pass, (lines, demerits) => wanted(lines) && demerits < tripleHyphenDemerits)
    .filter((solution) => !solution.endsShort);
}
