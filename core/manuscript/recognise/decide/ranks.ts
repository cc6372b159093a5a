/**
 * What each heading heads: a part, a section, or a passage inside a section. In: headings and word counts; out: a rank
 * for each. Levels of styles are compared with one another, never taken at their number.
 */
import type { SectionKind } from '#book';
import type { Surroundings } from './headings.ts';
import { wordsBetween } from './headings.ts';
import type { Heading } from './titles.ts';

export interface Ranked {
  readonly heading: Heading;
  /** `inner`: a subhead inside its section, `depth` levels below it (1 to 3). */
  readonly rank: 'section' | 'inner';
  readonly depth: number;
  readonly kind: SectionKind;
}

/** Fewer words after a heading than this are no text of its own (a part's motto, say). */
const OWN_WORDS = 60;

/** Passages under subheads that are this long, in the middle, are sections. */
const SECTION_WORDS = 350;

export function rankHeadings(headings: readonly Heading[], around: Surroundings): readonly Ranked[] {
  const own = headings.map((heading, at) => wordsAfter(heading, headings[at + 1], around));
  const chapterLevel = levelOfChapters(headings, own);
  const innerWords = headings.flatMap((heading, at) => (isDeeper(heading, chapterLevel) ? [own[at] ?? 0] : []));
  const splitInner = median(innerWords) >= SECTION_WORDS;
  const levels: Levels = { headings, own, chapterLevel, chapterLabels: labelsAsChapters(headings, own) };
  return headings.map((heading, at) => {
    const deeper = isDeeper(heading, chapterLevel);
    const rank = deeper && !splitInner ? 'inner' : 'section';
    const depth = deeper && chapterLevel !== null ? Math.min(3, (heading.candidate.level ?? 1) - chapterLevel) : 1;
    return { heading, rank, depth, kind: kindOf(heading, at, levels) };
  });
}

function wordsAfter(heading: Heading, next: Heading | undefined, around: Surroundings): number {
  const last = heading.items[heading.items.length - 1] ?? heading.candidate.at;
  return wordsBetween(around.wordsBefore, last + 1, next?.candidate.at ?? around.wordsBefore.length - 1);
}

function isDeeper(heading: Heading, chapterLevel: number | null): boolean {
  const level = heading.candidate.level;
  if (level === null || chapterLevel === null || level <= chapterLevel) return false;
  return heading.candidate.reading.form !== 'labelled' || heading.candidate.reading.kind !== 'chapter';
}

/** The level of style at which chapters begin, null where no heading has one. */
function levelOfChapters(headings: readonly Heading[], own: readonly number[]): number | null {
  const styled = headings.filter((each) => each.candidate.level !== null);
  if (styled.length === 0) return null;
  const labelled = styled.filter(
    ({ candidate }) => candidate.reading.form === 'labelled' && candidate.reading.kind === 'chapter',
  );
  const common = commonest(labelled.map((each) => each.candidate.level ?? 1));
  if (common !== null && labelled.length >= 2) return common;
  const levels = [...new Set(styled.map((each) => each.candidate.level ?? 1))].sort((one, other) => one - other);
  for (const level of levels) {
    if (level === levels[levels.length - 1] || !opensDeeper(headings, own, level)) return level;
  }
  return levels[0] ?? null;
}

/** Headings of a level mostly have no text of their own but headings below them. */
function opensDeeper(headings: readonly Heading[], own: readonly number[], level: number): boolean {
  let all = 0;
  let empty = 0;
  headings.forEach(({ candidate }, at) => {
    if (candidate.level !== level || candidate.reading.form === 'matter') return;
    all++;
    const next = headings[at + 1]?.candidate.level ?? 0;
    if ((own[at] ?? 0) < OWN_WORDS && next > level) empty++;
  });
  return all === 0 || empty >= 0.6 * all;
}

interface Levels {
  readonly headings: readonly Heading[];
  readonly own: readonly number[];
  readonly chapterLevel: number | null;
  readonly chapterLabels: ReadonlySet<string>;
}

function kindOf(heading: Heading, at: number, levels: Levels): SectionKind {
  const { reading, level } = heading.candidate;
  const next = levels.headings[at + 1]?.candidate;
  const words = levels.own[at] ?? 0;
  const opens = next !== undefined && words < OWN_WORDS;
  if (reading.form === 'matter' && reading.kind !== null) return reading.kind;
  if (reading.kind === 'part') return levels.chapterLabels.has(reading.label ?? '') ? 'chapter' : 'part';
  if (reading.kind !== null) return reading.kind;
  if (level !== null && levels.chapterLevel !== null && level < levels.chapterLevel && opens) return 'part';
  if (level !== null || !opens || next === undefined || next.reading.form === 'matter') return 'chapter';
  return words === 0 && next.reading.form !== reading.form && reading.form !== 'counted' ? 'part' : 'chapter';
}

/**
 * Labels of parts that stand for chapters: "Book I" where the books of the novel hold the text and no chapters stand
 * between them.
 */
function labelsAsChapters(headings: readonly Heading[], own: readonly number[]): ReadonlySet<string> {
  const found = new Set<string>();
  const counts = new Map<string, { all: number; full: number }>();
  let others = 0;
  headings.forEach(({ candidate }, at) => {
    const { form, kind, label } = candidate.reading;
    if (kind !== 'part' || label === null) {
      if (form !== 'matter' && form !== 'title') others++;
      return;
    }
    const count = counts.get(label) ?? { all: 0, full: 0 };
    counts.set(label, { all: count.all + 1, full: count.full + ((own[at] ?? 0) >= SECTION_WORDS ? 1 : 0) });
  });
  if (others > 0 || counts.size !== 1) return found;
  for (const [label, { all, full }] of counts) if (full >= 0.6 * all) found.add(label);
  return found;
}

function commonest(values: readonly number[]): number | null {
  const counts = new Map<number, number>();
  let best: number | null = null;
  for (const value of values) {
    const count = (counts.get(value) ?? 0) + 1;
    counts.set(value, count);
    if (best === null || count > (counts.get(best) ?? 0)) best = value;
  }
  return best;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}
