/**
 * Numbers of sections. In: what the headings say; out: attributes under which the book counts to the same numbers by
 * itself: sections of one label count on, and only where the manuscript departs from that is the count set.
 */
import type { Plan } from './sections.ts';

export interface Numbering {
  readonly numbered: boolean;
  readonly label: string | null;
  readonly startNumber: number | null;
  readonly restart: boolean;
}

const UNNUMBERED: Numbering = { numbered: false, label: null, startNumber: null, restart: false };

export function numberingOf(plans: readonly Plan[]): readonly Numbering[] {
  const labels = labelsOf(plans);
  const sections = new Map<string, number>();
  const parts = new Map<string, number>();
  return plans.map((plan, at) => {
    const reading = plan.heading?.candidate.reading;
    const isPart = plan.kind === 'part';
    const restart = isPart && restartsAfter(plans, at, { labels, counts: sections });
    if (restart) sections.clear();
    const number = reading?.number ?? null;
    if (reading === undefined || number === null || reading.form === 'matter') return { ...UNNUMBERED, restart };
    const counts = isPart ? parts : sections;
    const label = labels[at] ?? null;
    const run = (label ?? '').toLowerCase();
    const expected = (counts.get(run) ?? 0) + 1;
    counts.set(run, number);
    return { numbered: true, label, startNumber: number === expected ? null : number, restart };
  });
}

interface Known {
  readonly labels: readonly (string | null)[];
  readonly counts: ReadonlyMap<string, number>;
}

/**
 * The word before each number. A bare number ("5. Mr. Fosk") between numbers of one word ("Chapter 4", "Chapter 6") belongs
 * to their run and takes the word.
 */
function labelsOf(plans: readonly Plan[]): readonly (string | null)[] {
  const numbered = plans.map((plan) => {
    const reading = plan.heading?.candidate.reading;
    return reading && reading.number !== null && reading.form !== 'matter' && plan.kind !== 'part' ? reading : null;
  });
  const run = numbered.filter((reading) => reading !== null);
  return plans.map((plan, at) => {
    const reading = numbered[at];
    if (!reading) return plan.heading?.candidate.reading?.label ?? null;
    if (reading.label !== null) return reading.label;
    const place = run.indexOf(reading);
    const before = run.slice(0, place).findLast((each) => each.label !== null);
    const after = run.slice(place + 1).find((each) => each.label !== null);
    const [one, other] = [before ?? after, after ?? before];
    if (!one || !other || one.label?.toLowerCase() !== other.label?.toLowerCase()) return null;
    return follows(run, place) ? one.label : null;
  });
}

/** Whether a number goes on from the one before it, or the next goes on from it. */
function follows(run: readonly { readonly number: number | null }[], place: number): boolean {
  const number = run[place]?.number ?? 0;
  return run[place - 1]?.number === number - 1 || run[place + 1]?.number === number + 1;
}

/** The first numbered section after a part is 1 although its label had counted further. */
function restartsAfter(plans: readonly Plan[], part: number, known: Known): boolean {
  for (let at = part + 1; at < plans.length; at++) {
    const plan = plans[at];
    const reading = plan?.heading?.candidate.reading;
    if (plan === undefined || plan.kind === 'part') return false;
    if (reading === undefined || reading.number === null || reading.form === 'matter') continue;
    return reading.number === 1 && (known.counts.get((known.labels[at] ?? '').toLowerCase()) ?? 0) > 0;
  }
  return false;
}
