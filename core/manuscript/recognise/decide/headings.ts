/**
 * Which candidates are headings. In: candidates and the contents list; out: the accepted ones, each with its reasons.
 * Words and styles accept at once; numbers by running 1, 2, 3; mere titles by looking like the headings already found.
 */
import type { SectionKind } from '#book';
import { type Candidate, PAGE } from '../evidence/candidates.ts';
import { type ContentsList, squeeze } from '../evidence/contents.ts';
import { isEndMarker } from '../evidence/endMarker.ts';
import { phraseOf, titleReading } from '../evidence/reading.ts';
import type { Vocabulary } from '../vocabulary/vocabulary.ts';
import { countedSeries, numberSeries } from './series.ts';

export interface Accepted {
  readonly candidate: Candidate;
  readonly reasons: readonly string[];
  readonly confidence: number;
}

/** What the decision needs to know of the text between candidates. */
export interface Surroundings {
  readonly contents: ContentsList;
  readonly vocabulary: Vocabulary;
  /** Words of all items before an index. */
  readonly wordsBefore: Uint32Array;
}

export function acceptHeadings(all: readonly Candidate[], around: Surroundings): readonly Accepted[] {
  const candidates = all.filter(
    (each) => !around.contents.dropped.has(each.at) && !isEndMarker(each.line, around.vocabulary.words.ends),
  );
  const accepted = new Map<number, Accepted>();
  const accept = (candidate: Candidate, reason: string, confidence: number): void => {
    if (accepted.has(candidate.at)) return;
    accepted.set(candidate.at, { candidate, reasons: reasonsOf(candidate, reason), confidence });
  };
  for (const candidate of candidates) {
    const reason = reasonInItself(candidate, around);
    if (reason !== null) accept(candidate, ...reason);
  }
  const numbers = new Set(numberSeries(candidates, around.wordsBefore));
  const counted = new Set(countedSeries(candidates));
  for (const candidate of numbers) accept(candidate, 'its number follows the one before', 0.9);
  for (const candidate of counted) accept(candidate, 'one of a series', 0.85);
  acceptByLook(candidates, accepted, around, accept);
  acceptAboveFirst(candidates, accepted, accept);
  return [...accepted.values()]
    .map((each) => {
      if (counted.has(each.candidate) && isOrdinal(each.candidate)) return asTitle(each);
      return numbers.has(each.candidate) || counted.has(each.candidate) ? each : withoutChance(each);
    })
    .sort((one, other) => one.candidate.at - other.candidate.at);
}

/** Outside a series "Vitamin C" and "100 Days" are titles, no numbers. */
function withoutChance(accepted: Accepted): Accepted {
  const { candidate } = accepted;
  const { form, loose } = candidate.reading;
  return form === 'counted' || (form === 'bare' && loose) ? asTitle(accepted) : accepted;
}

/** "The First Night" is a title: as a label and a number it would read "Night One". */
function isOrdinal({ reading, line }: Candidate): boolean {
  return !phraseOf(line.plain).startsWith(phraseOf(reading.label ?? ''));
}

function asTitle(accepted: Accepted): Accepted {
  const { candidate } = accepted;
  return { ...accepted, candidate: { ...candidate, reading: titleReading(candidate.line.rich.text) } };
}

type Accept = (candidate: Candidate, reason: string, confidence: number) => void;

function reasonsOf(candidate: Candidate, reason: string): readonly string[] {
  const reasons = [...candidate.looks];
  if (candidate.room >= PAGE) reasons.push('at the top of a page');
  else if (candidate.room > 0) reasons.push('with room above');
  reasons.push(reason);
  return reasons;
}

/** Why a candidate is a heading whatever the others are, null where it needs their company. */
function reasonInItself(candidate: Candidate, around: Surroundings): readonly [string, number] | null {
  const { line, reading, room, looks } = candidate;
  const seen = looks.length > 0 || room > 0 || candidate.roomBelow;
  if (candidate.level !== null) return ['styled as a heading', 0.95];
  if (seen && around.contents.names.has(squeeze(line.plain))) return ['named in the contents list', 0.95];
  if (reading.form === 'labelled' && standsAlone(candidate)) {
    const wordy = reading.titleAt < line.rich.text.length;
    return wordy && !seen ? null : ['a label and a number', seen ? 0.95 : 0.75];
  }
  return reading.form === 'matter' && isNamedMatter(candidate)
    ? ['the name of a part of a book', room >= 3 ? 0.9 : 0.8]
    : null;
}

/** Names that are hardly ever a line of a story. */
const UNMISTAKABLE: ReadonlySet<SectionKind> = new Set<SectionKind>([
  'foreword',
  'preface',
  'acknowledgments',
  'prologue',
  'epilogue',
  'afterword',
  'aboutAuthor',
]);

/** "Prologue" and the like, standing as headings do. */
function isNamedMatter({ line, room, looks, strong, roomBelow, reading }: Candidate): boolean {
  if (line.words > 9) return false;
  const sure = UNMISTAKABLE.has(reading.kind ?? 'other');
  if (room > 0 && line.words <= 4 && (roomBelow ? room > 1 || sure : sure && looks.length > 0)) return true;
  if (room >= PAGE || (room >= 3 && looks.length > 0)) return true;
  return strong && !line.underline && line.words <= 4 && (room > 0 || roomBelow);
}

/** No sentence that happens to begin with "Chapter 4" or "Part of". */
function standsAlone(candidate: Candidate): boolean {
  const { line, reading } = candidate;
  const title = line.rich.text.slice(reading.titleAt).trim();
  if (title === '') return !/[,;]$/.test(line.plain);
  if (reading.loose && (/^\p{Ll}/u.test(title) || line.words > 12)) return false;
  if (/^["\u201c\u2018\u00ab\u201e]/.test(line.plain) && line.words > 6) return false;
  return !(/[,;]$/.test(title) || (/[.]$/.test(title) && reading.loose));
}

/** A title right above a number 1, where the count begins anew: the tale or the part that the numbers divide. */
function acceptAboveFirst(
  candidates: readonly Candidate[],
  accepted: ReadonlyMap<number, Accepted>,
  accept: Accept,
): void {
  const numbers = new Map([...accepted.values()].map(({ candidate: { at, reading } }) => [at, reading.number]));
  const begun = Math.min(...[...numbers].flatMap(([at, number]) => (number !== null && number > 1 ? [at] : [])));
  const fresh = candidates.filter(
    ({ at }) => at > begun && !numbers.has(at) && !numbers.has(at - 1) && numbers.get(at + 1) === 1,
  );
  for (const candidate of fresh) {
    if (candidate.reading.form !== 'title' || !mayBeTitle(candidate) || candidate.line.words > NAME_WORDS) continue;
    if (/[.!?]["'\u201d\u2019\u00bb]?$/.test(candidate.line.plain) || candidate.line.italic) continue;
    accept(candidate, 'stands above the first of a count', 0.7);
  }
}

/** "About the Author", "Also by the Same Hand": the name of a section needs no more words. */
const NAME_WORDS = 6;

function acceptByLook(
  candidates: readonly Candidate[],
  accepted: ReadonlyMap<number, Accepted>,
  around: Surroundings,
  accept: Accept,
): void {
  const titles = candidates.filter((each) => !accepted.has(each.at) && mayBeTitle(each));
  const known = looksOfHeadings([...accepted.values()].map((each) => each.candidate));
  const counts = countKeys(candidates);
  const places = new Map(candidates.map((each, at) => [each, at]));
  const few = known.size === 0 || bodyCount(accepted) < 2;
  for (const candidate of titles) {
    const look = known.get(candidate.key);
    const exclusive = look !== undefined && look.count >= 0.75 * (counts.get(candidate.key) ?? 1);
    const alike = look !== undefined && look.count >= 2;
    const named = candidate.reading.form === 'matter' && candidate.line.words <= NAME_WORDS;
    if (alike && exclusive && candidate.strong && (candidate.room > 0 || candidate.roomBelow)) {
      accept(candidate, 'looks like the other headings', 0.8);
    } else if (alike && named && candidate.strong) {
      accept(candidate, 'the name of a part of a book, in the look of the other headings', 0.85);
    } else if (alike && candidate.room >= Math.max(2, look.room)) {
      accept(candidate, 'looks and stands like the other headings', 0.75);
    } else if (
      candidate.room >= PAGE &&
      opensText(candidate, candidates, places, around) &&
      known.size > 0 &&
      candidate.strong
    ) {
      accept(candidate, 'stands out at the top of a page', 0.65);
    }
  }
  acceptTitleSeries(few ? titles : titles.filter(isUnmistakable), known, around, accept);
}

function bodyCount(accepted: ReadonlyMap<number, Accepted>): number {
  let count = 0;
  for (const { candidate } of accepted.values()) {
    if (candidate.reading.form !== 'matter' && candidate.reading.kind !== 'part') count++;
  }
  return count;
}

/** Ordinary words that could be a title: short, no sentence cut off, no speech. */
function mayBeTitle(candidate: Candidate): boolean {
  const { line, reading } = candidate;
  if (reading.form === 'bare' && reading.titleAt >= line.rich.text.length) return false;
  if (line.words > 14 || line.atEnd || candidate.looks.length === 0) return false;
  if (/[,;:\u2014\u2013-]$/.test(line.plain) || /^\p{Ll}/u.test(line.plain)) return false;
  return !(/[.]$/.test(line.plain) && line.words > 8);
}

interface KnownLook {
  count: number;
  /** The room that most headings of this look have. */
  room: number;
}

function looksOfHeadings(headings: readonly Candidate[]): ReadonlyMap<string, KnownLook> {
  const rooms = new Map<string, number[]>();
  for (const heading of headings) {
    const list = rooms.get(heading.key);
    if (list === undefined) rooms.set(heading.key, [heading.room]);
    else list.push(heading.room);
  }
  const known = new Map<string, KnownLook>();
  for (const [key, list] of rooms) {
    list.sort((one, other) => one - other);
    known.set(key, { count: list.length, room: list[Math.floor(list.length * 0.4)] ?? 0 });
  }
  return known;
}

function countKeys(candidates: readonly Candidate[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const candidate of candidates) counts.set(candidate.key, (counts.get(candidate.key) ?? 0) + 1);
  return counts;
}

/** Words of text that a heading must open to count by its look alone. */
const OPENED_WORDS = 80;

/** Real text follows before the next thing that stands out. `places` are the indexes of the candidates. */
function opensText(
  candidate: Candidate,
  candidates: readonly Candidate[],
  places: ReadonlyMap<Candidate, number>,
  around: Surroundings,
): boolean {
  let place = (places.get(candidate) ?? 0) + 1;
  while (place < candidates.length && !standsOut(candidates[place])) place++;
  const end = candidates[place]?.at ?? around.wordsBefore.length - 1;
  return wordsBetween(around.wordsBefore, candidate.at + 1, end) >= OPENED_WORDS;
}

function standsOut(candidate: Candidate | undefined): boolean {
  return candidate !== undefined && (candidate.room >= PAGE || candidate.strong);
}

export function wordsBetween(wordsBefore: Uint32Array, from: number, to: number): number {
  return (wordsBefore[to] ?? 0) - (wordsBefore[from] ?? 0);
}

/** Beside other headings only titles that nothing inside a chapter looks like. */
function isUnmistakable({ strong, line, room, looks }: Candidate): boolean {
  return strong && room >= 2 && (line.centred || looks.includes('bigger than the text'));
}

/** Chapters that have titles only: one look, far apart, with room above. */
function acceptTitleSeries(
  titles: readonly Candidate[],
  known: ReadonlyMap<string, KnownLook>,
  around: Surroundings,
  accept: Accept,
): void {
  const groups = new Map<string, Candidate[]>();
  for (const title of titles) {
    if (title.room === 0) continue;
    const group = groups.get(title.key);
    if (group === undefined) groups.set(title.key, [title]);
    else group.push(title);
  }
  for (const [key, all] of groups) {
    const shared = (known.get(key)?.count ?? 0) >= 2 && all.every((each) => each.strong);
    const group = withUsualRoom(all.filter((each) => !each.endsPage || each.room >= PAGE));
    if (!isTitleSeries(group, shared, around)) continue;
    for (const candidate of group) accept(candidate, 'one of a series of titles of one look', 0.7);
  }
}

/** A centred line with less room than most of its like is a sign in the text. */
function withUsualRoom(group: readonly Candidate[]): readonly Candidate[] {
  const rooms = group.map((each) => each.room).sort((one, other) => one - other);
  const usual = rooms[Math.floor(rooms.length / 2)] ?? 0;
  return group.filter((each) => each.strong || each.room >= usual);
}

/** The average distance, in words, between titles that are chapters. */
const CHAPTER_WORDS = 300;
/** The same between bold or bigger titles that all begin a page: poems and the shortest of stories. */
const POEM_WORDS = 20;

/** `shared`: prologue, parts and the like have the same look. */
function isTitleSeries(group: readonly Candidate[], shared: boolean, around: Surroundings): boolean {
  const paged = group.filter((each) => each.room >= PAGE).length;
  const fewest = paged === group.length || shared ? 2 : 3;
  if (group.length < fewest) return false;
  const first = group[0];
  if (first === undefined) return false;
  const span = wordsBetween(around.wordsBefore, first.at, around.wordsBefore.length - 1);
  const strong = group.filter((each) => each.strong || each.room >= 2).length;
  const least = paged === group.length && group.every((each) => each.strong) ? POEM_WORDS : CHAPTER_WORDS;
  return span / group.length >= least && strong >= 0.7 * group.length;
}
