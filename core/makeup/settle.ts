/**
 * Repeats make-up until it rests: contents pages name folios, and the gutter depends on the page count, which both may
 * change (FACTS M-05). In: one pass as a function of what the last one found; out: the plan at rest, or the last one.
 */
import type { SectionId } from '#base';
import type { PlannedPage } from './arrange.ts';

/** What one pass hands to the next. */
export interface Known {
  readonly pages: number;
  /** The folio on which each section begins. */
  readonly folios: ReadonlyMap<SectionId, string>;
}

export interface Settled {
  readonly plan: readonly PlannedPage[];
  /** What the plan was made with. */
  readonly known: Known;
  readonly rests: boolean;
}

const MOST_PASSES = 6;
/** After so many passes the page count swings between two values. */
const PASSES_TO_SWING = 3;

/** Where every run begins: a guess from an earlier run might come to rest elsewhere. */
const NOTHING: Known = { pages: 0, folios: new Map() };

/** Runs passes until one finds what it was given. If page counts swing, the larger one, with its wider gutter, is kept. */
export function settle(pass: (known: Known) => readonly PlannedPage[]): Settled {
  let known = NOTHING;
  for (let count = 0; ; count++) {
    const plan = pass(known);
    const found = knownFrom(plan);
    const swings = count >= PASSES_TO_SWING;
    const rests = sameFolios(known, found) && (known.pages === found.pages || (swings && known.pages > found.pages));
    if (rests || count === MOST_PASSES) return { plan, known, rests };
    known = swings ? { ...found, pages: Math.max(found.pages, known.pages) } : found;
  }
}

/** What a plan tells the next pass. */
export function knownFrom(plan: readonly PlannedPage[]): Known {
  const folios = new Map<SectionId, string>();
  for (const page of plan) {
    if (page.content?.first) folios.set(page.section.id, page.folio.label);
  }
  return { pages: plan.length, folios };
}

function sameFolios(one: Known, other: Known): boolean {
  if (one.folios.size !== other.folios.size) return false;
  for (const [section, folio] of other.folios) {
    if (one.folios.get(section) !== folio) return false;
  }
  return true;
}
