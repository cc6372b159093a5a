/**
 * Headings of two paragraphs: "Chapter 4", then "The Weir". In: accepted headings and items; out: headings, each with
 * the items that make it up. A line joins the number above it when it looks like a title, or when most do so.
 */
import type { Base } from '../collect/base.ts';
import { EMPTIES_AS_PAGE, type Item, type Line } from '../collect/lines.ts';
import { type Candidate, isBigger } from '../evidence/candidates.ts';
import { type ContentsList, squeeze } from '../evidence/contents.ts';
import { isOrnament } from '../evidence/ornaments.ts';
import type { Accepted } from './headings.ts';

export interface Heading extends Accepted {
  /** Items of the heading, in order: one, or two where the title stands apart. */
  readonly items: readonly number[];
}

/** A title that stands apart may be this long, and this long where it looks like the number above it. */
const LONGEST_TITLE = 14;
const LONGEST_SUMMARY = 60;

/** The hour of a scene is no title of the chapter that begins with it. */
const TIME_OF_DAY = /^\d{1,2}[:.]\d{2}(?:\s?[ap]\.?m\.?)?$/i;

interface Follower {
  readonly at: number;
  readonly line: Line;
  /** The follower was taken for a heading of its own. */
  readonly accepted: Accepted | null;
  /** It looks unlike the text. */
  readonly apart: boolean;
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
  const habit = {
    apart: isHabit(followers, numbered.length, (each) => each.apart, 0.6),
    plain:
      numbered.length > 2 &&
      isHabit(followers, numbered.length, (each) => each.apart || isPlainTitle(each, items), 0.8),
  };
  const taken = new Set<number>();
  const headings: Heading[] = [];
  for (const each of accepted) {
    if (taken.has(each.candidate.at)) continue;
    const follower = followers.get(each);
    if (
      follower !== undefined &&
      belongs(each.candidate, follower, { habit, items, base, contents, byItem, accepted })
    ) {
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
  if (line?.kind !== 'line' || line.page || line.gap >= EMPTIES_AS_PAGE) return null;
  if (line.words > (looksAlike(each.candidate.line, line, base) ? LONGEST_SUMMARY : LONGEST_TITLE)) return null;
  if (TIME_OF_DAY.test(line.plain)) return null;
  if (line.words === 0 || line.atEnd || isOrnament(line) || !/[\p{L}\p{N}]/u.test(line.plain)) return null;
  const accepted = byItem.get(at) ?? null;
  if (accepted !== null && !mayBeTitle(accepted, each)) return null;
  if (/[,;]$/.test(line.plain) || line.plain.includes('\n')) return null;
  return { at, line, accepted, apart: accepted !== null || looksApart(line, base) };
}

/** Words without a number; a name such as "Postscript" below a chapter's number is its title too. */
function mayBeTitle({ candidate }: Accepted, number: Accepted): boolean {
  const { form } = candidate.reading;
  return form === 'title' || (form === 'matter' && number.candidate.reading.kind !== 'part');
}

function isHabit(
  followers: ReadonlyMap<Accepted, Follower>,
  numbered: number,
  test: (follower: Follower) => boolean,
  share: number,
): boolean {
  const count = [...followers.values()].filter(test).length;
  return numbered > 1 && count >= share * numbered;
}

/** A line without any look of its own, but short, no sentence, and followed by text. */
function isPlainTitle({ line, at }: Follower, items: readonly Item[]): boolean {
  const next = items[at + 1];
  return line.words <= 8 && /[\p{L}\p{N}?!]$/u.test(line.plain) && next?.kind === 'line' && next.words > line.words;
}

/** Both bold, bigger or of one heading style, on one axis. */
function looksAlike(number: Line, title: Line, base: Base): boolean {
  if (number.centred !== title.centred) return false;
  if (number.level !== null && title.level !== null) return true;
  return (number.bold && title.bold && !base.bold) || (isBigger(number, base) && isBigger(title, base));
}

function looksApart(line: Line, base: Base): boolean {
  if (line.listed) return false;
  const subtitle = /^(?:sub)?title$/i.test(line.source.style ?? '');
  return (
    subtitle || (line.centred && !base.centred) || (line.bold && !base.bold) || isBigger(line, base) || line.capitals
  );
}

interface Habits {
  readonly habit: { readonly apart: boolean; readonly plain: boolean };
  readonly items: readonly Item[];
  readonly base: Base;
  readonly contents: ContentsList;
  readonly byItem: ReadonlyMap<number, Accepted>;
  readonly accepted: readonly Accepted[];
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
    return !standsForSection(follower, habits);
  }
  const { base, habit } = habits;
  if (fillsSection(follower, habits) || namesPart(number, line, base)) return true;
  if (names.has(squeeze(line.plain)) && !/[.!?]$/.test(line.plain)) return true;
  if (!follower.apart) return habit.plain && isPlainTitle(follower, habits.items);
  const asBold = (line.bold && !base.bold) || isBigger(line, base);
  if (asBold && line.centred === number.line.centred) return true;
  return habit.apart || /^(?:sub)?title$/i.test(line.source.style ?? '');
}

/** Nothing else stands between the number and the next heading, and the line is no quotation. */
function fillsSection({ at, line }: Follower, habits: Habits): boolean {
  if (!habits.byItem.has(at + 1) || line.words > 10 || line.italic) return false;
  return /[\p{L}\p{N}]$/u.test(line.plain) && /^[\p{L}\p{N}]/u.test(line.plain);
}

/** A few words in the middle below a part's number are its name, in italics too: a motto stops, or quotes. */
function namesPart(number: Candidate, line: Line, base: Base): boolean {
  if (number.reading.kind !== 'part' || line.words > 8 || !line.centred || base.centred) return false;
  return /[\p{L}\p{N}?]$/u.test(line.plain) && /^\p{Lu}/u.test(line.plain);
}

/** Other titles of its kind stand without a number above them, and not just a few: then it opens a section of its own. */
function standsForSection(follower: Follower, habits: Habits): boolean {
  const own = follower.accepted?.candidate;
  if (own === undefined) return false;
  let alone = 0;
  let below = 0;
  for (const { candidate } of habits.accepted) {
    if (candidate.reading.form !== 'title' || candidate.level !== own.level) continue;
    if (own.level === null && candidate.key !== own.key) continue;
    const above = habits.byItem.get(candidate.at - 1)?.candidate;
    if (above !== undefined && isNumberOnly(above)) below++;
    else alone++;
  }
  return alone > 0 && below <= alone * 2;
}
