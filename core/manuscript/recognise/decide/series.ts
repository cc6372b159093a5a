/**
 * Numbers that run. In: candidates in order; out: those whose numbers follow one another through the book, with text
 * between them, so that the lone "I" of a sentence or the items of a list are left alone.
 */
import { type Candidate, PAGE } from '../evidence/candidates.ts';
import type { NumeralForm } from '../evidence/numerals.ts';

/** Words between two headings of a series that stand on one page; fewer make a list. */
const BETWEEN = 40;

/** Members that a series needs, unless all of them stand out. */
const FEWEST = 3;

export function numberSeries(candidates: readonly Candidate[], wordsBefore: Uint32Array): readonly Candidate[] {
  const found: Candidate[] = [];
  for (const form of ['arabic', 'roman', 'word'] satisfies NumeralForm[]) {
    const bare = candidates.filter(
      (each) => each.reading.form === 'bare' && each.reading.numeral === form && mayBeNumber(each),
    );
    found.push(...chain(alike(bare), wordsBefore));
  }
  return found;
}

/** Where most of the numbers have a look of their own, those without are words: the "I" of a short line. */
function alike(bare: readonly Candidate[]): readonly Candidate[] {
  const looking = bare.filter((each) => each.looks.length > 0 || each.room >= PAGE);
  return looking.length >= FEWEST && looking.length >= 0.4 * bare.length ? looking : bare;
}

function mayBeNumber(candidate: Candidate): boolean {
  const { reading, line } = candidate;
  if (candidate.looks.length === 0 && candidate.room === 0 && !candidate.roomBelow) return false;
  if (reading.titleAt >= line.rich.text.length) return true;
  const title = line.rich.text.slice(reading.titleAt).trim();
  return (
    line.words <= 14 &&
    !/[,;]$/.test(title) &&
    !/^\p{Ll}/u.test(title) &&
    (candidate.looks.length > 0 || candidate.room >= 2)
  );
}

/** Follows the numbers: the next one, 1 again, or one left out where the look is beyond doubt. */
function chain(bare: readonly Candidate[], wordsBefore: Uint32Array): readonly Candidate[] {
  const members: Candidate[] = [];
  for (let at = 0; at < bare.length; at++) {
    const candidate = bare[at];
    if (candidate === undefined) continue;
    const last = members[members.length - 1];
    const paged = candidate.room >= PAGE && (last?.room ?? 0) >= PAGE;
    if (last !== undefined && !paged && (wordsBefore[candidate.at] ?? 0) - (wordsBefore[last.at + 1] ?? 0) < BETWEEN) {
      if (last.key !== candidate.key || candidate.reading.number !== last.reading.number) continue;
    }
    if (follows(candidate, last)) members.push(candidate);
  }
  const clear = members.filter((each) => each.room > 0 || each.strong).length;
  return members.length >= FEWEST || (members.length === 2 && clear === 2) ? members : [];
}

function follows(candidate: Candidate, last: Candidate | undefined): boolean {
  const number = candidate.reading.number ?? 0;
  if (last === undefined) return number === 1 || (number === 2 && candidate.room > 0);
  const before = last.reading.number ?? 0;
  if (number === before + 1) return true;
  const same = candidate.key === last.key && (candidate.room > 0 || candidate.strong);
  return same && (number === 1 || (number > before && number <= before + 3));
}

/** "Stave One", "Stave Two", ...: the same word at least three times, counting up. */
export function countedSeries(candidates: readonly Candidate[]): readonly Candidate[] {
  const groups = new Map<string, Candidate[]>();
  for (const candidate of candidates) {
    const { form, label } = candidate.reading;
    if (form !== 'counted' || label === null) continue;
    const group = groups.get(label);
    if (group === undefined) groups.set(label, [candidate]);
    else group.push(candidate);
  }
  return [...groups.values()].filter(isCounted).flat();
}

function isCounted(group: readonly Candidate[]): boolean {
  if (group.length < FEWEST) return false;
  let steps = 0;
  group.forEach((each, at) => {
    const before = group[at - 1]?.reading.number ?? 0;
    const number = each.reading.number ?? 0;
    if (number === before + 1 || number === 1) steps++;
  });
  return steps >= 0.7 * group.length;
}
