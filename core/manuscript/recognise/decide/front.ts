/**
 * The front of the manuscript. In: items and accepted headings; out: what the title page says, and the headings without
 * the book's own title, which authors like to give a heading's style.
 */

import type { RawManuscript } from '../../raw.ts';
import type { Base } from '../collect/base.ts';
import type { Item, Line } from '../collect/lines.ts';
import type { ContentsList } from '../evidence/contents.ts';
import { phraseOf } from '../evidence/reading.ts';
import type { Vocabulary } from '../vocabulary/vocabulary.ts';
import type { Accepted } from './headings.ts';
import { plausibleAuthor, plausibleTitle } from './metadata.ts';
import { fitsTitlePage, sameWords } from './titleLines.ts';
import { readTitlePage, type TitlePage } from './titlePage.ts';

export interface FrontInput {
  readonly raw: RawManuscript;
  readonly items: readonly Item[];
  readonly accepted: readonly Accepted[];
  readonly base: Base;
  readonly vocabulary: Vocabulary;
  readonly wordsBefore: Uint32Array;
  readonly contents: ContentsList;
}

export interface FrontMatter {
  readonly titlePage: TitlePage;
  readonly accepted: readonly Accepted[];
}

/** Words below the title on a title page. */
const TITLE_PAGE_WORDS = 60;

export function frontMatterOf(input: FrontInput): FrontMatter {
  const clues = { title: plausibleTitle(input.raw), author: plausibleAuthor(input.raw) };
  const titled = isBookTitle(input, clues.title);
  const headed = titled ? (input.accepted[0]?.candidate.at ?? null) : null;
  const accepted = titled ? input.accepted.slice(1) : input.accepted;
  const end = accepted[0]?.candidate.at ?? input.items.length;
  const { items, base, vocabulary, wordsBefore, contents } = input;
  const { dropped } = contents;
  const titlePage = readTitlePage({ items, end, headed, base, vocabulary, wordsBefore, clues, dropped });
  return { titlePage, accepted };
}

/** The first heading is the title of the book: named so by the file, or alone at its level with little below it. */
function isBookTitle(input: FrontInput, title: string | null): boolean {
  const [first, second] = input.accepted;
  if (first === undefined || second === undefined || first.candidate.reading.form !== 'title') return false;
  const words = (input.wordsBefore[second.candidate.at] ?? 0) - (input.wordsBefore[first.candidate.at + 1] ?? 0);
  if (words > TITLE_PAGE_WORDS) return false;
  if (title !== null && sameWords(first.candidate.line.plain, title)) return true;
  if (input.contents.names.size > 0 && second.candidate.at > Math.max(...input.contents.dropped)) {
    return ![...input.contents.names].some((name) => sameWords(name, first.candidate.line.plain));
  }
  if (namesAuthor(input, first.candidate.at + 1, second.candidate.at)) return true;
  if (opensTitlePage(input, first.candidate.at, second.candidate.at)) return true;
  return input.accepted.every((_, at) => at === 0 || !isEmptyTitle(input, at)) && isAlone(input, first);
}

/** A line that is nothing but "by" or begins with it stands below. */
function namesAuthor(input: FrontInput, from: number, to: number): boolean {
  const by = new Set(['by', ...input.vocabulary.words.by]);
  for (let at = from; at < to; at++) {
    const item = input.items[at];
    if (item?.kind === 'line' && item.words <= 8 && by.has(phraseOf(item.plain.split(/\s/)[0] ?? ''))) return true;
  }
  return false;
}

/** Lines and words of a title page below the title, where no style or word says what they are. */
const LINES_BELOW = 4;
const WORDS_BELOW = 30;

/** Nothing stands above it, and nothing but a subtitle's and a name's worth of short lines below: no chapter is as short. */
function opensTitlePage({ items, wordsBefore }: FrontInput, title: number, next: number): boolean {
  const words = (wordsBefore[next] ?? 0) - (wordsBefore[title + 1] ?? 0);
  if ((wordsBefore[title] ?? 0) > 0 || words === 0 || words > WORDS_BELOW) return false;
  const lines = items.slice(title + 1, next).filter((item) => item.kind !== 'line' || item.words > 0);
  return lines.length <= LINES_BELOW && lines.every((item) => item.kind === 'line' && isTitlePageLine(item));
}

function isTitlePageLine(line: Line): boolean {
  return line.words <= 12 && fitsTitlePage(line) && !/[.!?]["'\u201d\u2019]?$/.test(line.plain.trim());
}

/** A title with hardly a word below it: a part, more likely, when there are several. */
function isEmptyTitle(input: FrontInput, at: number): boolean {
  const here = input.accepted[at]?.candidate;
  const next = input.accepted[at + 1]?.candidate;
  if (here === undefined || next === undefined || here.reading.form !== 'title') return false;
  return (input.wordsBefore[next.at] ?? 0) - (input.wordsBefore[here.at + 1] ?? 0) <= TITLE_PAGE_WORDS;
}

/** No other heading of mere words looks so or stands at its level. */
function isAlone(input: FrontInput, first: Accepted): boolean {
  const { level, key } = first.candidate;
  const titles = input.accepted.filter((each) => each !== first && each.candidate.reading.form === 'title');
  if (level === null) return titles.every((each) => each.candidate.key !== key) || first.candidate.at === 0;
  return titles.every((each) => (each.candidate.level ?? 9) > level);
}
