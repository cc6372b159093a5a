/**
 * Words shaped together: one call for all that a paragraph brings takes a fifth less time than one for each. In: stretches
 * of UTF-16 units; out: for each the very glyphs that it has when shaped alone.
 *
 * The words stand in one text with a noncharacter between them, which no font maps and no rule names. HarfBuzz flags each
 * place at which text can't be cut without shaping anew; a word with a flag at either of its ends has touched its neighbour
 * after all, and is shaped again by itself. So is from the start whatever has more than letters and signs that stand by
 * themselves: HarfBuzz treats a whole text otherwise where marks or invisible characters occur in it, and flags nothing.
 */
import {
  CLUSTER,
  type CompiledSetting,
  FLAGS,
  MOST_UNITS,
  OFFSET_X,
  OFFSET_Y,
  RECORD,
  RIGHT_TO_LEFT,
  type ShaperFont,
  type ShapingBuffer,
  UNSAFE_TO_BREAK,
} from './buffer.ts';
import type { ShapedWords, WordStretches } from './face.ts';
import { scriptOfUnits } from './script.ts';

const SEPARATOR = 0xffff;

/** One job at a time; everything handed out is written over by the next. */
export class WordShaper implements ShapedWords {
  starts = new Int32Array(256);
  counts = new Int32Array(256);
  widths = new Int32Array(256);
  moved = new Uint8Array(256);
  glyphs = new Uint16Array(2048);
  advances = new Int32Array(2048);
  clusters = new Uint16Array(2048);
  unsafe = new Uint8Array(2048);
  /** Glyphs written. */
  private used = 0;
  /** Place of each word in the text that holds all. */
  private places = new Int32Array(256);
  private font!: ShaperFont;
  private setting!: CompiledSetting;

  constructor(private readonly buffer: ShapingBuffer) {}

  shape(words: WordStretches, font: ShaperFont, setting: CompiledSetting): ShapedWords {
    this.font = font;
    this.setting = setting;
    this.used = 0;
    this.makeRoom(words.count);
    for (let first = 0; first < words.count; ) first = this.next(words, first);
    return this;
  }

  /** Shapes as many words as go in one text; gives the first that did not. */
  private next(words: WordStretches, first: number): number {
    const { bounds, units } = words;
    const script = scriptOfUnits(units, bounds[first * 2]!, bounds[first * 2 + 1]!);
    let end = first;
    let length = 0;
    for (; end < words.count; end++) {
      const [from, to] = [bounds[end * 2]!, bounds[end * 2 + 1]!];
      const next = length + to - from + 1;
      const joins = isOrdinary(units, from, to) && scriptOfUnits(units, from, to) === script && next <= MOST_UNITS;
      if (!joins) break;
      this.places[end] = length;
      length = next;
    }
    // Right-to-left text comes out in the opposite order: not worth the care that it would take.
    if (end - first > 1 && this.setting.direction !== RIGHT_TO_LEFT) {
      this.together(words, { first, end, length, script });
      return end;
    }
    this.alone(words, first, script);
    return first + 1;
  }

  private together(words: WordStretches, of: { first: number; end: number; length: number; script: number }): void {
    const { buffer } = this;
    const start = buffer.open(of.length);
    const { units } = buffer;
    for (let word = of.first; word < of.end; word++) {
      let at = start + this.places[word]!;
      for (let i = words.bounds[word * 2]!; i < words.bounds[word * 2 + 1]!; i++) units[at++] = words.units[i]!;
      units[at] = SEPARATOR;
    }
    buffer.shape(this.font, of.length - 1, of.script, this.setting);
    this.makeGlyphRoom(buffer.glyphs);
    let glyph = 0;
    for (let word = of.first; word < of.end; word++) glyph = this.read(words, word, glyph);
    for (let word = of.first; word < of.end; word++)
      if (this.counts[word] === TOUCHED) this.alone(words, word, of.script);
  }

  /** Reads a word's glyphs out of the common text; gives the first glyph of the next word. */
  private read({ bounds }: WordStretches, word: number, first: number): number {
    const { infos, glyphs } = this.buffer;
    const memory = this.buffer.words;
    const place = this.places[word]!;
    const end = place + bounds[word * 2 + 1]! - bounds[word * 2]!;
    let to = first;
    while (to < glyphs && memory[infos + to * RECORD + CLUSTER]! < end) to++;
    const stands = to > first && memory[infos + first * RECORD + CLUSTER] === place && isSafe(memory, infos, first);
    let next = to;
    while (next < glyphs && memory[infos + next * RECORD + CLUSTER] === end) next++;
    // The separator's glyph, where there is one, by itself and untouched.
    const ends = to === glyphs || (next === to + 1 && isSafe(memory, infos, to));
    if (stands && ends) this.copy(word, place, first, to);
    else this.counts[word] = TOUCHED;
    return next;
  }

  private alone({ units, bounds }: WordStretches, word: number, script: number): void {
    const { buffer } = this;
    const from = bounds[word * 2]!;
    const length = bounds[word * 2 + 1]! - from;
    const start = buffer.open(length);
    const target = buffer.units;
    for (let i = 0; i < length; i++) target[start + i] = units[from + i]!;
    buffer.shape(this.font, length, script, this.setting);
    this.makeGlyphRoom(buffer.glyphs);
    this.copy(word, 0, 0, buffer.glyphs);
  }

  /** Copies a stretch of the buffer's glyphs. */
  private copy(word: number, place: number, first: number, end: number): void {
    const { infos, positions, words: memory } = this.buffer;
    const { glyphs, advances, clusters, unsafe } = this;
    let at = this.used;
    let width = 0;
    let moved = 0;
    this.starts[word] = at;
    for (let glyph = first; glyph < end; glyph++, at++) {
      const info = infos + glyph * RECORD;
      const position = positions + glyph * RECORD;
      glyphs[at] = memory[info]!;
      unsafe[at] = memory[info + FLAGS]! & UNSAFE_TO_BREAK;
      clusters[at] = memory[info + CLUSTER]! - place;
      advances[at] = memory[position]!;
      width += memory[position]!;
      moved |= memory[position + OFFSET_X]! | memory[position + OFFSET_Y]!;
    }
    this.used = at;
    this.counts[word] = end - first;
    this.widths[word] = width;
    this.moved[word] = moved === 0 ? 0 : 1;
  }

  private makeRoom(words: number): void {
    if (words <= this.starts.length) return;
    this.starts = new Int32Array(words * 2);
    this.counts = new Int32Array(words * 2);
    this.widths = new Int32Array(words * 2);
    this.moved = new Uint8Array(words * 2);
    this.places = new Int32Array(words * 2);
  }

  private makeGlyphRoom(more: number): void {
    const wanted = this.used + more;
    if (wanted <= this.glyphs.length) return;
    const { glyphs, advances, clusters, unsafe } = this;
    this.glyphs = new Uint16Array(wanted * 2);
    this.glyphs.set(glyphs);
    this.advances = new Int32Array(wanted * 2);
    this.advances.set(advances);
    this.clusters = new Uint16Array(wanted * 2);
    this.clusters.set(clusters);
    this.unsafe = new Uint8Array(wanted * 2);
    this.unsafe.set(unsafe);
  }
}

/** In place of the number of glyphs: the word has touched a neighbour. */
const TOUCHED = -1;

/**
 * Whether all characters are letters and signs that stand by themselves: of Latin, Greek, Cyrillic and Armenian, figures,
 * punctuation and currency; no combining marks, no joiners, no soft hyphens.
 */
function isOrdinary(units: Uint16Array, from: number, to: number): boolean {
  for (let i = from; i < to; i++) {
    const unit = units[i]!;
    if (unit < 0x300 ? unit === 0xad : !isOrdinaryBeyondLatin(unit)) return false;
  }
  return true;
}

function isOrdinaryBeyondLatin(unit: number): boolean {
  if (unit < 0x590) return (unit >= 0x370 && unit < 0x483) || unit >= 0x48a;
  if (unit < 0x2000) return unit >= 0x1e00;
  return (unit >= 0x2010 && unit < 0x2028) || (unit >= 0x2030 && unit < 0x205f) || (unit >= 0x20a0 && unit < 0x20d0);
}

function isSafe(memory: Int32Array, infos: number, glyph: number): boolean {
  return (memory[infos + glyph * RECORD + FLAGS]! & UNSAFE_TO_BREAK) === 0;
}
