/**
 * The words of all founts, shaped once and kept as columns of numbers: a novel has tens of thousands of them, and an object
 * with arrays for each is more than the collector and the processor's cache can bear. In: stretches of text without
 * spaces; out: ids, and by id the glyphs, the width and what breaking lines needs to know.
 */
import { PACKED, packGlyph } from '#page';
import type { Hyphenator, ShapedWords } from '#type';
import { grown } from '../grown.ts';
import { CutColumns } from './cutColumns.ts';
import type { Fount } from './fount.ts';
import { hangAtEnd, hangAtStart } from './hang.ts';
import { type RareWord, rareWord, SOFT_HYPHEN } from './rareWord.ts';
import { CAPITAL, HASH_PRIME, HASH_START, HYPHEN_END, nameOf, RARE, SENTENCE_END, traitsOf, WHOLE } from './traits.ts';

/** One word's lengths, `STRIDE` of them in `WordCase.lengths`, in text sizes. */
export const WIDTH = 0;
/**
 * How far its first and its last character hang out of a line that starts or ends with it: not at all in words that run to
 * the left, whose lines are not known to end where the margin is.
 */
export const HANG_START = 1;
export const HANG_END = 2;
export const STRIDE = 3;

/** In `whole` and `divided`: not yet asked for. */
export const UNKNOWN = -2;
/** No id, no list. */
export const NONE = -1;

/** Longest text whose clusters a packed glyph holds. */
const LONGEST = 0x7fff;
/** Words to a case: three long novels' worth. Then a new one is begun, and the old one goes with the last copy of it. */
const KEPT_WORDS = 100_000;
const FIRST_WORDS = 2048;

export class WordCase {
  /** Number of words; their ids run from 0. */
  count = 0;
  /** Whether some word has a character that no face has. */
  lacks = false;
  // By word.
  lengths = new Float64Array(FIRST_WORDS * STRIDE);
  /** Equal for words that read the same, whatever marks stand around them; 0 for none. */
  names = new Int32Array(FIRST_WORDS);
  traits = new Uint8Array(FIRST_WORDS);
  /** First cut of the lists of places at which the word can be cut: without and with added hyphens (see `cuts.ts`). */
  whole = new Int32Array(FIRST_WORDS).fill(UNKNOWN);
  divided = new Int32Array(FIRST_WORDS).fill(UNKNOWN);
  /** First glyph; the next word's is where the glyphs end. */
  firstGlyphs = new Int32Array(FIRST_WORDS + 1);
  /** First character; the next word's is where the characters end. */
  private firsts = new Int32Array(FIRST_WORDS + 1);
  /** Number of the fount, and in the lowest bit whether the word runs to the left. */
  private kinds = new Uint16Array(FIRST_WORDS);
  // By character and by glyph.
  private letters = new Uint16Array(FIRST_WORDS * 8);
  /** See `packGlyph`. */
  glyphs = new Int32Array(FIRST_WORDS * 8 * PACKED);
  /** See `Shaped.unsafe`. */
  unsafe = new Uint8Array(FIRST_WORDS * 8);

  readonly cuts = new CutColumns();

  private readonly rare = new Map<number, RareWord>();
  /** A hash table with linear probing: ids, -1 where free, and the hash of each. */
  private slots = new Int32Array(FIRST_WORDS * 2).fill(NONE);
  private hashes = new Int32Array(FIRST_WORDS * 2);
  /** Words before this one are shaped. */
  private shaped = 0;
  private bounds = new Int32Array(512);
  // The text that is being read.
  private text = '';
  private units: Uint16Array = new Uint16Array(0);
  private kind = 0;

  constructor(private readonly founts: readonly Fount[]) {}

  get isFull(): boolean {
    return this.count >= KEPT_WORDS;
  }

  /** Takes up a text, and its characters in an array, to find words in; gives what their hashes start with. */
  open(text: string, units: Uint16Array, fount: Fount, leftward: boolean): number {
    this.text = text;
    this.units = units;
    this.kind = fount.number * 2 + (leftward ? 1 : 0);
    return HASH_START ^ Math.imul(this.kind + 1, HASH_PRIME);
  }

  /**
   * The word that a stretch of the open text makes. A new one is not shaped before `shapeNew`. The hash goes over all its
   * characters; whoever looks for spaces reads them anyway.
   */
  word(from: number, to: number, charactersHash: number): number {
    // The low bits choose the slot: let the high ones take part.
    const hash = charactersHash ^ (charactersHash >>> 15);
    const mask = this.slots.length - 1;
    let slot = hash & mask;
    for (let id = this.slots[slot]!; id !== NONE; id = this.slots[slot]!) {
      if (this.hashes[slot] === hash && this.kinds[id] === this.kind && this.reads(id, from, to)) return id;
      slot = (slot + 1) & mask;
    }
    const id = this.add(from, to);
    this.slots[slot] = id;
    this.hashes[slot] = hash;
    if (this.count * 2 >= this.slots.length) this.widenTable();
    return id;
  }

  /** A word that is its whole text, shaped. */
  single(text: string, fount: Fount, leftward: boolean): number {
    const units = Uint16Array.from({ length: text.length }, (_, i) => text.charCodeAt(i));
    let hash = this.open(text, units, fount, leftward);
    for (const unit of units) hash = Math.imul(hash ^ unit, HASH_PRIME);
    const id = this.word(0, text.length, hash);
    this.shapeNew();
    return id;
  }

  /** Shapes all words found since the last time. */
  shapeNew(): void {
    while (this.shaped < this.count) {
      const kind = this.kinds[this.shaped]!;
      let end = this.shaped + 1;
      while (end < this.count && this.kinds[end] === kind) end++;
      this.shapeAlike(this.shaped, end);
      this.shaped = end;
    }
  }

  fount(id: number): Fount {
    return this.founts[this.kinds[id]! >> 1]!;
  }

  isLeftward(id: number): boolean {
    return (this.kinds[id]! & 1) === 1;
  }

  widthOf(id: number): number {
    return this.lengths[id * STRIDE + WIDTH]!;
  }

  /** The characters as they stand in the source. */
  token(id: number): string {
    const letters = this.letters.subarray(this.firsts[id]!, this.firsts[id + 1]!);
    // Spreading would walk the letters by an iterator, at ten times the cost.
    return Reflect.apply(String.fromCharCode, null, letters) as string;
  }

  /** Length in the source. */
  lengthOf(id: number): number {
    return this.firsts[id + 1]! - this.firsts[id]!;
  }

  /** What there is to know of a word that is more than letters and glyphs side by side; null for most. */
  rareOf(id: number): RareWord | null {
    return this.traits[id]! & RARE ? this.rare.get(id)! : null;
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
    return rare ? rare.text.charCodeAt(at) : this.letters[this.firsts[id]! + at]!;
  }

  /** Has a word of plain letters divided: see `Hyphenator.divide`. */
  divide(id: number, hyphenator: Hyphenator): number {
    return hyphenator.divide(this.letters, this.firsts[id]!, this.firsts[id + 1]!);
  }

  /** The source offset of an offset in a word's text. */
  sourceOf(id: number, at: number): number {
    const sources = this.rareOf(id)?.sources;
    return sources ? sources[at]! : at;
  }

  /** Whether a word's characters are a stretch of the open text. */
  private reads(id: number, from: number, to: number): boolean {
    const { firsts, letters, units } = this;
    let at = firsts[id]!;
    if (firsts[id + 1]! - at !== to - from) return false;
    for (let i = from; i < to; i++, at++) if (letters[at] !== units[i]) return false;
    return true;
  }

  private add(from: number, to: number): number {
    const id = this.count++;
    if (this.count > this.names.length) this.widenColumns();
    const first = this.firsts[id]!;
    const end = first + to - from;
    if (end > this.letters.length) this.letters = grown(this.letters, end);
    for (let i = from; i < to; i++) this.letters[first + i - from] = this.units[i]!;
    this.firsts[id + 1] = end;
    this.kinds[id] = this.kind;
    this.names[id] = nameOf(this.text, from, to);
    this.traits[id] = traitsOf(this.text, from, to);
    return id;
  }

  /** Shapes words of one fount and direction, the plain ones together. */
  private shapeAlike(first: number, end: number): void {
    const fount = this.fount(first);
    const leftward = this.isLeftward(first);
    if (this.bounds.length < (end - first) * 2) this.bounds = grown(this.bounds, (end - first) * 2);
    let count = 0;
    for (let id = first; id < end; id++) {
      if (!this.isPlain(id, fount)) {
        this.traits[id]! |= RARE;
        continue;
      }
      this.bounds[count * 2] = this.firsts[id]!;
      this.bounds[count * 2 + 1] = this.firsts[id + 1]!;
      count++;
    }
    const stretches = { units: this.letters, bounds: this.bounds, count };
    const shaped = fount.face.shapeWords(stretches, leftward ? fount.rightToLeft : fount.setting);
    count = 0;
    for (let id = first; id < end; id++) {
      this.firstGlyphs[id + 1] = this.firstGlyphs[id]!;
      const plain = !(this.traits[id]! & RARE);
      if (plain && shaped.moved[count] === 0) this.keepGlyphs(id, fount, shaped, count);
      else this.keepRare(id, fount, leftward);
      if (plain) count++;
      if (!leftward) this.keepHangs(id, fount);
    }
  }

  private keepHangs(id: number, fount: Fount): void {
    const length = this.textLengthOf(id);
    if (length === 0) return;
    this.lengths[id * STRIDE + HANG_START] = hangAtStart(fount, this.unitAt(id, 0));
    this.lengths[id * STRIDE + HANG_END] = hangAtEnd(fount, this.unitAt(id, length - 1));
  }

  /** Whether a word's glyphs are all in its fount's face and stand side by side as they come, as far as can be told. */
  private isPlain(id: number, fount: Fount): boolean {
    const { face, style, tracking } = fount;
    if (tracking !== 0 || style.letterCase !== 'asTyped' || this.lengthOf(id) > LONGEST) return false;
    for (let at = this.firsts[id]!; at < this.firsts[id + 1]!; at++) {
      const unit = this.letters[at]!;
      if (unit === SOFT_HYPHEN || (unit >= 0xd800 && unit < 0xe000) || !face.has(unit)) return false;
    }
    if (fount.hasJoints && fount.jointsIn(this.token(id)).length > 0) return false;
    return true;
  }

  private keepGlyphs(id: number, { scale }: Fount, shaped: ShapedWords, word: number): void {
    const from = shaped.starts[word]!;
    const count = shaped.counts[word]!;
    const first = this.firstGlyphs[id]!;
    if (first + count > this.unsafe.length) {
      this.unsafe = grown(this.unsafe, first + count);
      this.glyphs = grown(this.glyphs, this.unsafe.length * PACKED);
    }
    for (let i = 0; i < count; i++) {
      const at = from + i;
      packGlyph(this.glyphs, (first + i) * PACKED, shaped.glyphs[at]!, shaped.advances[at]!, shaped.clusters[at]!);
      this.unsafe[first + i] = shaped.unsafe[at]!;
    }
    this.firstGlyphs[id + 1] = first + count;
    this.lengths[id * STRIDE + WIDTH] = shaped.widths[word]! * scale;
  }

  private keepRare(id: number, fount: Fount, leftward: boolean): void {
    const word = rareWord(fount, leftward, this.token(id));
    const { text } = word;
    this.rare.set(id, word);
    if (word.missing.length > 0) this.lacks = true;
    this.names[id] = nameOf(text, 0, text.length);
    // What stands before and after a word is judged by the source, all else by the letters that show.
    const shown = WHOLE | CAPITAL | SENTENCE_END | HYPHEN_END;
    this.traits[id] = (this.traits[id]! & ~shown) | (traitsOf(text, 0, text.length) & shown) | RARE;
    this.lengths[id * STRIDE + WIDTH] = word.width;
  }

  private widenColumns(): void {
    const words = this.names.length + 1;
    this.names = grown(this.names, words);
    this.traits = grown(this.traits, words);
    this.kinds = grown(this.kinds, words);
    this.lengths = grown(this.lengths, words * STRIDE);
    this.firsts = grown(this.firsts, words + 1);
    this.firstGlyphs = grown(this.firstGlyphs, words + 1);
    const known = this.whole.length;
    this.whole = grown(this.whole, words).fill(UNKNOWN, known);
    this.divided = grown(this.divided, words).fill(UNKNOWN, known);
  }

  private widenTable(): void {
    const { slots, hashes } = this;
    this.slots = new Int32Array(slots.length * 2).fill(NONE);
    this.hashes = new Int32Array(slots.length * 2);
    const mask = this.slots.length - 1;
    for (let old = 0; old < slots.length; old++) {
      if (slots[old] === NONE) continue;
      let slot = hashes[old]! & mask;
      while (this.slots[slot] !== NONE) slot = (slot + 1) & mask;
      this.slots[slot] = slots[old]!;
      this.hashes[slot] = hashes[old]!;
    }
  }
}
