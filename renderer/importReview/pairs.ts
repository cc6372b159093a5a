/**
 * The manuscript and what was made of it, side by side. In: lines as they came, the sections of the book, and what the
 * author has split since; out: one pair a section, with the lines that went to it, and the lines that went nowhere.
 */
import type { SectionId } from '#base';
import type { ManuscriptLine } from '#host';

/** A line of the manuscript and its number in it. */
export interface NumberedLine {
  readonly at: number;
  readonly line: ManuscriptLine;
}

export interface Pair {
  /** null for lines that were left out. */
  readonly section: SectionId | null;
  readonly lines: readonly NumberedLine[];
}

/** From a line on, the lines of a section belong to one that was split off it. */
export interface Split {
  readonly at: number;
  readonly from: SectionId;
  readonly section: SectionId;
}

/** Pairs in the order of the book, lines left out where they stood. */
export function pairsOf(
  lines: readonly ManuscriptLine[],
  sections: readonly SectionId[],
  splits: readonly Split[],
): readonly Pair[] {
  const homes = homesOf(lines, new Set(sections), splits);
  const bySection = new Map<SectionId, NumberedLine[]>(sections.map((section) => [section, []]));
  const leftOut = new Map<SectionId | null, NumberedLine[]>();
  let last: SectionId | null = null;
  lines.forEach((line, at) => {
    const home = homes[at] ?? null;
    if (home !== null) {
      bySection.get(home)?.push({ at, line });
      last = home;
    } else if (line.text.trim() !== '') leftOut.set(last, [...(leftOut.get(last) ?? []), { at, line }]);
  });
  const pairs: Pair[] = [];
  const before = leftOut.get(null);
  if (before) pairs.push({ section: null, lines: before });
  for (const section of sections) {
    pairs.push({ section, lines: bySection.get(section) ?? [] });
    const after = leftOut.get(section);
    if (after) pairs.push({ section: null, lines: after });
  }
  return pairs;
}

/** The section of each line as the book is now: what was joined to another belongs to that one. */
function homesOf(
  lines: readonly ManuscriptLine[],
  known: ReadonlySet<SectionId>,
  splits: readonly Split[],
): readonly (SectionId | null)[] {
  const joined = new Map<SectionId, SectionId | null>();
  let last: SectionId | null = null;
  return lines.map((line, at) => {
    let home = line.section;
    for (const split of splits)
      if (home === split.from && at >= split.at && known.has(split.section)) home = split.section;
    if (home === null) return null;
    if (known.has(home)) {
      last = home;
      return home;
    }
    if (!joined.has(home)) joined.set(home, last);
    return joined.get(home) ?? null;
  });
}

/** The letters of a text, without what clean-ups change: how a line and its block know each other again. */
export function lettersOf(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '')
    .toLowerCase();
}
