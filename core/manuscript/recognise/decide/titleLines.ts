/** Lines of title pages. In: a line or its words; out: whether it can stand on one, and what it is there. */
import type { Line } from '../collect/lines.ts';
import { squeeze } from '../evidence/contents.ts';

/** Words of the longest line that can be a title or a subtitle. */
const LONGEST_LINE = 20;

/** Notes, pictures and sentences are text, wherever they stand. */
export function fitsTitlePage(line: Line): boolean {
  return line.words <= LONGEST_LINE && line.rich.leaves.length === 0 && !line.listed;
}

/** No sentence and no inscription: capitalised, without a stop, upright unless it stands out otherwise. */
export function isBareTitleLine(line: Line): boolean {
  if (!fitsTitlePage(line) || !/^[^\p{L}\p{N}]*[\p{Lu}\p{N}]/u.test(line.plain)) return false;
  const stands = line.bold || line.capitals || line.level !== null;
  return stands || (!line.italic && !/[.,;:]$/.test(line.plain.trim()));
}

export function sameWords(one: string, other: string): boolean {
  return squeeze(one) === squeeze(other) && squeeze(one) !== '';
}

/** The line in the biggest letters; of equals the first, bold before plain. */
export function tallest(lines: readonly (readonly [number, Line])[]): number {
  let best = 0;
  const weight = (line: Line): number =>
    (line.size ?? 0) * 4 + (line.bold ? 2 : 0) + (line.capitals ? 1 : 0) + (line.centred ? 2 : 0);
  lines.forEach(([, line], at) => {
    const current = lines[best]?.[1];
    if (current !== undefined && weight(line) > weight(current)) best = at;
  });
  return best;
}

/** What a line names before a colon, as forms of submission ask for it: "Title: The Lamp". */
export interface Particular {
  /** null where it is none of the book's: a genre, a count of words. */
  readonly name: 'title' | 'subtitle' | 'author' | null;
  readonly value: string;
}

const LABELLED = /^(\p{L}[\p{L} -]{2,24}):\s+(\S.*)$/su;
const NAMES = {
  title: /^(?:book )?(?:title|titel|titre|t[i\u00ed]tulo|titolo)$/i,
  subtitle: /^(?:subtitle|untertitel|sous-titre|subt[i\u00ed]tulo|sottotitolo|ondertitel)$/i,
  author: /^(?:(?:author|autor|autorin|autora|auteur|autrice|autore|auteure)(?: name)?|pen name)$/i,
} as const;

/** The particular that a line names, null where it names none. */
export function particularOf(text: string): Particular | null {
  const [, label, value = ''] = LABELLED.exec(text.trim()) ?? [];
  if (label === undefined) return null;
  const name = (['title', 'subtitle', 'author'] as const).find((each) => NAMES[each].test(label));
  return { name: name ?? null, value };
}

/** What subtitles begin with and names hardly do. */
export const ARTICLES: ReadonlySet<string> = new Set(
  'the a an der die das ein eine le les un une el los las una il lo os het een'.split(' '),
);

const CONTACT =
  /@|https?:|www\.|\b\+?\d[\d\s().-]{6,}\d\b|^\s*(?:approx|about|circa|env|ca)?\.?\s*[\d.,\s\u00a0]{3,}\s*(?:words|mots|w\u00f6rter|worte|palabras|parole|palavras|woorden)|^\d+\s+\p{Lu}|\bword count\b|\b(?:agent|agency)\b|^(?:tel|phone|e-?mail)\b/iu;

export function isContact(text: string): boolean {
  return CONTACT.test(text.slice(0, 200));
}

/** A name, or names: "Ada Quill and Joren Vale". */
export function looksLikeName(text: string): boolean {
  return text.split(/\s*(?:;|,|&|\s(?:and|und|et|y|e|en)\s)\s*/u).every(isNameLike);
}

function isNameLike(text: string): boolean {
  const words = text.split(/\s+/);
  return (
    words.length >= 2 &&
    words.length <= 5 &&
    words.every((word) => /^(?:\p{Lu}|(?:de|von|van|da|di|du|der|la|le)$)/u.test(word))
  );
}
