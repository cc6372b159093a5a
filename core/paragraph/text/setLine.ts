/**
 * A line is set. In: a stretch of copy and how its spaces and letters give; out: glyph runs on a page, one for each
 * stretch of one fount and face, with links and rules over them.
 */
import type { Points } from '#base';
import { PACKED, type PageBuilder, type RunStart } from '#page';
import type { FontFace } from '#type';
import type { Placing } from '../types.ts';
import {
  type Copy,
  HOLDING_SPACE,
  isFixedSpace,
  kindAt,
  LINE_BREAK,
  lengthAt,
  MARK,
  SPACE,
  spaceWidth,
  spanAt,
  valueAt,
  WORD,
} from './copy.ts';
import { partOf } from './cuts.ts';
import type { Fount } from './fount.ts';
import { takesSpace } from './letterspace.ts';
import { visualOrder } from './levels.ts';
import type { Segment } from './segments.ts';
import { endPiece, partAt, type Stretch } from './stretch.ts';
import { RARE } from './traits.ts';

/** How a line's spaces and letters give; lengths are shares of the text size. */
export interface Spacing {
  /** A space of a natural width becomes that width times `factor`, and `more`. */
  readonly factor: number;
  readonly more: number;
  /** Space added between the letters of plain words. */
  readonly letters: number;
  /** Factor on the width of glyphs. */
  readonly scale: number;
}

export const NATURAL: Spacing = { factor: 1, more: 0, letters: 0, scale: 1 };

/** What there is to write: a stretch, and how it gives. */
export interface LineToWrite {
  readonly stretch: Stretch;
  readonly spacing: Spacing;
  /** The text size. */
  readonly size: Points;
}

/** Writes stretches from left to right, one after the other: a book has tens of thousands of lines. */
class LineWriter {
  private stretch!: Stretch;
  private spacing = NATURAL;
  // Numbers that are none at first: so the fields are made for fractions, and are not new objects each time.
  private size = Number.NaN;
  private y = Number.NaN;
  private pen = Number.NaN;
  private page!: PageBuilder;
  private isFurniture = false;
  private face: FontFace | null = null;
  private fount: Fount | null = null;
  /** The run's text so far, but for the stretch of a span's text that is still growing. */
  private text = '';
  private length = 0;
  private shownSpan = -1;
  private shownFrom = 0;
  private shownTo = 0;
  /** The span whose link or strike is growing. */
  private overlay: { readonly span: number; readonly x: Points; readonly fount: Fount } | null = null;

  write({ stretch, spacing, size }: LineToWrite, x: Points, y: Points, page: PageBuilder, placing: Placing): void {
    this.stretch = stretch;
    this.spacing = spacing;
    this.size = size;
    this.page = page;
    this.isFurniture = placing.furniture === true;
    this.pen = x;
    this.y = y;
    this.begin();
    const { copy, fromPiece } = stretch;
    const end = endPiece(stretch);
    if (copy.directions) this.mixed(fromPiece, end, copy.directions.pieces);
    else if (spacing.letters === 0 && isAlike(copy) && fromPiece < end && !isFixedSpace(copy, fromPiece + 1))
      this.alike(fromPiece, end);
    else for (let index = fromPiece; index < end; index++) this.piece(index);
    this.endOverlay();
    this.endRun();
  }

  /** Whatever an earlier line left behind: it may have been broken off. */
  private begin(): void {
    this.face = null;
    this.fount = null;
    this.text = '';
    this.length = 0;
    this.shownSpan = -1;
    this.overlay = null;
  }

  private piece(index: number): void {
    const { copy } = this.stretch;
    const kind = kindAt(copy, index);
    if (kind === LINE_BREAK) return;
    if (kind === SPACE || kind === HOLDING_SPACE) this.space(index);
    else this.word(valueAt(copy, index), index);
  }

  /** Pieces of one span, as in nearly all lines: what they have in common is looked up once. */
  private alike(from: number, end: number): void {
    const { copy, fromPiece, fromCut, toPiece } = this.stretch;
    const { words, offsets } = copy;
    let { glyphs } = words;
    const fount = this.fountAt(from);
    const scale = fount.scale * this.spacing.scale * this.size;
    const gap = (fount.spaceWidth * this.spacing.factor + this.spacing.more) * this.size;
    // The pen and the length of the run's text in variables of their own: fields would be written for each piece.
    let { pen, length } = this;
    let first = -1;
    for (let index = from; index < end; index++) {
      const value = valueAt(copy, index);
      const isWord = kindAt(copy, index) === WORD;
      if (isWord && (index === toPiece || (index === fromPiece && fromCut > 0) || words.traitsOf(value) & RARE)) {
        if (first >= 0) this.showSource(first, index);
        first = -1;
        this.pen = pen;
        this.length = length;
        this.word(value, index);
        ({ pen, length } = this);
        // Parts of words are shaped and measured, and what is new may have moved what was there.
        ({ glyphs } = words);
        continue;
      }
      if (first < 0) {
        this.pen = pen;
        this.run(fount, fount.face, offsets[index]!);
        length = this.length;
        first = index;
      }
      if (isWord) {
        const glyph = words.firstGlyph(value);
        const count = words.endGlyph(value) - glyph;
        pen += this.page.append(glyphs, glyph * PACKED, count, scale, length);
        length += words.lengthOf(value);
      } else {
        this.page.glyph(fount.spaceGlyph, gap, length++);
        pen += gap;
      }
    }
    if (first >= 0) this.showSource(first, end);
    this.pen = pen;
    this.length = length;
  }

  /** The fount of a word or a space. */
  private fountAt(index: number): Fount {
    const { copy } = this.stretch;
    const value = valueAt(copy, index);
    return kindAt(copy, index) === WORD ? copy.words.fount(value) : copy.founts[value]!;
  }

  /**
   * Pieces in two directions, written as they stand from left to right: readers of PDF expect lines in this order, and
   * turn what runs to the left themselves. What runs to the left shares its run with nothing.
   */
  private mixed(from: number, end: number, levels: Uint8Array): void {
    for (const place of visualOrder(levels.subarray(from, end))) {
      const leftward = levels[from + place]! % 2 === 1;
      if (leftward) this.endRun();
      this.piece(from + place);
      if (leftward) this.endRun();
    }
  }

  private word(word: number, index: number): void {
    const { fromPiece, fromCut, toPiece, copy } = this.stretch;
    const { words } = copy;
    const fount = words.fount(word);
    if (copy.hasCovers) this.cover(index, fount);
    if (index === toPiece || (index === fromPiece && fromCut > 0)) this.part(word, index);
    else {
      const rare = words.rareOf(word);
      if (rare) this.segments(ordered(rare.segments, words.isLeftward(word)), fount, copy.offsets[index]!);
      else this.whole(word, index, fount);
    }
  }

  private whole(word: number, index: number, fount: Fount): void {
    const { copy } = this.stretch;
    const { glyphs } = copy.words;
    this.run(fount, fount.face, copy.offsets[index]!);
    const first = copy.words.firstGlyph(word);
    const end = copy.words.endGlyph(word);
    const scale = fount.scale * this.spacing.scale * this.size;
    if (this.spacing.letters === 0 || !takesSpace(copy, index)) {
      this.pen += this.page.append(glyphs, first * PACKED, end - first, scale, this.length);
    } else this.spaced(word, scale);
    const length = copy.words.lengthOf(word);
    // A note's mark reads otherwise than the one character that it takes in the text.
    if (kindAt(copy, index) === MARK) this.show(copy.words.token(word));
    else this.showSource(index, index + 1);
    this.length += length;
  }

  /** A word with space between its letters. */
  private spaced(word: number, scale: number): void {
    const { words } = this.stretch.copy;
    const { glyphs } = words;
    const each = this.spacing.letters * this.size;
    const end = words.endGlyph(word);
    for (let glyph = words.firstGlyph(word); glyph < end; glyph++) {
      const packed = glyph * PACKED;
      const apart = glyph + 1 < end && glyphs[packed]! >>> 16 !== glyphs[packed + PACKED]! >>> 16;
      const advance = glyphs[packed + 1]! * scale + (apart ? each : 0);
      this.page.glyph(glyphs[packed]! & 0xffff, advance, this.length + (glyphs[packed]! >>> 16));
      this.pen += advance;
    }
  }

  private part(word: number, index: number): void {
    const { copy } = this.stretch;
    const { words } = copy;
    const part = partAt(this.stretch, index);
    const { toPiece, firstPart, lastPart } = this.stretch;
    const shaped = (index === toPiece ? lastPart : firstPart) ?? partOf(words, word, part);
    const segments = ordered(shaped, words.isLeftward(word));
    this.segments(segments, words.fount(word), copy.offsets[index]! + words.sourceOf(word, part.from));
    if (part.hyphen) this.text = `${this.text.slice(0, -1)}\u00ad`;
  }

  private segments(segments: readonly Segment[], fount: Fount, offset: number): void {
    for (const segment of segments) {
      this.run(fount, segment.face, offset + segment.from);
      this.glyphs(segment, fount);
    }
  }

  private glyphs({ shaped, scale }: Segment, { tracking }: Fount): void {
    const { glyphs, advances, offsets, clusters } = shaped;
    const { page, size } = this;
    const wide = scale * this.spacing.scale * size;
    const base = this.length;
    this.length += shaped.text.length;
    this.show(shaped.text);
    for (let i = 0; i < glyphs.length; i++) {
      let advance = advances[i]! * wide;
      if (tracking !== 0 && clusters[i] !== clusters[i + 1]) advance += tracking * this.spacing.scale * size;
      page.glyph(glyphs[i]!, advance, base + clusters[i]!);
      if (offsets) page.offsetLast(offsets[i * 2]! * wide, -offsets[i * 2 + 1]! * scale * size);
      this.pen += advance;
    }
  }

  private space(index: number): void {
    const { copy } = this.stretch;
    const fount = copy.founts[valueAt(copy, index)]!;
    if (copy.hasCovers) this.cover(index, fount);
    this.run(fount, fount.face, copy.offsets[index]!);
    const { factor, more } = this.spacing;
    const width = spaceWidth(copy, index);
    const advance = (isFixedSpace(copy, index) ? width : width * factor + more) * this.size;
    this.page.glyph(fount.spaceGlyph, advance, this.length++);
    this.showSource(index, index + 1);
    this.pen += advance;
  }

  /** Adds pieces of one span to the run's text, as they stand there: most runs are one stretch of a span's text. */
  private showSource(first: number, end: number): void {
    const { copy } = this.stretch;
    const span = spanAt(copy, first);
    const from = copy.offsets[first]!;
    if (span !== this.shownSpan || from !== this.shownTo) {
      this.takeShown();
      this.shownSpan = span;
      this.shownFrom = from;
    }
    this.shownTo = copy.offsets[end - 1]! + lengthAt(copy, end - 1);
  }

  private show(text: string): void {
    this.takeShown();
    this.text += text;
  }

  private takeShown(): void {
    if (this.shownSpan < 0) return;
    const span = this.stretch.copy.text.spans[this.shownSpan]!;
    if (span.kind !== 'lineBreak') {
      const text = span.text.slice(this.shownFrom - span.offset, this.shownTo - span.offset);
      this.text += TAB_OR_NEW_LINE.test(text) ? text.replace(/[\t\n]/g, ' ') : text;
    }
    this.shownSpan = -1;
  }

  /** Sees to it that a run of a fount and face is open. */
  private run(fount: Fount, face: FontFace, offset: number): void {
    if (this.fount === fount && this.face === face) return;
    this.endRun();
    this.fount = fount;
    this.face = face;
    this.start(fount, face, offset);
  }

  private start({ style }: Fount, face: FontFace, offset: number): void {
    const { block } = this.stretch.copy.text;
    const { scale } = this.spacing;
    const size = style.size * this.size;
    const y = this.y - style.rise * this.size;
    if (block !== '' && style.grey === 0 && scale !== 1 && !this.isFurniture) {
      // As nearly all lines of a book: made in one go.
      const at = { block, offset };
      const { pen: x } = this;
      this.page.openRun({ kind: 'glyphs', face: face.id, size, x, y, at, scale, start: 0, count: 0, text: '' });
      return;
    }
    const start: { -readonly [Key in keyof RunStart]: RunStart[Key] } = { face: face.id, size, x: this.pen, y };
    if (block !== '') start.at = { block, offset };
    if (style.grey !== 0) start.grey = style.grey;
    if (scale !== 1) start.scale = scale;
    if (this.isFurniture) start.furniture = true;
    this.page.beginRun(start);
  }

  private endRun(): void {
    this.takeShown();
    if (this.fount) this.page.endRun(this.text);
    this.text = '';
    this.length = 0;
    this.fount = null;
    this.face = null;
  }

  /** Links and strikes lie over stretches of a span: ends the one before where another span begins. */
  private cover(index: number, fount: Fount): void {
    const span = spanAt(this.stretch.copy, index);
    if (this.overlay?.span === span) return;
    this.endOverlay();
    this.overlay = { span, x: this.pen, fount };
  }

  private endOverlay(): void {
    if (!this.overlay) return;
    const { span: index, x, fount } = this.overlay;
    this.overlay = null;
    const span = this.stretch.copy.text.spans[index]!;
    const width = this.pen - x;
    if (width <= 0) return;
    const { face, style } = fount;
    const scale = fount.scale * this.size;
    const baseline = this.y - style.rise * this.size;
    if (style.strike) {
      const thick = style.size * this.size * STRIKE_THICKNESS;
      const y = baseline - (face.xHeight * scale) / 2 - thick / 2;
      const grey = style.grey !== 0 ? { grey: style.grey } : {};
      this.page.add({ kind: 'rule', x, y, width, height: thick, ...grey });
    }
    if (span.kind !== 'text' || span.href === null) return;
    const rect = { x, y: baseline - face.ascender * scale, width, height: (face.ascender - face.descender) * scale };
    this.page.add({ kind: 'link', ...rect, target: { url: span.href } });
  }
}

const writer = new LineWriter();

/**
 * Writes a line.
 * @param x left end of the line. @param y its baseline.
 */
export function writeLine(line: LineToWrite, x: Points, y: Points, page: PageBuilder, placing: Placing): void {
  writer.write(line, x, y, page, placing);
}

/** Thickness of a strike in ems (common practice, no source). */
const STRIKE_THICKNESS = 0.05;

const TAB_OR_NEW_LINE = /[\t\n]/;

/** Whether all pieces are words and spaces of one fount, with nothing over them and spaces that are all as wide. */
function isAlike(copy: Copy): boolean {
  const { spans, text, hasCovers, words, founts, count } = copy;
  if (spans !== null || hasCovers || count === 0 || text.spans[0]?.kind !== 'text') return false;
  const first = valueAt(copy, 0);
  const fount = kindAt(copy, 0) === WORD ? words.fount(first) : founts[first]!;
  return !fount.kernsSpaces;
}

/** Segments as they stand from left to right. */
function ordered(segments: readonly Segment[], leftward: boolean): readonly Segment[] {
  return leftward ? [...segments].reverse() : segments;
}
