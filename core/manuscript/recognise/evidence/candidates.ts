/**
 * Lines that may be headings, with what speaks for each. In: the items, the base look and the vocabulary; out: a list of
 * candidates in order, each with its reading, its look and the room around it.
 */
import type { Base } from '../collect/base.ts';
import { EMPTIES_AS_PAGE, type Item, type Line } from '../collect/lines.ts';
import { LEAF } from '../collect/rich.ts';
import type { Vocabulary } from '../vocabulary/vocabulary.ts';
import { isOrnament } from './ornaments.ts';
import { type Reading, readHeading } from './reading.ts';

export interface Candidate {
  /** Index of the item. */
  readonly at: number;
  readonly line: Line;
  readonly reading: Reading;
  /** The level that the style or a style's name gives, else null. */
  readonly level: number | null;
  /** In words, how it differs from the text. */
  readonly looks: readonly string[];
  /** True where the look alone is unusual for a line of text: bold, bigger, underlined, a style of its own. */
  readonly strong: boolean;
  /** Room above: 10 for a page break, else blank lines beyond the usual. */
  readonly room: number;
  /** A blank line below beyond the usual. */
  readonly roomBelow: boolean;
  /** Nothing follows on its page. */
  readonly endsPage: boolean;
  /** Lines of one look have one key. */
  readonly key: string;
}

/** Room that stands for a new page. */
export const PAGE = 10;

/** No line has more words that is a heading by its look. */
const LONGEST_HEADING = 24;
/** Old novels tell the whole chapter in its heading; a style or a label then says that it is one. */
const LONGEST_STYLED = 70;

/** In characters, white space included: nothing longer is looked at. */
const LONGEST_TEXT = 900;

/** Size against the text's from which a line counts as bigger. */
const BIGGER = 1.12;

/** The size, in points, that text has where the file names none. */
const USUAL_SIZE = 12;

const HEADING_STYLE =
  /chapter|heading|kapitel|chapitre|cap[i\u00ed]tulo|capitolo|hoofdstuk|\u00fcberschrift|titre|t[i\u00ed]tulo|titolo|part ?title|part ?number/i;
const NOT_HEADING_STYLE =
  /body|text|first|para|opening|epigraph|subtitle|toc|contents|running|header|footer|after|sous-titre|subt/i;

interface Context {
  readonly items: readonly Item[];
  readonly base: Base;
  readonly vocabulary: Vocabulary;
  /** The style for a book's title heads chapters here. */
  readonly titled: boolean;
}

/** Lines in the style "Title" that are more than a half title and a title page have. */
const MANY_TITLES = 3;

export function candidatesOf(items: readonly Item[], base: Base, vocabulary: Vocabulary): readonly Candidate[] {
  const titles = items.filter((item) => item.kind === 'line' && item.source.style === 'Title').length;
  const context: Context = { items, base, vocabulary, titled: titles >= MANY_TITLES };
  const candidates: Candidate[] = [];
  items.forEach((item, at) => {
    if (item.kind !== 'line' || item.words > LONGEST_STYLED || item.words === 0) return;
    if (item.rich.text.length > LONGEST_TEXT || !/[\p{L}\p{N}]/u.test(item.plain) || isOrnament(item)) return;
    const candidate = candidateOf(item, at, context);
    if (candidate !== null) candidates.push(candidate);
  });
  return candidates;
}

function candidateOf(line: Line, at: number, { items, base, vocabulary, titled }: Context): Candidate | null {
  const level = styleLevel(line, base, titled);
  const looks = looksOf(line, base, level);
  const room = roomAbove(line, at, base);
  const next = items[at + 1];
  const roomBelow = next !== undefined && (next.page || next.gap > base.gap);
  const listed = line.listed;
  if (line.words > LONGEST_HEADING && level === null && looks.length === 0) return null;
  if (listed) return null;
  const text = line.rich.text.replaceAll(LEAF, ' ');
  const unremarkable = looks.length === 0 && room === 0 && !roomBelow;
  if (unremarkable && !isLabelled(text, vocabulary)) return null;
  const reading = readHeading(text, vocabulary);
  if (line.words > LONGEST_HEADING && level === null && reading.form !== 'labelled') return null;
  return {
    at,
    line,
    reading,
    level,
    looks,
    strong: level !== null || looks.some((look) => STRONG_LOOKS.has(look)),
    room,
    roomBelow,
    endsPage: next === undefined || next.page || next.gap >= EMPTIES_AS_PAGE,
    key: keyOf(line, base),
  };
}

/** Characters in which a label and its number stand, where a line begins with them. */
const LABEL_TEXT = 120;

/** Whether a line reads as a label with a number. Its beginning tells: most lines of a novel are asked this. */
function isLabelled(text: string, vocabulary: Vocabulary): boolean {
  return readHeading(text.slice(0, LABEL_TEXT), vocabulary).form === 'labelled';
}

const STRONG_LOOKS: ReadonlySet<string> = new Set(['bold', 'bigger than the text', 'underlined']);

function styleLevel(line: Line, base: Base, titled: boolean): number | null {
  const style = line.source.style;
  if (titled && style === 'Title') return 1;
  if (line.level !== null) return style !== null && /^(?:subtitle|toc )/i.test(style) ? null : line.level;
  if (style === null || style === base.style) return null;
  return HEADING_STYLE.test(style) && !NOT_HEADING_STYLE.test(style) ? 1 : null;
}

function looksOf(line: Line, base: Base, level: number | null): readonly string[] {
  const looks: string[] = [];
  if (level !== null) looks.push(`in the style ${line.source.style ?? `of level ${level}`}`);
  if (line.centred && !base.centred) looks.push('centred');
  if (line.bold && !base.bold) looks.push('bold');
  if (isBigger(line, base)) looks.push('bigger than the text');
  if (line.underline) looks.push('underlined');
  if (line.capitals && /\p{L}.*\p{L}.*\p{L}/su.test(line.plain)) looks.push('in capitals');
  if (line.smallCaps) looks.push('in small capitals');
  if (line.italic && !base.italic) looks.push('italic');
  return looks;
}

export function isBigger(line: Line, base: Base): boolean {
  return line.size !== null && line.size >= (base.size ?? USUAL_SIZE) * BIGGER;
}

function roomAbove(line: Line, at: number, base: Base): number {
  if (at === 0 || line.page || line.gap >= EMPTIES_AS_PAGE) return PAGE;
  const space = line.source.spaceBefore - base.spaceBefore;
  const blank = Math.max(0, line.gap - base.gap);
  return blank + (space >= 30 ? 3 : space >= 11 ? 1 : 0);
}

/** Capitals are left out: authors change their mind about them from chapter to chapter. */
function keyOf(line: Line, base: Base): string {
  const size =
    line.size === null || base.size === null || base.size === 0 ? 10 : Math.round((line.size / base.size) * 10);
  const style = line.source.style === base.style ? '' : (line.source.style ?? '');
  return [
    line.centred ? 'c' : line.atEnd ? 'e' : 's',
    line.bold ? 'b' : '',
    line.italic ? 'i' : '',
    line.underline ? 'u' : '',
    String(size),
    style,
  ].join('/');
}
