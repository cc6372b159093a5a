/**
 * The words of all founts, shaped once and kept as columns of numbers in a kernel: a novel has tens of thousands of them,
 * and an object with arrays for each is more than the collector and the processor's cache can bear. In: texts; out: ids,
 * and by id the glyphs, the width and what breaking lines needs to know. What is rare about a word is kept here.
 */
import type { ShapedWords, WordsUnderWay } from '#type';
import { type KernelHost, type ParagraphKernel, startKernel } from '../kernel/kernel.ts';
import type { Fount } from './fount.ts';
import { hangAtEnd, hangAtStart } from './hang.ts';
import { KnownFounts } from './knownFounts.ts';
import { type RareWord, rareWord } from './rareWord.ts';
import { CAPITAL, HYPHEN_END, RARE, SENTENCE_END, traitsOf, WHOLE } from './traits.ts';

/** No id, no list. */
export const NONE = -1;

/** Words to a case: three long novels' worth. Then a new one is begun, and the old one goes with the last copy of it. */
const KEPT_WORDS = 100_000;

// A word in the kernel's memory (`kernel/assembly/words.ts`), counted in numbers of 64, 32 and 16 bits.
const NUMBERS = 7;
const WIDTH = 0;
const HANG_START = 1;
const HANG_END = 2;
const WORDS = 14;
const NAME = 6;
const FIRST_GLYPH = 9;
const FIRST_LETTER = 10;
const END_GLYPH = 11;
const UNITS = 28;
const KIND = 24;
const TRAITS = 25;

// A cut (`kernel/assembly/cuts.ts`).
const CUT_NUMBERS = 6;
const CUT_WORDS = 12;

/** The part of a copy that lists of breaks are made from. */
export interface HeldPieces {
  readonly count: number;
  readonly pieces: Int32Array;
}

/** Lengths in text sizes. */
export interface CutMeasure {
  /** Width of the word up to the cut, as part of the whole. */
  readonly width: number;
  /** What cutting adds to the first part, and to the rest. */
  readonly end: number;
  readonly start: number;
}

/** A place at which a word can be cut. */
export interface WordCut extends CutMeasure {
  /** Offset in the word's text. */
  readonly at: number;
  /** How it looks: see `cutKinds.ts`. */
  readonly kind: number;
}

/** New words from which another thread is set to work: fewer are shaped before it has heard of them. */
const WORTH_THE_WAY = 256;

/** Words of one fount and direction, and how many of them are plain. */
interface Batch {
  readonly first: number;
  readonly end: number;
  readonly plain: number;
  readonly words: WordsUnderWay;
}

export class WordCase {
  readonly kernel: ParagraphKernel;
  /** Whether some word has a character that no face has. */
  lacks = false;
  /** The text that is being read. */
  text = '';
  /** The copy whose pieces the kernel has. */
  held: HeldPieces | null = null;
  /** The glyphs of all words, packed (see `PACKED`). */
  glyphs = new Int32Array(0);
  /** First cuts of the lists that hold tears as well, by the word, and whether it may be divided. */
  readonly torn = new Map<string, number>();
  private readonly rare = new Map<number, RareWord>();
  private readonly introduced: KnownFounts;
  /** Founts before this one are known to the kernel, words before this one are shaped or under way. */
  private known = 0;
  private begun = 0;
  /** Words that another thread shapes, in their order. */
  private readonly underWay: Batch[] = [];
  /** Where words and letters begin in the kernel's memory, in numbers of their sizes. */
  private wordsAt8 = 0;
  private wordsAt4 = 0;
  private wordsAt2 = 0;
  private lettersAt2 = 0;

  constructor(
    private readonly founts: readonly Fount[],
    host: (words: WordCase) => KernelHost,
  ) {
    this.kernel = startKernel(host(this));
    this.introduced = new KnownFounts(this.kernel);
    this.renew();
  }

  /** Number of words; their ids run from 0. */
  get count(): number {
    return this.kernel.calls.wordCount();
  }

  get isFull(): boolean {
    return this.count >= KEPT_WORDS;
  }

  /** Looks anew where the words lie, if something has moved. To be called after whatever may move things in the kernel. */
  renew(): void {
    const { kernel } = this;
    if (!kernel.renew()) return;
    const { calls } = kernel;
    const words = calls.wordsAt();
    this.wordsAt8 = words >> 3;
    this.wordsAt4 = words >> 2;
    this.wordsAt2 = words >> 1;
    this.lettersAt2 = calls.lettersAt() >> 1;
    this.glyphs = new Int32Array(kernel.bytes.buffer as ArrayBuffer, calls.glyphsAt());
  }

  /** Hands a text to the kernel, of a fount that it then knows. */
  open(text: string, fount: Fount): void {
    while (this.known <= fount.number) this.introduced.introduce(this.founts[this.known++]!);
    this.text = text;
    const at = this.kernel.calls.textAt(text.length) >> 1;
    this.renew();
    const { units } = this.kernel;
    for (let i = 0; i < text.length; i++) units[at + i] = text.charCodeAt(i);
  }

  /** A word that is its whole text. A new one is not yet shaped. */
  single(text: string, fount: Fount, leftward: boolean): number {
    this.open(text, fount);
    return this.kernel.calls.wordOfText(text.length, kindOf(fount, leftward));
  }

  /** Shapes all words found since the last time. */
  shapeNew(): void {
    this.renew();
    const { count } = this;
    while (this.begun < count) {
      const first = this.begun;
      this.begun = this.kernel.calls.endOfKind(first);
      this.shapeAlike(first, this.begun);
    }
  }

  /** Has the words found since the last time shaped on another thread, if there is one and they are worth the way. */
  shapeAside(): void {
    this.renew();
    const { count } = this;
    if (count - this.begun < WORTH_THE_WAY) return;
    while (this.begun < count) {
      const first = this.begun;
      const end = this.kernel.calls.endOfKind(first);
      const { fount, setting, stretches } = this.plainWords(first, end);
      const words = fount.face.beginWords(stretches, setting);
      if (!words) return;
      this.underWay.push({ first, end, plain: stretches.count, words });
      this.begun = end;
    }
  }

  /** One past the last word that another thread shapes, 0 where there is none. */
  get underWayUpTo(): number {
    return this.underWay.at(-1)?.end ?? 0;
  }

  /** Sees to it that all words before one are shaped. */
  finishUpTo(word: number): void {
    if (this.begun < word) this.shapeNew();
    while (this.underWay.length > 0 && this.underWay[0]!.first < word) {
      const { first, end, plain, words } = this.underWay.shift()!;
      this.takeShaped(words.take(), plain);
      this.keep(first, end);
    }
  }

  /** Sees to it that the kernel has the pieces of a copy. */
  hold(copy: HeldPieces): void {
    if (this.held === copy) return;
    const at = this.kernel.calls.takePieces(copy.count) >> 2;
    this.renew();
    this.kernel.words.set(copy.pieces, at);
    this.held = copy;
  }

  fount(id: number): Fount {
    return this.founts[this.kindOf(id) >> 1]!;
  }

  fountOf(number: number): Fount {
    return this.founts[number]!;
  }

  isLeftward(id: number): boolean {
    return (this.kindOf(id) & 1) === 1;
  }

  widthOf(id: number): number {
    return this.kernel.numbers[this.wordsAt8 + id * NUMBERS + WIDTH]!;
  }

  /** See `traits.ts`. */
  traitsOf(id: number): number {
    return this.kernel.units[this.wordsAt2 + id * UNITS + TRAITS]!;
  }

  firstGlyph(id: number): number {
    return this.kernel.words[this.wordsAt4 + id * WORDS + FIRST_GLYPH]!;
  }

  /** One past the last glyph. */
  endGlyph(id: number): number {
    return this.kernel.words[this.wordsAt4 + id * WORDS + END_GLYPH]!;
  }

  /** The characters as they stand in the source. */
  token(id: number): string {
    const from = this.lettersAt2 + this.firstLetter(id);
    const letters = this.kernel.units.subarray(from, from + this.lengthOf(id));
    // Spreading would walk the letters by an iterator, at ten times the cost.
    return Reflect.apply(String.fromCharCode, null, letters) as string;
  }

  /** Length in the source. */
  lengthOf(id: number): number {
    return this.firstLetter(id + 1) - this.firstLetter(id);
  }

  /** What there is to know of a word that is more than letters and glyphs side by side; null for most. */
  rareOf(id: number): RareWord | null {
    return this.traitsOf(id) & RARE ? this.rare.get(id)! : null;
  }

  /** The characters as shaped. */
  textOf(id: number): string {
    return this.rareOf(id)?.text ?? this.token(id);
  }

  textLengthOf(id: number): number {
    return this.rareOf(id)?.text.length ?? this.lengthOf(id);
  }

  /** UTF-16 unit of the text as shaped. */
  unitAt(id: number, at: number): number {
    const rare = this.rareOf(id);
    return rare ? rare.text.charCodeAt(at) : this.kernel.units[this.lettersAt2 + this.firstLetter(id) + at]!;
  }

  /** Has a word of plain letters divided; gives the number of places, which the kernel then has. */
  divide(id: number): number {
    const { hyphenator } = this.fount(id);
    if (!hyphenator) return 0;
    const from = this.lettersAt2 + this.firstLetter(id);
    const count = hyphenator.divide(this.kernel.units, from, from + this.lengthOf(id));
    if (count === 0) return 0;
    const at = this.kernel.calls.placesAt(count) >> 1;
    this.renew();
    for (let i = 0; i < count; i++) this.kernel.units[at + i] = hyphenator.places[i]!;
    return count;
  }

  /** The source offset of an offset in a word's text. */
  sourceOf(id: number, at: number): number {
    const sources = this.rareOf(id)?.sources;
    return sources ? sources[at]! : at;
  }

  /** First of a word's cuts, `NONE` for a word without; with `divided` those where a hyphen may be added among them. */
  cutsIn(id: number, divided: boolean): number {
    const first = this.kernel.calls.cutsIn(id, divided);
    this.renew();
    return first;
  }

  cut(number: number): WordCut {
    const { kernel } = this;
    const at = kernel.calls.cutsAt();
    const numbers = (at >> 3) + number * CUT_NUMBERS;
    const words = (at >> 2) + number * CUT_WORDS;
    return {
      at: kernel.words[words + 10]!,
      kind: kernel.words[words + 11]!,
      width: kernel.numbers[numbers]!,
      end: kernel.numbers[numbers + 1]!,
      start: kernel.numbers[numbers + 2]!,
    };
  }

  /** Measures a cut of a word that is not rare. */
  measure(id: number, at: number, divided: boolean): CutMeasure {
    const place = this.kernel.calls.measure(id, at, divided) >> 3;
    this.renew();
    const { numbers } = this.kernel;
    return { width: numbers[place]!, end: numbers[place + 1]!, start: numbers[place + 2]! };
  }

  private firstLetter(id: number): number {
    return this.kernel.words[this.wordsAt4 + id * WORDS + FIRST_LETTER]!;
  }

  private kindOf(id: number): number {
    return this.kernel.units[this.wordsAt2 + id * UNITS + KIND]!;
  }

  /** Shapes words of one fount and direction, the plain ones together. */
  private shapeAlike(first: number, end: number): void {
    const { fount, setting, stretches } = this.plainWords(first, end);
    this.takeShaped(fount.face.shapeWords(stretches, setting), stretches.count);
    this.keep(first, end);
  }

  /** The plain ones among words of one fount and direction. */
  private plainWords(first: number, end: number) {
    const fount = this.fount(first);
    const setting = this.isLeftward(first) ? fount.rightToLeft : fount.setting;
    const { calls } = this.kernel;
    const count = calls.plainWords(first, end);
    this.renew();
    const { units, words } = this.kernel;
    const bounds = words.subarray(calls.boundsAt() >> 2);
    return { fount, setting, stretches: { units: units.subarray(this.lettersAt2), bounds, count } };
  }

  /** Keeps words of one fount and direction, the plain ones of which have been taken. */
  private keep(first: number, end: number): void {
    const { calls } = this.kernel;
    const rare = calls.keepWords(first, end);
    this.renew();
    if (rare === 0) return;
    const fount = this.fount(first);
    const leftward = this.isLeftward(first);
    const at = calls.boundsAt() >> 2;
    for (const id of this.kernel.words.slice(at, at + rare)) this.keepRare(id, fount, leftward);
  }

  /** Hands shaped words to the kernel, in the order of its `shapedAt`. */
  private takeShaped(shaped: ShapedWords, count: number): void {
    const glyphs = count === 0 ? 0 : shaped.starts[count - 1]! + shaped.counts[count - 1]!;
    let at = this.kernel.calls.shapedAt(count, glyphs);
    this.renew();
    const { bytes, units, words } = this.kernel;
    for (const column of [shaped.starts, shaped.counts, shaped.widths]) {
      words.set(column.subarray(0, count), at >> 2);
      at += count * 4;
    }
    words.set(shaped.advances.subarray(0, glyphs), at >> 2);
    at += glyphs * 4;
    for (const column of [shaped.glyphs, shaped.clusters]) {
      units.set(column.subarray(0, glyphs), at >> 1);
      at += glyphs * 2;
    }
    bytes.set(shaped.moved.subarray(0, count), at);
    bytes.set(shaped.unsafe.subarray(0, glyphs), at + count);
  }

  private keepRare(id: number, fount: Fount, leftward: boolean): void {
    const word = rareWord(fount, leftward, this.token(id));
    const { text } = word;
    this.rare.set(id, word);
    if (word.missing.length > 0) this.lacks = true;
    this.open(text, fount);
    const name = this.kernel.calls.nameOf(0, text.length);
    const { numbers, words, units } = this.kernel;
    words[this.wordsAt4 + id * WORDS + NAME] = name;
    // What stands before and after a word is judged by the source, all else by the letters that show.
    const shown = WHOLE | CAPITAL | SENTENCE_END | HYPHEN_END;
    const traits = (this.traitsOf(id) & ~shown) | (traitsOf(text, 0, text.length) & shown) | RARE;
    units[this.wordsAt2 + id * UNITS + TRAITS] = traits;
    const at = this.wordsAt8 + id * NUMBERS;
    numbers[at + WIDTH] = word.width;
    // Words that run to the left do not hang: where they stand, the margin is not known to be.
    if (leftward || text.length === 0) return;
    numbers[at + HANG_START] = hangAtStart(fount, text.charCodeAt(0));
    numbers[at + HANG_END] = hangAtEnd(fount, text.charCodeAt(text.length - 1));
  }
}

/** What the kernel calls the kind of a word. */
export function kindOf(fount: Fount, leftward: boolean): number {
  return fount.number * 2 + (leftward ? 1 : 0);
}
