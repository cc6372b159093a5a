/**
 * Headings of two paragraphs: "Chapter 4", then "The Weir". In: accepted headings and items; out: headings, each with
 * the items that make it up. A line joins the number above it when it looks like a title, or when most do so.
 */
import type { Base } from '../collect/base.ts';
import { EMPTIES_AS_PAGE, type Item, type Line } from '../collect/lines.ts';
import type { Candidate } from '../evidence/candidates.ts';
import { type ContentsList, squeeze } from '../evidence/contents.ts';
import { isOrnament } from '../evidence/ornaments.ts';
import type { Accepted } from './headings.ts';

export interface Heading extends Accepted {
  /** Items of the heading, in order: one, or two where the title stands apart. */
  readonly items: readonly number[];
}

/** A title that stands apart may be this long. */
const LONGEST_TITLE = 14;

interface Follower {
  readonly at: number;
  readonly line: Line;
  /** The follower was taken for a heading of its own. */
  readonly accepted: Accepted | null;
}

export function mergeTitles(
  accepted: readonly Accepted[],
  items: readonly Item[],
  base: Base,
  contents: ContentsList,
): readonly Heading[] {
  const byItem = new Map(accepted.map((each) => [each.candidate.at, each]));
  const numbered = accepted.filter((each) => isNumberOnly(each.candidate));
  const followers = new Map<Accepted, Follower>();
  for (const each of numbered) {
    const follower = followerOf(each, items, byItem, base);
    if (follower !== null) followers.set(each, follower);
  }
  const habit = numbered.length > 1 && followers.size >= 0.6 * numbered.length;
  const taken = new Set<number>();
  const headings: Heading[] = [];
  for (const each of accepted) {
    if (taken.has(each.candidate.at)) continue;
    const follower = followers.get(each);
    if (follower !== undefined && belongs(each.candidate, follower, { habit, base, contents, byItem, items })) {
      taken.add(follower.at);
      headings.push({ ...each, items: [each.candidate.at, follower.at] });
    } else headings.push({ ...each, items: [each.candidate.at] });
  }
  return headings;
}

function isNumberOnly(candidate: Candidate): boolean {
  const { form, titleAt, number } = candidate.reading;
  if (form === 'matter' || form === 'title' || number === null) return false;
  return titleAt >= candidate.line.rich.text.length;
}

function followerOf(
  each: Accepted,
  items: readonly Item[],
  byItem: ReadonlyMap<number, Accepted>,
  base: Base,
): Follower | null {
  const at = each.candidate.at + 1;
  const line = items[at];
  if (line?.kind !== 'line' || line.page || line.gap >= EMPTIES_AS_PAGE || line.words > LONGEST_TITLE) return null;
  if (line.words === 0 || line.atEnd || isOrnament(line) || !/[\p{L}\p{N}]/u.test(line.plain)) return null;
  const accepted = byItem.get(at) ?? null;
  if (accepted !== null && accepted.candidate.reading.form !== 'title') return null;
  if (accepted === null && !looksApart(line, base)) return null;
  return /[,;]$/.test(line.plain) || line.plain.includes('\n') ? null : { at, line, accepted };
}

function looksApart(line: Line, base: Base): boolean {
  if (line.source.list !== null) return false;
  const subtitle = /^(?:sub)?title$/i.test(line.source.style ?? '');
  return (
    subtitle || (line.centred && !base.centred) || (line.bold && !base.bold) || bigger(line, base) || line.capitals
  );
}

function bigger(line: Line, base: Base): boolean {
  return line.size !== null && base.size !== null && line.size > base.size * 1.12;
}

interface Habits {
  readonly habit: boolean;
  readonly base: Base;
  readonly contents: ContentsList;
  readonly byItem: ReadonlyMap<number, Accepted>;
  readonly items: readonly Item[];
}

function belongs(number: Candidate, follower: Follower, habits: Habits): boolean {
  const { line, accepted } = follower;
  const names = habits.contents.names;
  if (names.has(squeeze(number.line.plain + line.plain))) return true;
  if (accepted !== null) {
    if (names.has(squeeze(line.plain)) && names.has(squeeze(number.line.plain)))
      return !standsForSection(follower, habits);
    if (accepted.candidate.level !== null && number.level !== null && accepted.candidate.level < number.level)
      return false;
    return habits.habit || !standsForSection(follower, habits);
  }
  const { base } = habits;
  const asBold = (line.bold && !base.bold) || bigger(line, base);
  if (asBold && line.centred === number.line.centred) return true;
  if (habits.habit) return true;
  return names.has(squeeze(line.plain)) || /^(?:sub)?title$/i.test(line.source.style ?? '');
}

/** More headings of its level follow before the next one of the number's: then it opens a section of its own. */
function standsForSection(follower: Follower, habits: Habits): boolean {
  const own = follower.accepted?.candidate;
  if (own === undefined || own.level === null) return false;
  for (let at = follower.at + 1; at < habits.items.length; at++) {
    const other = habits.byItem.get(at)?.candidate;
    if (other === undefined) continue;
    if (other.level === own.level) return true;
    if (other.level === null || other.level < own.level) return false;
  }
  return false;
}
