/**
 * Which patterns serve which language, and how few letters may stand before and after a hyphen. In: a BCP 47 tag; out: a
 * loader and the minimums.
 */
import type { PatternBranch } from './trie.ts';

export interface PatternFile {
  readonly levels: readonly (readonly number[])[];
  readonly tree: PatternBranch;
  /** Words with their hyphens' places in the hyphenated word: `ta-ble` is 2, `as-so-ciate` 2 and 5. */
  readonly exceptions: Readonly<Record<string, readonly number[]>>;
}

export interface HyphenationLanguage {
  readonly tag: string;
  /** Fewest letters before a hyphen. */
  readonly before: number;
  /** Fewest letters after a hyphen. */
  readonly after: number;
  readonly load: () => Promise<PatternFile>;
}

type PatternModule = { readonly default: unknown };

/** Minimums: English by FACTS T-07, the others those of the TeX language files (FACTS T-12, from memory). */
const LANGUAGES: readonly HyphenationLanguage[] = [
  language('en-US', 2, 3, () => import('hyphen/patterns/en-us.js')),
  language('en-GB', 2, 3, () => import('hyphen/patterns/en-gb.js')),
  language('fr', 2, 3, () => import('hyphen/patterns/fr.js')),
  language('de', 2, 2, () => import('hyphen/patterns/de-1996.js')),
  language('es', 2, 2, () => import('hyphen/patterns/es.js')),
  language('it', 2, 2, () => import('hyphen/patterns/it.js')),
  language('pt', 2, 3, () => import('hyphen/patterns/pt.js')),
  language('nl', 2, 2, () => import('hyphen/patterns/nl.js')),
  language('sv', 2, 2, () => import('hyphen/patterns/sv.js')),
  language('da', 2, 2, () => import('hyphen/patterns/da.js')),
  language('fi', 2, 2, () => import('hyphen/patterns/fi.js')),
  language('pl', 2, 2, () => import('hyphen/patterns/pl.js')),
  language('cs', 2, 3, () => import('hyphen/patterns/cs.js')),
  language('ro', 2, 2, () => import('hyphen/patterns/ro.js')),
  language('ca', 2, 2, () => import('hyphen/patterns/ca.js')),
  language('hr', 2, 2, () => import('hyphen/patterns/hr.js')),
  language('tr', 2, 2, () => import('hyphen/patterns/tr.js')),
  language('el', 1, 1, () => import('hyphen/patterns/el-monoton.js')),
  language('la', 2, 2, () => import('hyphen/patterns/la.js')),
  language('ru', 2, 2, () => import('hyphen/patterns/ru.js')),
];

/** English of lands that spell the British way. */
const BRITISH_REGIONS = ['gb', 'uk', 'ie', 'au', 'nz', 'za', 'in'];

/** The hyphenation of a language, null where there are no patterns for it. */
export function hyphenationLanguage(tag: string): HyphenationLanguage | null {
  const parts = tag.toLowerCase().split(/[-_]/);
  const wanted = parts[0] === 'en' ? englishOf(parts) : parts[0];
  return LANGUAGES.find((entry) => entry.tag.toLowerCase() === wanted) ?? null;
}

function englishOf(parts: readonly string[]): string {
  return parts.some((part) => BRITISH_REGIONS.includes(part)) ? 'en-gb' : 'en-us';
}

function language(tag: string, before: number, after: number, file: () => Promise<PatternModule>): HyphenationLanguage {
  return { tag, before, after, load: async () => patternFile((await file()).default) };
}

/** The package's three-part array, by name. */
function patternFile(raw: unknown): PatternFile {
  const [levels, tree, exceptions] = raw as readonly [
    PatternFile['levels'],
    PatternFile['tree'],
    PatternFile['exceptions'],
  ];
  return { levels, tree, exceptions };
}
