/**
 * How the author already sets quotation marks and dashes where he or she does it right. In: the lines; out: the style that
 * straight marks shall be turned into: the author's own, else the language's (FACTS of the trade: primary and nested
 * marks and dashes by language, as style guides give them).
 */
import type { Item } from '../collect/lines.ts';

export interface QuoteStyle {
  readonly open: string;
  readonly close: string;
  readonly innerOpen: string;
  readonly innerClose: string;
  /** Space inside the outer marks. */
  readonly inside: string;
}

export interface DashStyle {
  /** For hyphens with spaces around them; its own spaces with it. */
  readonly spaced: string;
  /** For doubled hyphens set close. */
  readonly close: string;
  /** The rare spaced en dash of an author who sets close em dashes is set like the others. */
  readonly unify: boolean;
  /** What a paragraph of speech begins with where a hyphen was typed; null where a hyphen stays. */
  readonly speech: string | null;
  /** Dashes cling to the narrator's words inside speech, as in Spanish. */
  readonly attached: boolean;
}

export interface Habits {
  readonly quotes: QuoteStyle;
  readonly dashes: DashStyle;
  /** French spacing before high punctuation. */
  readonly french: boolean;
}

const CURLY: QuoteStyle = { open: '\u201c', close: '\u201d', innerOpen: '\u2018', innerClose: '\u2019', inside: '' };
const GUILLEMETS: QuoteStyle = {
  open: '\u00ab',
  close: '\u00bb',
  innerOpen: '\u201c',
  innerClose: '\u201d',
  inside: '',
};
const FRENCH: QuoteStyle = { ...GUILLEMETS, inside: '\u00a0' };
const GERMAN: QuoteStyle = { open: '\u201e', close: '\u201c', innerOpen: '\u201a', innerClose: '\u2018', inside: '' };
const INVERTED: QuoteStyle = { open: '\u00bb', close: '\u00ab', innerOpen: '\u203a', innerClose: '\u2039', inside: '' };

const EM = '\u2014';
/** En dash that never begins a line. */
const SPACED_EN = '\u00a0\u2013 ';

const MARKS = /[\u201c\u201e\u00ab\u00bb\u2013\u2014]|(?<![\s-])--(?![\s-])/g;

/** Marks of one kind that show a habit. */
const ENOUGH = 8;

interface Seen {
  curly: number;
  low: number;
  guillemets: number;
  inverted: number;
  em: number;
  spacedEm: number;
  spacedEn: number;
}

export function habitsOf(items: readonly Item[], language: string): Habits {
  const seen = look(items);
  const [primary = 'en', region = ''] = language.toLowerCase().split('-');
  return {
    quotes: quotesFor(primary, region, seen),
    dashes: dashesFor(primary, region, seen),
    french: primary === 'fr' && region !== 'ca' && region !== 'ch',
  };
}

/** What a language usually wants, where no manuscript shows a habit: for text as it is typed. */
export function usualHabits(language: string): Habits {
  return habitsOf([], language);
}

function look(items: readonly Item[]): Seen {
  const seen: Seen = { curly: 0, low: 0, guillemets: 0, inverted: 0, em: 0, spacedEm: 0, spacedEn: 0 };
  for (const item of items) {
    if (item.kind !== 'line') continue;
    for (const match of item.plain.matchAll(MARKS)) note(seen, item.plain, match.index, match[0]);
  }
  return seen;
}

function note(seen: Seen, text: string, at: number, mark: string): void {
  const next = text[at + mark.length] ?? ' ';
  const spaced = /\s/.test(text[at - 1] ?? 'x') && /\s/.test(next);
  const opens = /[\p{L}\p{N}\u00a1\u00bf\u2026]/u.test(next);
  if (mark === '\u201c' && opens) seen.curly++;
  else if (mark === '\u201e') seen.low++;
  else if (mark === '\u00ab') seen.guillemets += opens || /\s/.test(next) ? 1 : 0;
  else if (mark === '\u00bb' && opens) seen.inverted++;
  else if (mark === '--') seen.em++;
  else if (mark === EM) seen[spaced ? 'spacedEm' : 'em']++;
  else if (mark === '\u2013' && spaced) seen.spacedEn++;
}

function quotesFor(primary: string, region: string, seen: Seen): QuoteStyle {
  const most = Math.max(seen.curly, seen.low, seen.guillemets, seen.inverted);
  if (most >= ENOUGH && primary !== 'en') {
    if (most === seen.low) return GERMAN;
    if (most === seen.inverted) return INVERTED;
    if (most === seen.guillemets) return primary === 'fr' ? FRENCH : GUILLEMETS;
    return CURLY;
  }
  if (primary === 'fr') return region === 'ch' ? GUILLEMETS : FRENCH;
  if (primary === 'de') return region === 'ch' ? GUILLEMETS : GERMAN;
  return CURLY;
}

/** Regions whose houses set a spaced en dash. */
const BRITISH = new Set(['gb', 'ie', 'au', 'nz', 'za', 'in']);

function dashesFor(primary: string, region: string, seen: Seen): DashStyle {
  const speech = speechDash(primary);
  const attached = primary === 'es';
  const most = Math.max(seen.em, seen.spacedEm, seen.spacedEn);
  if (most >= ENOUGH) {
    const own = most === seen.em ? EM : most === seen.spacedEm ? `\u00a0${EM} ` : SPACED_EN;
    return { spaced: own, close: own, unify: own === EM && seen.em >= 3 * seen.spacedEn, speech, attached };
  }
  if (primary === 'de' || primary === 'nl' || primary === 'fr')
    return { spaced: SPACED_EN, close: SPACED_EN, unify: false, speech, attached };
  const british = primary === 'en' && BRITISH.has(region);
  return { spaced: british ? SPACED_EN : EM, close: EM, unify: false, speech, attached };
}

/** The dash before a speaker's words, where the language opens speech so. */
function speechDash(primary: string): string | null {
  if (primary === 'es') return EM;
  return primary === 'fr' || primary === 'pt' || primary === 'it' ? `${EM}\u00a0` : null;
}
