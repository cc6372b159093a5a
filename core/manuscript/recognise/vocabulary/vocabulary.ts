/**
 * What headings are called, language by language. In: a language tag; out: the words that name chapters, parts and
 * matter, and the numerals written as words. The lists are data; everything that reads them is in `evidence`.
 */
import type { SectionKind } from '#book';
import { dutch } from './dutch.ts';
import { english } from './english.ts';
import { french } from './french.ts';
import { german } from './german.ts';
import { italian } from './italian.ts';
import { ELSEWHERE } from './labels.ts';
import { portuguese } from './portuguese.ts';
import { spanish } from './spanish.ts';
import type { Words } from './words.ts';

/** The vocabulary used for one manuscript. */
export interface Vocabulary {
  readonly words: Words;
  readonly labels: ReadonlyMap<string, SectionKind>;
  readonly matter: ReadonlyMap<string, SectionKind>;
  readonly begins: readonly (readonly [string, SectionKind])[];
  readonly articles: ReadonlySet<string>;
  readonly numbers: ReadonlyMap<string, number>;
}

export const LANGUAGES: readonly Words[] = [english, french, german, spanish, italian, portuguese, dutch];

/** The vocabulary of a language; labels of other languages are understood as well, for they seldom mislead. */
export function vocabularyFor(language: string): Vocabulary {
  const primary = language.toLowerCase().split('-')[0];
  const words = LANGUAGES.find((each) => each.language === primary) ?? english;
  const labels = new Map<string, SectionKind>(Object.entries(ELSEWHERE));
  const matter = new Map<string, SectionKind>();
  const begins: [string, SectionKind][] = [];
  for (const each of [...LANGUAGES.filter((other) => other !== words), words]) {
    const own = each === words;
    for (const [label, kind] of Object.entries(each.labels)) labels.set(label, kind);
    for (const [kind, phrases] of Object.entries(each.matter)) {
      for (const phrase of phrases) if (own || !matter.has(phrase)) matter.set(phrase, kind as SectionKind);
    }
    if (!own && each !== english) continue;
    for (const [kind, phrases] of Object.entries(each.begins)) {
      for (const phrase of phrases) begins.push([phrase, kind as SectionKind]);
    }
  }
  return { words, labels, matter, begins, articles: new Set(words.articles), numbers: words.numbers() };
}

/** Lower case, accents off, white space single: the form in which words are compared. */
export function fold(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{M}+/gu, '')
    .replace(/[\u2018\u2019\u02bc]/g, "'")
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();
}
