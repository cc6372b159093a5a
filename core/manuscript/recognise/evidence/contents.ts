/**
 * A contents list that the author typed or the word processor made. In: the items; out: which items belong to it and what
 * its entries say. It goes, for the book makes its own; but its entries are the best witnesses for the headings.
 */
import { EMPTIES_AS_PAGE, type Item, type Line } from '../collect/lines.ts';
import { fold, type Vocabulary } from '../vocabulary/vocabulary.ts';
import { phraseOf } from './reading.ts';

export interface ContentsList {
  /** Items from the list's heading to its last entry. */
  readonly dropped: ReadonlySet<number>;
  readonly entries: number;
  /** Headings as the list gives them, squeezed to letters and digits. */
  readonly names: ReadonlySet<string>;
}

/** Fewer entries make no list. */
const FEWEST = 3;

const PAGE_NUMBER = /(?:[\t.\u2026_\u00b7]|\s{2,}|\s[\u2013\u2014-]\s)[\s.\u2026_\u00b7]*(?:\d{1,4}|[ivxlc]{1,7})\s*$/;

export function findContents(items: readonly Item[], vocabulary: Vocabulary): ContentsList {
  const dropped = new Set<number>();
  const names = new Set<string>();
  let entries = 0;
  const repeated = countNames(items);
  for (let at = 0; at < items.length; at++) {
    const item = items[at];
    if (item?.kind !== 'line' || dropped.has(at)) continue;
    const titled = isContentsHeading(item, vocabulary);
    if (!titled && !isGenerated(item) && !isNumberedEntry(item)) continue;
    const end = runOfEntries(items, titled ? at + 1 : at, repeated);
    const length = end - (titled ? at + 1 : at);
    if (length < (titled || isGenerated(item) ? 1 : FEWEST + 1)) continue;
    if (titled && length < FEWEST && !isGenerated(items[at + 1])) continue;
    for (let index = at; index < end; index++) dropped.add(index);
    for (let index = titled ? at + 1 : at; index < end; index++) {
      const line = items[index];
      if (line?.kind === 'line') names.add(squeeze(entryText(line)));
    }
    entries += length;
    at = end - 1;
  }
  return { dropped, entries, names };
}

function isContentsHeading(line: Line, vocabulary: Vocabulary): boolean {
  return (
    line.words <= 4 &&
    (vocabulary.matter.get(phraseOf(line.plain)) === 'contents' || /^toc heading/i.test(line.source.style ?? ''))
  );
}

function isGenerated(item: Item | undefined): boolean {
  return (
    item?.kind === 'line' &&
    (item.source.inContentsField || /^(?:toc|table of figures) ?\d?$/i.test(item.source.style ?? ''))
  );
}

/** Entries have few words, and leaders of a sensible length. */
function isShort(line: Line): boolean {
  return line.words <= 20 && line.plain.length <= 300;
}

function isNumberedEntry(line: Line): boolean {
  return isShort(line) && PAGE_NUMBER.test(line.plain) && /\p{L}|^\s*[\divxlc]+\b/iu.test(line.plain);
}

/** The end of the entries that begin at an item: a repeated entry is the first heading already. */
function runOfEntries(items: readonly Item[], start: number, repeated: ReadonlyMap<string, number>): number {
  const seen = new Set<string>();
  let at = start;
  for (; at < items.length; at++) {
    const item = items[at];
    if (item?.kind !== 'line') break;
    const name = squeeze(entryText(item));
    const entry = isGenerated(item) || isNumberedEntry(item) || isLooselyNumbered(item, repeated);
    if (!entry) {
      if (item.words > 20 || (seen.has(name) && opensText(items, at))) break;
      if (at > start && (item.page || item.gap >= EMPTIES_AS_PAGE)) break;
      if ((repeated.get(name) ?? 0) < 2) {
        if (!continuesList(items, at, repeated)) break;
      }
    }
    seen.add(name);
  }
  return at;
}

/** An entry that repeats no heading (a subtitle, a heading written otherwise) stands between entries that do. */
function continuesList(items: readonly Item[], at: number, repeated: ReadonlyMap<string, number>): boolean {
  for (let next = at + 1; next <= at + 2; next++) {
    const item = items[next];
    if (item?.kind !== 'line' || item.words > 20 || item.page || item.gap >= EMPTIES_AS_PAGE) return false;
    if (isGenerated(item) || isNumberedEntry(item)) return true;
    if ((repeated.get(squeeze(entryText(item))) ?? 0) >= 2) return next === at + 1;
  }
  return false;
}

/** A repeated entry is the first heading when it looks unlike the entries or prose follows it. */
function opensText(items: readonly Item[], at: number): boolean {
  const item = items[at];
  const before = items[at - 1];
  if (item?.kind !== 'line' || before?.kind !== 'line') return true;
  if (item.gap > before.gap || item.level !== null || item.bold !== before.bold || item.centred !== before.centred)
    return true;
  for (let next = at + 1; next <= at + 2; next++) {
    const follower = items[next];
    if (follower?.kind !== 'line' || follower.words > 20) return true;
    if (follower.page || follower.gap > item.gap) return false;
  }
  return false;
}

function countNames(items: readonly Item[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  const add = (name: string): void => {
    counts.set(name, (counts.get(name) ?? 0) + 1);
  };
  let before = '';
  for (const item of items) {
    const name = item.kind === 'line' && item.words <= 20 ? squeeze(entryText(item)) : '';
    if (name !== '') add(name);
    if (name !== '' && before !== '') add(before + name);
    before = name;
  }
  return counts;
}

/** "Chapter I 14": the page number is known by what is left without it, which stands again further on. */
function isLooselyNumbered(line: Line, repeated: ReadonlyMap<string, number>): boolean {
  if (!isShort(line)) return false;
  const match = /^(.*\p{L}.*)\s\d{1,4}$/u.exec(line.plain);
  return match !== null && repeated.has(squeeze(match[1] ?? ''));
}

/** The entry without its page number. */
export function entryText(line: Line): string {
  return isShort(line) ? line.plain.replace(PAGE_NUMBER, '') : line.plain;
}

/** Letters and digits only, folded: how an entry and its heading are compared. */
export function squeeze(text: string): string {
  return fold(text).replace(/[^\p{L}\p{N}]+/gu, '');
}
