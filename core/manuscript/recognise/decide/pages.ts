/**
 * Pages without a heading at the front: copyright page, dedication, epigraph. In: the lines of one page; out: what kind
 * of page it is.
 */
import type { SectionKind } from '#book';
import { EMPTIES_AS_PAGE, type Item, type Line } from '../collect/lines.ts';
import { phraseOf } from '../evidence/reading.ts';
import { fold, type Vocabulary } from '../vocabulary/vocabulary.ts';

/** Items from `from` to `to` (exclusive) that stand on pages of their own. */
export interface PageGroup {
  readonly from: number;
  readonly to: number;
  readonly words: number;
}

export interface PageKind {
  readonly kind: SectionKind;
  readonly reason: string;
  readonly confidence: number;
}

/** Longer pages without heading are text. */
const SHORT_PAGE = 150;
/** Copyright pages and lists of books run longer. */
const LONG_PAGE = 900;

/** Cuts a stretch of items at its page breaks. */
export function pageGroups(
  items: readonly Item[],
  from: number,
  to: number,
  wordsBefore: Uint32Array,
): readonly PageGroup[] {
  const groups: PageGroup[] = [];
  let start = from;
  for (let at = from + 1; at <= to; at++) {
    const item = items[at];
    if (at < to && item !== undefined && !item.page && item.gap < EMPTIES_AS_PAGE) continue;
    if (at > start) groups.push({ from: start, to: at, words: (wordsBefore[at] ?? 0) - (wordsBefore[start] ?? 0) });
    start = at;
  }
  return groups;
}

/** The kind of an unheaded page, null where it is ordinary text. */
export function kindOfPage(items: readonly Item[], group: PageGroup, vocabulary: Vocabulary): PageKind | null {
  const lines: Line[] = [];
  for (let at = group.from; at < group.to; at++) {
    const item = items[at];
    if (item?.kind !== 'line') return null;
    lines.push(item);
  }
  const first = lines.find((line) => line.words > 0);
  if (first === undefined || group.words > LONG_PAGE) return null;
  if (isRightsPage(lines, vocabulary))
    return { kind: 'copyright', reason: 'words of a copyright page', confidence: 0.9 };
  const opening = `${phraseOf(first.plain)} `;
  const begins = vocabulary.begins.find(([beginning, kind]) => kind === 'alsoBy' && opening.startsWith(beginning));
  if (begins !== undefined)
    return { kind: 'alsoBy', reason: 'begins like a list of the author\u2019s books', confidence: 0.85 };
  if (group.words > SHORT_PAGE) return null;
  return shortPage(lines, group.words, vocabulary);
}

function shortPage(lines: readonly Line[], words: number, vocabulary: Vocabulary): PageKind | null {
  const text = fold(lines.map((line) => line.plain).join(' '));
  const dedicated = words <= 80 && vocabulary.words.dedications.some((beginning) => `${text} `.startsWith(beginning));
  if (dedicated && !hasAttribution(lines)) {
    return { kind: 'dedication', reason: 'a short page of its own that begins like a dedication', confidence: 0.85 };
  }
  if (isQuoted(lines) || hasAttribution(lines)) {
    return { kind: 'epigraph', reason: 'a short page of its own that quotes', confidence: 0.8 };
  }
  if (words <= 60) return { kind: 'dedication', reason: 'a short page of its own before the text', confidence: 0.55 };
  return { kind: 'epigraph', reason: 'a short page of its own before the text', confidence: 0.4 };
}

function isRightsPage(lines: readonly Line[], vocabulary: Vocabulary): boolean {
  const text = fold(lines.map((line) => line.plain).join('\n'));
  if (/\u00a9|\bisbn\b|\(c\) ?\d{4}/.test(text)) return true;
  return vocabulary.words.rights.filter((phrase) => text.includes(phrase)).length >= 2;
}

const OPENING_QUOTE = /^["'\u201c\u2018\u201e\u00ab\u00bb\u201a]/;

function isQuoted(lines: readonly Line[]): boolean {
  return (
    lines.some((line) => OPENING_QUOTE.test(line.plain)) || lines.every((line) => line.italic) || lines.length >= 4
  );
}

/** The last line names a source: begins with a dash or stands at the end of the measure below something longer. */
export function hasAttribution(lines: readonly Line[]): boolean {
  const last = lines[lines.length - 1];
  if (last === undefined) return false;
  if (/attribution|epigraph.*(?:source|author)/i.test(last.source.style ?? '')) return true;
  const tail = last.plain.split('\n').pop() ?? '';
  if (lines.length === 1 && !last.plain.includes('\n')) return false;
  if (/^(?:[\u2014\u2013\u2015~]|-{1,3})\s*\p{L}/u.test(tail)) return true;
  return lines.length > 1 && last.atEnd && !(lines[0]?.atEnd ?? false) && last.words <= 16;
}
