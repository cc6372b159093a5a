/**
 * The book's language. In: what the file says and the words themselves; out: a BCP 47 tag. Word processors mark text
 * with the language of the computer, so the words decide between languages and the file only adds the region.
 */
import type { RawManuscript } from '../../raw.ts';
import { fold, LANGUAGES } from '../vocabulary/vocabulary.ts';
import type { Item } from './lines.ts';

/** Characters of text that are enough to know a language by. */
const SAMPLE = 60_000;

/** Share of stop words among all words below which the words say nothing. */
const CLEAR = 0.12;

export interface LanguageFound {
  readonly tag: string;
  /** What the file claims agrees with the words. */
  readonly trusted: boolean;
}

export function languageOf(raw: RawManuscript, items: readonly Item[]): LanguageFound {
  const claimed = claimedLanguage(raw, items);
  const spoken = spokenLanguage(items);
  if (spoken === null) return { tag: claimed ?? 'en', trusted: claimed !== null };
  if (claimed !== null && primary(claimed) === spoken) return { tag: claimed, trusted: true };
  const known = LANGUAGES.some((each) => each.language === primary(claimed ?? ''));
  if (claimed !== null && !known && primary(claimed) !== '') {
    const strong = scoreOf(sampleOf(items), spoken) > 0.2;
    return strong ? { tag: spoken, trusted: false } : { tag: claimed, trusted: true };
  }
  return { tag: spoken, trusted: claimed === null };
}

function primary(tag: string): string {
  return tag.toLowerCase().split('-')[0] ?? '';
}

function claimedLanguage(raw: RawManuscript, items: readonly Item[]): string | null {
  const weights = new Map<string, number>();
  let plain = 0;
  for (const item of items) {
    if (item.kind !== 'line') continue;
    let start = 0;
    item.rich.looks.forEach((look, run) => {
      const length = (item.rich.ends[run] ?? 0) - start;
      start = item.rich.ends[run] ?? 0;
      if (look.language === null) plain += length;
      else weights.set(look.language, (weights.get(look.language) ?? 0) + length);
    });
  }
  let best = raw.properties.language;
  let most = best === null ? 0 : plain;
  for (const [tag, weight] of weights) {
    if (weight > most) {
      best = tag;
      most = weight;
    }
  }
  return best !== null && /^[a-z]{2,3}(?:-[a-z0-9]{2,8})*$/i.test(best) ? best : null;
}

/** The language whose little words are most frequent, null where none stands out. */
function spokenLanguage(items: readonly Item[]): string | null {
  const words = sampleOf(items);
  let best: string | null = null;
  let most = CLEAR;
  for (const each of LANGUAGES) {
    const score = scoreOf(words, each.language);
    if (score > most) {
      best = each.language;
      most = score;
    }
  }
  return words.length >= 40 ? best : null;
}

function scoreOf(words: readonly string[], language: string): number {
  const stops = new Set(LANGUAGES.find((each) => each.language === language)?.stops ?? []);
  let hits = 0;
  for (const word of words) if (stops.has(word)) hits++;
  return words.length === 0 ? 0 : hits / words.length;
}

/** Words from the middle of the text, where it is no title page and no notice. */
function sampleOf(items: readonly Item[]): readonly string[] {
  const start = Math.floor(items.length / 4);
  const parts: string[] = [];
  let length = 0;
  for (let step = 0; step < items.length && length < SAMPLE; step++) {
    const item = items[(start + step) % items.length];
    if (item?.kind !== 'line') continue;
    parts.push(item.plain);
    length += item.plain.length;
  }
  return fold(parts.join(' ')).match(/\p{L}+/gu) ?? [];
}
