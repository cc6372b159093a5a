/**
 * Where a word may be divided. In: a word as it stands in the text, with whatever capitals, accents, apostrophes and
 * punctuation it carries; out: the places, as UTF-16 offsets before which a hyphen may be set. Nothing is cached: whoever
 * sets words keeps them with their places, and finding these costs no more than a look into a cache.
 */
import { type HyphenationLanguage, hyphenationLanguage, type PatternFile } from './languages.ts';
import { Alphabet, composedLetters, type LetterRun, letterRuns, lettersAfter, lettersBefore } from './letters.ts';
import { buildTrie, matchPatterns, type PatternTrie } from './trie.ts';

export interface Hyphenator {
  /** The tag of the patterns: `en-US`. */
  readonly language: string;
  /** Offsets in rising order; a hyphen may stand before each. Empty where the word is not to be divided. */
  breaks(word: string): readonly number[];
  /**
   * The same for a word as a stretch of UTF-16 units, without a string or a list being made: gives the number of places,
   * which stand in `places`, counted from the word's start, until the next word.
   */
  divide(units: Uint16Array, from: number, to: number): number;
  readonly places: Uint16Array;
  readonly tables: HyphenationTables;
}

/** What words of plain letters are divided by, for whoever divides all the words of a book. */
export interface HyphenationTables {
  /** Fewest letters before and after a hyphen. */
  readonly before: number;
  readonly after: number;
  /** The letter number of a word's end. */
  readonly end: number;
  /** For each UTF-16 unit below U+2100 its letter number, and 1 for a small letter of the patterns, 2 for a capital of one. */
  readonly numbers: Uint8Array;
  readonly cases: Uint8Array;
  readonly trie: PatternTrie;
  /** The hash of each word that is an exception: `hash * 31 + number` over its numbers with a word's end on either side. */
  readonly exceptions: Int32Array;
}

/** Units that the tables know. */
const TABLED = 0x2100;

const NONE: readonly number[] = [];
const SOFT_HYPHEN = 0xad;
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
  private readonly alphabet: Alphabet;
  private readonly exceptions: ReadonlyMap<string, readonly number[]>;
  /** `hashOf` of the exceptions, so that hardly any other word is looked up. */
  private readonly exceptionHashes = new Set<number>();
  readonly tables: HyphenationTables;
  places = new Uint16Array(64);
  private units = new Uint16Array(64);
  private word = new Uint16Array(128);
  private levels = new Uint8Array(129);

  constructor(
    private readonly minimums: HyphenationLanguage,
    file: PatternFile,
  ) {
    this.language = minimums.tag;
    this.trie = buildTrie(file.levels, file.tree);
    this.alphabet = new Alphabet(this.trie.letters);
    this.exceptions = readExceptions(file.exceptions);
    for (const word of this.exceptions.keys()) {
      const units = unitsOf(word);
      const length = this.alphabet.number(units, 0, word.length, this.roomFor(word.length));
      this.exceptionHashes.add(hashOf(this.word, length));
    }
    const { before, after } = minimums;
    const { end } = this.alphabet;
    const { numbers, cases } = this.alphabet.tables(TABLED);
    const exceptions = Int32Array.from(this.exceptionHashes);
    this.tables = { before, after, end, numbers, cases, trie: this.trie, exceptions };
  }

  breaks(word: string): readonly number[] {
    if (word.length > this.units.length) this.units = new Uint16Array(word.length * 2);
    for (let i = 0; i < word.length; i++) this.units[i] = word.charCodeAt(i);
    const count = this.divide(this.units, 0, word.length);
    return count === 0 ? NONE : Array.from(this.places.subarray(0, count));
  }

  divide(units: Uint16Array, from: number, to: number): number {
    if (to - from < this.minimums.before + this.minimums.after) return 0;
    if (to - from > this.places.length) this.places = new Uint16Array((to - from) * 2);
    const run = this.alphabet.plainRun(units, from, to);
    return run ? this.dividePlain(units, run, from) : this.divideOther(stringOf(units, from, to));
  }

  /** Most words: letters of the patterns, one unit each, between marks that are none. */
  private dividePlain(units: Uint16Array, { from, to }: LetterRun, start: number): number {
    const { before, after } = this.minimums;
    if (to - from < before + after) return 0;
    const length = this.alphabet.number(units, from, to, this.roomFor(to - from));
    if (this.exceptionHashes.has(hashOf(this.word, length))) {
      const exception = this.exceptions.get(stringOf(units, from, to).toLowerCase());
      if (exception) {
        const places = exception.filter((place) => place >= before && place <= to - from - after);
        return this.keep(places.map((place) => from - start + place));
      }
    }
    this.match(length);
    let count = 0;
    for (let place = before; place <= to - from - after; place++) {
      if (this.levels[place + 1]! & 1) this.places[count++] = from - start + place;
    }
    return count;
  }

  private divideOther(word: string): number {
    if (word.includes('\u00ad')) return this.keep(softHyphensOf(word));
    if (OWN_HYPHEN.test(word) || isAllCapitals(word)) return 0;
    const places: number[] = [];
    for (const run of letterRuns(word)) this.divideRun(word, run, places);
    return this.keep(places);
  }

  private keep(places: readonly number[]): number {
    this.places.set(places);
    return places.length;
  }

  /** A run is letters with inner apostrophes (`couldn’t`, `l’homme`). */
  private divideRun(word: string, run: LetterRun, places: number[]): void {
    const { letters, offsets } = composedLetters(word, run);
    if (letters.length < this.minimums.before + this.minimums.after) return;
    for (const place of this.placesOf(letters)) {
      if (this.mayDivide(letters, place)) places.push(offsets[place]!);
    }
  }

  /** Minimums count letters on the near side of an apostrophe only: `don’t` has three, not five. */
  private mayDivide(letters: string, place: number): boolean {
    return lettersBefore(letters, place) >= this.minimums.before && lettersAfter(letters, place) >= this.minimums.after;
  }

  private placesOf(letters: string): readonly number[] {
    const exception = this.exceptions.get(letters);
    if (exception) return exception;
    const units = unitsOf(letters);
    this.match(this.alphabet.number(units, 0, units.length, this.roomFor(units.length)));
    const places: number[] = [];
    for (let i = 1; i < letters.length; i++) if (this.levels[i + 1]! & 1) places.push(i);
    return places;
  }

  /** Room for the numbers of so many letters with a word end on either side. */
  private roomFor(letters: number): Uint16Array {
    const length = letters + 2;
    if (length > this.word.length) {
      this.word = new Uint16Array(length * 2);
      this.levels = new Uint8Array(length * 2 + 1);
    }
    return this.word;
  }

  /** Finds the levels of the numbered letters. */
  private match(length: number): void {
    this.levels.fill(0, 0, length + 1);
    matchPatterns(this.trie, this.word, length, this.levels);
  }
}

function stringOf(units: Uint16Array, from: number, to: number): string {
  let text = '';
  for (let i = from; i < to; i++) text += String.fromCharCode(units[i]!);
  return text;
}

function unitsOf(text: string): Uint16Array {
  return Uint16Array.from({ length: text.length }, (_, i) => text.charCodeAt(i));
}

function hashOf(word: Uint16Array, length: number): number {
  let hash = length;
  for (let i = 0; i < length; i++) hash = (Math.imul(hash, 31) + word[i]!) | 0;
  return hash;
}

/** The author's own marks take the place of the patterns; they are no part of the printed word. */
function softHyphensOf(word: string): readonly number[] {
  const places: number[] = [];
  for (let i = 1; i < word.length - 1; i++) if (word.charCodeAt(i) === SOFT_HYPHEN) places.push(i);
  return places;
}

/** Words in capitals are not divided (FACTS T-11). */
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
