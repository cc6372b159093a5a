/**
 * A word: text without spaces in one style, shaped. In: a fount and the characters; out: glyphs by face, the width, and
 * what breaking lines needs to know of the word. Words are kept for as long as their fount lives.
 */
import type { Fount } from './fount.ts';
import { GlyphStore } from './glyphStore.ts';
import type { CutKind } from './opportunities.ts';
import { type Lack, type Segment, segmentsOf, widthOf } from './segments.ts';

/** A place at which a word can be cut. */
export interface Cut {
  /** Offset in the word's text. */
  readonly at: number;
  /** `divided`: a hyphen is added; `torn`: an emergency; the others are breaks that the text itself offers. */
  readonly kind: CutKind | 'divided' | 'torn';
  /** Width of the word up to here, as part of the whole. */
  readonly width: number;
  /** What cutting here adds to the first part, and to the rest. */
  readonly end: number;
  readonly start: number;
  /** True where the division stands inside a compound that has a hyphen of its own. */
  readonly compound: boolean;
}

export interface Word {
  readonly kind: 'word';
  readonly fount: Fount;
  /** Whether it runs from right to left. */
  readonly leftward: boolean;
  /** The characters as they stand in the source. */
  readonly token: string;
  /** The characters as shaped: soft hyphens left out, letters mapped to the style's case. */
  readonly text: string;
  /** Length in the source text. */
  readonly length: number;
  /** For each offset in `text` the offset in the source, and the length at the end; null where they are the same. */
  readonly sources: readonly number[] | null;
  readonly segments: readonly Segment[];
  /** The glyphs of a word of one face that takes no letterspace, packed; null for any other. */
  readonly block: Int32Array | null;
  /** Their place in the block, and their number. */
  readonly first: number;
  readonly glyphs: number;
  /** With letterspacing, also after the last letter. */
  readonly width: number;
  /** Places where the text itself lets a line end, and those where a hyphen may be set; null until asked for. */
  cuts: readonly Cut[] | null;
  divisions: readonly Cut[] | null;
  readonly softHyphens: readonly number[];
  /** Equal for words that read the same, whatever marks stand around them; 0 for none. */
  readonly name: number;
  readonly capital: boolean;
  readonly missing: readonly Lack[] | null;
}

const SOFT_HYPHEN = '\u00ad';
const NO_PLACES: readonly number[] = [];
/** Words that a fount keeps: three long novels' worth. */
const KEPT_WORDS = 100_000;
const FIRST_SLOTS = 1024;
/** FNV-1a, 32 bits. */
const HASH_START = 0x811c9dc5 | 0;
const HASH_PRIME = 0x01000193;

/**
 * The words set in one fount: a hash table with linear probing over stretches of text, so that a word met before is
 * found without a string being made of it.
 */
export class WordCase {
  private words: (Word | null)[] = emptySlots(FIRST_SLOTS);
  private hashes = new Int32Array(FIRST_SLOTS);
  private count = 0;
  private readonly store = new GlyphStore();

  constructor(
    private readonly fount: Fount,
    private readonly leftward: boolean,
  ) {}

  /** The word that a stretch of text without spaces makes, shaped. */
  word(text: string, from: number, to: number): Word {
    const hash = hashOf(text, from, to);
    const mask = this.words.length - 1;
    let slot = hash & mask;
    for (let word = this.words[slot]; word; word = this.words[slot]) {
      if (this.hashes[slot] === hash && reads(word.token, text, from, to)) return word;
      slot = (slot + 1) & mask;
    }
    const word = makeWord(this.fount, this.leftward, this.store, text.slice(from, to));
    this.keep(word, hash);
    return word;
  }

  private keep(word: Word, hash: number): void {
    if (this.count >= KEPT_WORDS) this.resize(FIRST_SLOTS, false);
    else if (this.count * 2 >= this.words.length) this.resize(this.words.length * 2, true);
    this.insert(word, hash);
    this.count++;
  }

  private insert(word: Word, hash: number): void {
    const mask = this.words.length - 1;
    let slot = hash & mask;
    while (this.words[slot]) slot = (slot + 1) & mask;
    this.words[slot] = word;
    this.hashes[slot] = hash;
  }

  private resize(slots: number, keep: boolean): void {
    const { words, hashes } = this;
    this.words = emptySlots(slots);
    this.hashes = new Int32Array(slots);
    if (!keep) {
      this.count = 0;
      return;
    }
    for (let slot = 0; slot < words.length; slot++) {
      const word = words[slot];
      if (word) this.insert(word, hashes[slot]!);
    }
  }
}

function emptySlots(slots: number): (Word | null)[] {
  return new Array<Word | null>(slots).fill(null);
}

function hashOf(text: string, from: number, to: number): number {
  let hash = HASH_START;
  for (let i = from; i < to; i++) hash = Math.imul(hash ^ text.charCodeAt(i), HASH_PRIME);
  // The low bits choose the slot: let the high ones take part.
  return hash ^ (hash >>> 15);
}

/** Whether a token reads like a stretch of text. */
function reads(token: string, text: string, from: number, to: number): boolean {
  if (token.length !== to - from) return false;
  for (let i = 0; i < token.length; i++) if (token.charCodeAt(i) !== text.charCodeAt(from + i)) return false;
  return true;
}

const rightwardCases = new WeakMap<Fount, WordCase>();
const leftwardCases = new WeakMap<Fount, WordCase>();

/** The words of a fount that run in one direction. */
export function caseOf(fount: Fount, leftward: boolean): WordCase {
  const cases = leftward ? leftwardCases : rightwardCases;
  let found = cases.get(fount);
  if (!found) {
    found = new WordCase(fount, leftward);
    cases.set(fount, found);
  }
  return found;
}

function makeWord(fount: Fount, leftward: boolean, store: GlyphStore, token: string): Word {
  const { text, sources, softHyphens } = mapped(fount, token);
  const missing: Lack[] = [];
  const segments = segmentsOf(fount, text, leftward, missing);
  const only = segments.length === 1 && segments[0]!.face === fount.face && fount.tracking === 0 ? segments[0]! : null;
  const packed = only && store.keep(only.shaped);
  return {
    kind: 'word',
    fount,
    leftward,
    token,
    text,
    length: token.length,
    sources,
    segments,
    block: packed ? packed.block : null,
    first: packed ? packed.from : 0,
    glyphs: only ? only.shaped.glyphs.length : 0,
    width: widthOf(fount, segments),
    cuts: null,
    divisions: null,
    softHyphens,
    name: nameOf(text),
    capital: isCapital(text),
    missing: missing.length > 0 ? missing : null,
  };
}

/** The source offset of an offset in a word's text. */
export function sourceOf(word: Word, at: number): number {
  return word.sources ? word.sources[at]! : at;
}

/** The token as it is shaped: soft hyphens taken out, case mapped. */
function mapped(fount: Fount, token: string): Pick<Word, 'text' | 'sources' | 'softHyphens'> {
  const { letterCase } = fount.style;
  const cased = letterCase === 'asTyped' ? token : lettersOf(token, letterCase);
  if (cased.length === token.length && !token.includes(SOFT_HYPHEN)) {
    return { text: cased, sources: null, softHyphens: NO_PLACES };
  }
  let text = '';
  const sources: number[] = [];
  const softHyphens: number[] = [];
  let at = 0;
  for (const character of token) {
    if (character === SOFT_HYPHEN) {
      if (text.length > 0 && at + 1 < token.length) softHyphens.push(text.length);
    } else {
      const letters = letterCase === 'asTyped' ? character : lettersOf(character, letterCase);
      for (let i = 0; i < letters.length; i++) sources.push(at);
      text += letters;
    }
    at += character.length;
  }
  sources.push(token.length);
  return { text, sources, softHyphens };
}

function lettersOf(text: string, letterCase: 'upper' | 'lower'): string {
  return letterCase === 'upper' ? text.toUpperCase() : text.toLowerCase();
}

/**
 * A number for the letters of a word (FNV-1a, 32 bits): equal for equal words, and all but never for different ones; a
 * mistake costs no more than a slightly worse line.
 */
function nameOf(text: string): number {
  let hash = HASH_START;
  let letters = 0;
  for (let i = 0; i < text.length; i++) {
    let unit = text.charCodeAt(i);
    if (unit >= 0x41 && unit <= 0x5a) unit += 0x20;
    if (unit < 0x30 || (unit > 0x39 && unit < 0x61) || (unit >= 0x2000 && unit < 0x2070)) continue;
    hash = Math.imul(hash ^ unit, HASH_PRIME);
    letters++;
  }
  return letters === 0 ? 0 : hash | 1;
}

function isCapital(text: string): boolean {
  const first = text.charCodeAt(0);
  if (first >= 0x61 && first <= 0x7a) return false;
  const letter = text.match(/\p{L}/u)?.[0];
  return letter !== undefined && letter !== letter.toLowerCase();
}
