/**
 * Subheads that no style marks: short lines in bold, bigger or underlined that stand at the margin, with text below them. In:
 * candidates that are no headings; out: subheads. Lines of one look stand or fall together, and one alone is no series: a
 * sign on a wall or a message may be bold too.
 */
import type { Item } from '../collect/lines.ts';
import type { Candidate } from '../evidence/candidates.ts';
import type { Ranked } from './ranks.ts';

export interface Passages {
  readonly items: readonly Item[];
  /** Items that belong to headings or were set aside. */
  readonly taken: ReadonlySet<number>;
  /** Where the first section begins: title pages before it have lines of any look. */
  readonly from: number;
  readonly wordsBefore: Uint32Array;
}

const LONGEST = 12;
/** Of the lines of one look, this share must look like subheads (common practice, no source, as are the words below). */
const SHARE = 0.7;
/** Words that a subhead has below it at the least, and as a rule. */
const LEAST_BELOW = 20;
const USUAL_BELOW = 60;

/** Ends that sentences have and subheads have not; questions may head a passage. */
const SENTENCE_END = /[.!,;:\u2026\u2013\u2014-]["'\u201d\u2019\u00bb\u201c]?$/;
const SPEECH = /^["'\u201c\u2018\u00ab\u201e\u2013\u2014-]/;

export function subheadsByLook(candidates: readonly Candidate[], passages: Passages): readonly Ranked[] {
  const free = candidates.filter((each) => each.at > passages.from && !passages.taken.has(each.at) && each.strong);
  const looks = new Map<string, Candidate[]>();
  for (const each of free) looks.set(each.key, [...(looks.get(each.key) ?? []), each]);
  const found = [...looks.values()].flatMap((alike) => seriesOf(alike, free, passages));
  return found.sort((one, other) => one.heading.candidate.at - other.heading.candidate.at);
}

/** The subheads among lines of one look, none where they are no series. */
function seriesOf(alike: readonly Candidate[], free: readonly Candidate[], passages: Passages): readonly Ranked[] {
  const marks = new Set([...passages.taken, ...free.map((each) => each.at)]);
  const below = (each: Candidate): number => wordsBelow(each.at, marks, passages);
  const series = alike.filter((each) => readsAsSubhead(each, passages) && below(each) >= LEAST_BELOW);
  if (series.length < 2 || series.length < alike.length * SHARE) return [];
  const words = series.map(below).sort((one, other) => one - other);
  if ((words[Math.floor(words.length / 2)] ?? 0) < USUAL_BELOW) return [];
  return series.map((candidate) => ({
    heading: {
      candidate,
      reasons: [...candidate.looks, `one of ${series.length} lines of this look with text below`],
      confidence: 0.7,
      items: [candidate.at],
    },
    rank: 'inner',
    depth: 1,
    kind: 'chapter',
  }));
}

function readsAsSubhead({ line, at }: Candidate, { items }: Passages): boolean {
  const { plain, words, centred, atEnd, tabs, images } = line;
  if (words > LONGEST || centred || atEnd || tabs > 0 || images > 0 || plain.includes('\n')) return false;
  if (SENTENCE_END.test(plain) || SPEECH.test(plain)) return false;
  const next = items[at + 1];
  return next !== undefined && !next.page && !(next.kind === 'line' && next.bold);
}

/** Words from a line to the next that is marked as it is, or heads something. */
function wordsBelow(at: number, marks: ReadonlySet<number>, { items, wordsBefore }: Passages): number {
  let to = at + 1;
  while (to < items.length && !marks.has(to)) to++;
  return (wordsBefore[to] ?? 0) - (wordsBefore[at + 1] ?? 0);
}
