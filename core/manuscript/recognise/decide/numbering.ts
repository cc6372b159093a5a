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
  const sections = new Map<string, number>();
  const parts = new Map<string, number>();
  return plans.map((plan, at) => {
    const reading = plan.heading?.candidate.reading;
    const isPart = plan.kind === 'part';
    const restart = isPart && restartsAfter(plans, at, sections);
    if (restart) sections.clear();
    const number = reading?.number ?? null;
    if (reading === undefined || number === null || reading.form === 'matter') return { ...UNNUMBERED, restart };
    const counts = isPart ? parts : sections;
    const run = (reading.label ?? '').toLowerCase();
    const expected = (counts.get(run) ?? 0) + 1;
    counts.set(run, number);
    return { numbered: true, label: reading.label, startNumber: number === expected ? null : number, restart };
  });
}

/** The first numbered section after a part is 1 although its label had counted further. */
function restartsAfter(plans: readonly Plan[], part: number, counts: ReadonlyMap<string, number>): boolean {
  for (let at = part + 1; at < plans.length; at++) {
    const plan = plans[at];
    const reading = plan?.heading?.candidate.reading;
    if (plan === undefined || plan.kind === 'part') return false;
    if (reading === undefined || reading.number === null || reading.form === 'matter') continue;
    return reading.number === 1 && (counts.get((reading.label ?? '').toLowerCase()) ?? 0) > 0;
  }
  return false;
}
