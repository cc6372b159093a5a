/**
 * Where a line may end inside a word or between two: Unicode line breaking (UAX #14) with the house's rules on top. In:
 * words as they stand in the text; out: places and whether they are good. Words of plain Latin letters and common marks
 * take a short cut that a test holds to the full rules.
 */
import { Rules } from '@cto.af/linebreak';

const rules = new Rules();

const EN_DASH = '\u2013';
const EM_DASH = '\u2014';
/** Dashes that stay with the word before them. */
const DASHES = `${EM_DASH}\u2015\u2e3a\u2e3b`;
const HYPHENS = '-\u2010';
/** What must not begin a line. */
const CLOSING = '.,;:!?\u2026)]}\u2019\u201d\u00bb\u203a%';
const OPENING = '([{\u2018\u201c\u00ab\u2039\u201e\u201a\u00bf\u00a1"\'';

/** What a break inside a word looks like. */
export type CutKind = 'hyphen' | 'dash' | 'other';

export interface Opportunity {
  /** UTF-16 offset before which the line may end. */
  readonly at: number;
  readonly kind: CutKind;
}

const NONE: readonly Opportunity[] = [];

/** Quotation marks that open. */
const QUOTES = '\u201c\u2018\u00ab\u2039';
/** Those that close. */
const CLOSING_QUOTES = '\u2019\u201d';
const NARROW_SPACE = 0x202f;

/** 1 for characters at which nothing can break inside a word, whatever of them stands beside them. */
const PLAIN = new Uint8Array(0x2100);
for (let unit = 0x41; unit <= 0x5a; unit++) PLAIN[unit] = PLAIN[unit + 0x20] = 1;
for (let unit = 0x30; unit <= 0x39; unit++) PLAIN[unit] = 1;
for (let unit = 0xc0; unit <= 0x24f; unit++) if (unit !== 0xd7 && unit !== 0xf7) PLAIN[unit] = 1;
for (const mark of '.,:;\'"\u2019\u201d\u00bb\u203a\u202f') PLAIN[mark.charCodeAt(0)] = 1;
/** Those and marks that hold at the start or the end of a word. */
const PLAIN_FIRST = PLAIN.slice();
for (const mark of '(\u201c\u2018\u201e\u201a\u00ab\u2039') PLAIN_FIRST[mark.charCodeAt(0)] = 1;
const PLAIN_LAST = PLAIN.slice();
for (const mark of ')!?\u201c\u2018\u00ab\u2039') PLAIN_LAST[mark.charCodeAt(0)] = 1;

/** The places inside a word (a stretch without spaces) where a line may end. */
export function cutsOf(word: string): readonly Opportunity[] {
  if (isPlain(word, 0, word.length)) return NONE;
  return plainCuts(word) ?? allCuts(word);
}

function allCuts(word: string): readonly Opportunity[] {
  const cuts: Opportunity[] = [];
  const permitted = new Set<number>();
  for (const { position } of rules.breaks(word)) permitted.add(position);
  for (let at = 1; at < word.length; at++) {
    if (!permitted.has(at) && !isBeforeSpeech(word, at)) continue;
    if (allows(word, at)) cuts.push({ at, kind: kindOf(word, at) });
  }
  return cuts;
}

/** After a dash a line may end also where speech opens, which Unicode forbids before all quotation marks. */
function isBeforeSpeech(word: string, at: number): boolean {
  return word[at - 1] === EM_DASH && QUOTES.includes(word[at]!) && startsPlainly(word, at, word.length);
}

/**
 * The cuts of plain words that single hyphens and em dashes join, perhaps with a dash before them or at their end; null
 * where it takes a closer look.
 */
function plainCuts(word: string): readonly Opportunity[] | null {
  const cuts: Opportunity[] = [];
  let from = word[0] === EM_DASH && startsPlainly(word, 1, word.length) ? 1 : 0;
  for (let i = from; i < word.length; i++) {
    const unit = word.charCodeAt(i);
    if (unit !== 0x2d && unit !== 0x2014) continue;
    if (i === from || !isPlain(word, from, i)) return null;
    if (unit === 0x2014 && endsPlainly(word, 0, i) && isClosed(word, i + 1)) return cuts;
    if (!joins(word, i)) return null;
    from = i + 1;
    if (allows(word, from)) cuts.push({ at: from, kind: unit === 0x2d ? 'hyphen' : 'dash' });
  }
  return from > 0 && isPlain(word, from, word.length) ? cuts : null;
}

/** Whether nothing but closing quotation marks follows. */
function isClosed(word: string, from: number): boolean {
  for (let i = from; i < word.length; i++) if (!CLOSING_QUOTES.includes(word[i]!)) return false;
  return true;
}

/** Whether a hyphen stands between letters, or a dash between a word with its marks and the start of another. */
function joins(word: string, at: number): boolean {
  if (word[at] === '-') return isLetter(word.charCodeAt(at - 1)) && isLetter(word.charCodeAt(at + 1));
  return endsPlainly(word, 0, at) && startsPlainly(word, at + 1, word.length);
}

function isLetter(unit: number): boolean {
  return PLAIN[unit] === 1 && unit >= 0x41 && !(unit >= 0x2000);
}

/** Whether a word, a stretch of a text, has nothing in it at which it could break. */
export function isPlain(word: string, start: number, end: number): boolean {
  const last = end - 1;
  let from = start;
  while (from < last && PLAIN_FIRST[word.charCodeAt(from)] === 1 && PLAIN[word.charCodeAt(from)] !== 1) from++;
  let to = last;
  // Closing marks, each alone or before quotation marks; letters follow none of them.
  while (to > from && PLAIN_LAST[word.charCodeAt(to)] === 1 && isMark(word.charCodeAt(to))) to--;
  for (let i = from; i <= to; i++) if (PLAIN[word.charCodeAt(i)] !== 1) return false;
  return true;
}

function isMark(unit: number): boolean {
  return unit < 0x30 || (unit >= 0x3a && unit < 0x41) || unit >= 0x2000 || unit === 0xab || unit === 0xbb;
}

/** Whether a line may end at the spaces between two words. */
export function mayBreakAtSpace(before: string, after: string): boolean {
  if (before === '' || after === '') return true;
  if (isLoneDash(after)) return false;
  if (clings(before, 0, before.length) && /^[\p{Lu}\p{N}]|^\p{L}\./u.test(after)) return false;
  if (endsPlainly(before, 0, before.length) && startsPlainly(after, 0, after.length)) return true;
  return breaksAt(`${before} ${after}`, before.length + 1);
}

/** Forms of address, which stay with the name after them, with and without a full stop. */
const ADDRESSES = /^(?:Mr|Mrs|Ms|Dr|St|Ste|Prof|Rev|Hon|Capt|Messrs|MM|Mmes?|Mlles?|Mgr|Hr|Fr)\.?$/;
/** An initial, or a short form of one letter: `M. Hale`, `z. B.`, `p. 12` (FACTS T-49). */
const ONE_LETTER = /^\p{L}\.$/u;
const LONGEST_FORM = 7;

/** Whether a name, letter or number after a word has to stay on its line. */
export function clings(word: string, from: number, to: number): boolean {
  let start = from;
  while (start < to && OPENING.includes(word.charAt(start))) start++;
  if (to - start < 2 || to - start > LONGEST_FORM) return false;
  const form = word.slice(start, to);
  return ONE_LETTER.test(form) || ADDRESSES.test(form);
}

/** Whether a word ends in a letter, digit or closing mark: after these a line may end at any space. */
export function endsPlainly(word: string, from: number, to: number): boolean {
  const last = word.charCodeAt(to - 1);
  if (last === 0x2026 || last === 0x2014) return true;
  if (PLAIN_LAST[last] !== 1 || last === NARROW_SPACE) return false;
  // A mark that opens elsewhere closes here where it follows a letter: German quotation marks.
  if (PLAIN_FIRST[last] !== 1 || PLAIN[last] === 1) return true;
  return to - 2 >= from && isLetterOrDigit(word.charCodeAt(to - 2));
}

/** Whether a word starts with a letter or digit, perhaps after one quotation mark or parenthesis: with these a line may begin after any space. */
export function startsPlainly(word: string, from: number, to: number): boolean {
  const first = word.charCodeAt(from);
  if (isLetterOrDigit(first)) return true;
  const opens = PLAIN_FIRST[first] === 1 && PLAIN[first] !== 1;
  if (!opens && first !== 0x2019 && first !== 0xbb && first !== 0x203a) return false;
  if (from + 1 >= to) return false;
  const second = word.charCodeAt(from + 1);
  return isLetterOrDigit(second) || (opens && second === NARROW_SPACE);
}

function isLetterOrDigit(unit: number): boolean {
  return PLAIN[unit] === 1 && !isMark(unit);
}

/** Whether a line may end between two stretches that touch (where the style changes), and how. */
export function jointOf(before: string, after: string): CutKind | null {
  if (before === '' || after === '') return null;
  if (PLAIN[before.charCodeAt(before.length - 1)] === 1 && PLAIN[after.charCodeAt(0)] === 1) return null;
  const joined = before + after;
  if (!breaksAt(joined, before.length) || !allows(joined, before.length)) return null;
  return kindOf(joined, before.length);
}

function breaksAt(text: string, at: number): boolean {
  for (const { position } of rules.breaks(text)) if (position === at) return true;
  return false;
}

/** A dash with spaces on both sides, which stays with the word before it. */
export function isLoneDash(word: string): boolean {
  return word === EN_DASH || word === EM_DASH;
}

/** The house's rules: what Unicode permits and a compositor does not. */
function allows(text: string, at: number): boolean {
  const before = text[at - 1]!;
  const after = text[at]!;
  if (DASHES.includes(after) || CLOSING.includes(after)) return false;
  if (before === EN_DASH && isDigit(text[at - 2]) && isDigit(after)) return false;
  if (DASHES.includes(before)) return !opens(text.slice(0, at - 1));
  if (HYPHENS.includes(before)) return at >= 3 && text.length - at >= 2;
  return true;
}

/** Whether a dash would stand first: after nothing, or after opening marks and dashes only. */
function opens(text: string): boolean {
  for (const mark of text) if (!OPENING.includes(mark) && !DASHES.includes(mark)) return false;
  return true;
}

function isDigit(character: string | undefined): boolean {
  return character !== undefined && character >= '0' && character <= '9';
}

function kindOf(text: string, at: number): CutKind {
  const before = text[at - 1]!;
  if (HYPHENS.includes(before)) return 'hyphen';
  return DASHES.includes(before) || before === EN_DASH ? 'dash' : 'other';
}
