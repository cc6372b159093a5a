/**
 * Where a word may be divided. In: a word as it stands in the text, with whatever capitals, accents, apostrophes and
 * punctuation it carries; out: the places, as UTF-16 offsets before which a hyphen may be set. Words are cached.
 */
import { type HyphenationLanguage, hyphenationLanguage, type PatternFile } from './languages.ts';
import { buildTrie, matchPatterns, type PatternTrie } from './trie.ts';

export interface Hyphenator {
  /** The tag of the patterns: `en-US`. */
  readonly language: string;
  /** Offsets in rising order; a hyphen may stand before each. Empty where the word is not to be divided. */
  breaks(word: string): readonly number[];
}

const NONE: readonly number[] = [];
/** Distinct words kept: three long novels' worth. */
const CACHE_LIMIT = 100_000;
const SOFT_HYPHEN = 0xad;
const APOSTROPHE = 0x27;
const CURLY_APOSTROPHE = 0x2019;
const FULL_STOP = 0x2e;
const MARK_OR_LETTER = /[\p{L}\p{M}]/u;
const COMBINING = /\p{M}/u;
/** A hyphen or dash that stands in the word: it is divided there and nowhere else. */
const OWN_HYPHEN = /[\p{L}\p{N}][-\u2010\u2011\u2013\u2014]+[\p{L}\p{N}]/u;

/** Loads a language's patterns; null where there are none, so that its words stay whole. */
export async function loadHyphenator(language: string): Promise<Hyphenator | null> {
  const found = hyphenationLanguage(language);
  if (!found) return null;
  return new PatternHyphenator(found, await found.load());
}

class PatternHyphenator implements Hyphenator {
  readonly language: string;
  private readonly trie: PatternTrie;
  private readonly exceptions: ReadonlyMap<string, readonly number[]>;
  private readonly cache = new Map<string, readonly number[]>();
  private word = new Uint16Array(128);
  private levels = new Uint8Array(128);

  constructor(
    private readonly minimums: HyphenationLanguage,
    file: PatternFile,
  ) {
    this.language = minimums.tag;
    this.trie = buildTrie(file.levels, file.tree);
    this.exceptions = readExceptions(file.exceptions);
  }

  breaks(word: string): readonly number[] {
    const known = this.cache.get(word);
    if (known) return known;
    const places = this.divide(word);
    if (this.cache.size >= CACHE_LIMIT) this.cache.clear();
    this.cache.set(word, places);
    return places;
  }

  private divide(word: string): readonly number[] {
    if (word.length < this.minimums.before + this.minimums.after) return NONE;
    if (word.includes('\u00ad')) return softHyphensOf(word);
    if (OWN_HYPHEN.test(word) || isAllCapitals(word)) return NONE;
    const places: number[] = [];
    for (const run of letterRuns(word)) this.divideRun(word, run, places);
    return places.length === 0 ? NONE : places;
  }

  /** A run is letters with inner apostrophes (`couldn’t`, `l’homme`). */
  private divideRun(word: string, run: LetterRun, places: number[]): void {
    const { letters, offsets } = composedLetters(word, run);
    if (letters.length < this.minimums.before + this.minimums.after) return;
    for (const place of this.exceptions.get(letters) ?? this.patternPlaces(letters)) {
      if (this.mayDivide(letters, place)) places.push(offsets[place]!);
    }
  }

  /** Minimums count letters on the near side of an apostrophe only: `don’t` has three, not five. */
  private mayDivide(letters: string, place: number): boolean {
    return lettersBefore(letters, place) >= this.minimums.before && lettersAfter(letters, place) >= this.minimums.after;
  }

  private patternPlaces(letters: string): readonly number[] {
    const length = letters.length + 2;
    if (length > this.word.length) {
      this.word = new Uint16Array(length * 2);
      this.levels = new Uint8Array(length * 2 + 1);
    }
    this.numberLetters(letters);
    this.levels.fill(0, 0, length + 1);
    matchPatterns(this.trie, this.word, length, this.levels);
    const places: number[] = [];
    for (let i = 1; i < letters.length; i++) if (this.levels[i + 1]! & 1) places.push(i);
    return places;
  }

  private numberLetters(letters: string): void {
    const { trie, word } = this;
    const end = trie.letters.get(FULL_STOP) ?? 0;
    word[0] = end;
    for (let i = 0; i < letters.length; i++) word[i + 1] = this.numberOf(letters.charCodeAt(i));
    word[letters.length + 1] = end;
  }

  /** Letters that no pattern knows (é in English) are tried without their accent. */
  private numberOf(unit: number): number {
    const { letters } = this.trie;
    const known = letters.get(unit);
    if (known !== undefined) return known;
    if (unit === APOSTROPHE) return letters.get(CURLY_APOSTROPHE) ?? 0;
    return unit < 0x80 ? 0 : (letters.get(String.fromCharCode(unit).normalize('NFD').charCodeAt(0)) ?? 0);
  }
}

interface LetterRun {
  readonly from: number;
  readonly to: number;
}

function letterRuns(word: string): readonly LetterRun[] {
  const runs: LetterRun[] = [];
  let from = -1;
  for (let i = 0; i <= word.length; i++) {
    const inside = i < word.length && (isLetter(word, i) || isInnerApostrophe(word, i));
    if (inside && from < 0) from = i;
    if (!inside && from >= 0) {
      runs.push({ from, to: i });
      from = -1;
    }
  }
  return runs;
}

function isInnerApostrophe(word: string, i: number): boolean {
  const unit = word.charCodeAt(i);
  if (unit !== APOSTROPHE && unit !== CURLY_APOSTROPHE) return false;
  return i > 0 && i + 1 < word.length && isLetter(word, i - 1) && isLetter(word, i + 1);
}

function isLetter(word: string, i: number): boolean {
  const unit = word.charCodeAt(i);
  if (unit < 0x80) return (unit | 0x20) >= 0x61 && (unit | 0x20) <= 0x7a;
  return MARK_OR_LETTER.test(word[i]!);
}

/** Small letters, one unit each and composed, with the offset in the word at which each begins. */
function composedLetters(word: string, run: LetterRun): { letters: string; offsets: number[] } {
  const offsets: number[] = [];
  let letters = '';
  for (let i = run.from; i < run.to; ) {
    let next = i + 1;
    while (next < run.to && word.charCodeAt(next) >= 0x300 && COMBINING.test(word[next]!)) next++;
    letters += smallLetter(word, i, next);
    offsets.push(i);
    i = next;
  }
  return { letters, offsets };
}

function smallLetter(word: string, from: number, to: number): string {
  const unit = word.charCodeAt(from);
  if (to === from + 1 && unit < 0x80)
    return unit >= 0x41 && unit <= 0x5a ? String.fromCharCode(unit | 0x20) : word[from]!;
  if (unit === CURLY_APOSTROPHE) return "'";
  const small = word.slice(from, to).normalize('NFC').toLowerCase();
  return small.length === 1 ? small : small[0]!;
}

function lettersBefore(letters: string, place: number): number {
  let count = 0;
  for (let i = place - 1; i >= 0 && letters.charCodeAt(i) !== APOSTROPHE; i--) count++;
  return count;
}

function lettersAfter(letters: string, place: number): number {
  let count = 0;
  for (let i = place; i < letters.length && letters.charCodeAt(i) !== APOSTROPHE; i++) count++;
  return count;
}

/** The author's own marks take the place of the patterns; they are no part of the printed word. */
function softHyphensOf(word: string): readonly number[] {
  const places: number[] = [];
  for (let i = 1; i < word.length - 1; i++) if (word.charCodeAt(i) === SOFT_HYPHEN) places.push(i);
  return places;
}

/** words in capitals are not divided. */
function isAllCapitals(word: string): boolean {
  return /\p{Lu}\P{Ll}*\p{Lu}/u.test(word) && !/\p{Ll}/u.test(word);
}

/** Places in the hyphenated word, as places in the word itself: the n-th hyphen has n before it. */
function readExceptions(raw: PatternFile['exceptions']): ReadonlyMap<string, readonly number[]> {
  const exceptions = new Map<string, readonly number[]>();
  for (const word of Object.keys(raw)) {
    exceptions.set(
      word,
      raw[word]!.map((place, hyphensBefore) => place - hyphensBefore),
    );
  }
  return exceptions;
}
