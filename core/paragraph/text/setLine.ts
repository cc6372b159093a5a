/**
 * A line is set. In: a stretch of copy and how its spaces and letters give; out: glyph runs on a page, one for each
 * stretch of one fount and face, with links and rules over them.
 */
import type { Anchor, Points } from '#base';
import type { PageBuilder, RunStart } from '#page';
import type { FontFace } from '#type';
import type { Placing } from '../types.ts';
import { type Copy, type Space, spaceWidth } from './copy.ts';
import { partOf } from './cuts.ts';
import type { Fount } from './fount.ts';
import { visualOrder } from './levels.ts';
import type { Segment } from './segments.ts';
import { sourceOf, type Word } from './word.ts';

/** A stretch of copy: whole pieces, and parts of words at its ends. */
export interface Stretch {
  readonly copy: Copy;
  /** First piece, and the offset in its word at which the stretch begins. */
  readonly fromPiece: number;
  readonly fromCut: number;
  /** The piece that is not on the line any more, unless a cut in it says how much of its word is. */
  readonly toPiece: number;
  readonly toCut: number;
  /** Whether a hyphen is added. */
  readonly divided: boolean;
}

/** How a line's spaces and letters give; lengths are shares of the text size. */
export interface Spacing {
  /** A space of a natural width becomes that width times `factor`, and `more`. */
  readonly factor: number;
  readonly more: number;
  /** Factor on the width of glyphs. */
  readonly scale: number;
}

export const NATURAL: Spacing = { factor: 1, more: 0, scale: 1 };

/** Whole and partial words of a stretch in order, with the part that is shown. */
export function partAt(stretch: Stretch, index: number, word: Word): { from: number; to: number; hyphen: boolean } {
  const cut = index === stretch.toPiece;
  return {
    from: index === stretch.fromPiece ? stretch.fromCut : 0,
    to: cut ? stretch.toCut : word.text.length,
    hyphen: cut && stretch.divided,
  };
}

/** One past the last piece that shows on the line. */
export function endPiece({ toPiece, toCut }: Stretch): number {
  return toCut > 0 ? toPiece + 1 : toPiece;
}

export interface LineToWrite {
  readonly stretch: Stretch;
  readonly spacing: Spacing;
  /** The text size. */
  readonly size: Points;
  readonly page: PageBuilder;
  readonly placing: Placing;
  /** Left end of the line, and its baseline. */
  readonly x: Points;
  readonly y: Points;
}

/** Writes a stretch from left to right. */
export class LineWriter {
  private readonly stretch: Stretch;
  private readonly spacing: Spacing;
  private readonly size: Points;
  private readonly page: PageBuilder;
  private readonly placing: Placing;
  private readonly y: Points;
  private pen: Points;
  private face: FontFace | null = null;
  private fount: Fount | null = null;
  private text = '';
  private length = 0;
  private overlay: { readonly span: number; readonly x: number; readonly fount: Fount } | null = null;

  constructor({ stretch, spacing, size, page, placing, x, y }: LineToWrite) {
    this.stretch = stretch;
    this.spacing = spacing;
    this.size = size;
    this.page = page;
    this.placing = placing;
    this.pen = x;
    this.y = y;
  }

  write(): void {
    const { copy, fromPiece } = this.stretch;
    const end = endPiece(this.stretch);
    if (copy.directions) this.mixed(fromPiece, end, copy.directions.pieces);
    else for (let index = fromPiece; index < end; index++) this.piece(index);
    this.endOverlay();
    this.endRun();
  }

  private piece(index: number): void {
    const piece = this.stretch.copy.pieces[index]!;
    if (piece.kind === 'lineBreak') return;
    if (piece.kind === 'space') this.space(piece, index);
    else this.word(piece.kind === 'mark' ? piece.word : piece, index);
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

  private word(word: Word, index: number): void {
    const { fromPiece, fromCut, toPiece, copy } = this.stretch;
    this.cover(index, word.fount);
    const offset = copy.offsets[index]!;
    if (index === toPiece || (index === fromPiece && fromCut > 0)) this.part(word, index, offset);
    else if (word.block) this.whole(word, word.block, offset);
    else this.segments(word.leftward ? [...word.segments].reverse() : word.segments, word.fount, offset);
  }

  private whole({ fount, text, first, glyphs }: Word, block: Int32Array, offset: number): void {
    this.run(fount, fount.face, offset);
    this.pen += this.page.append(block, first, glyphs, fount.scale * this.spacing.scale * this.size, this.length);
    this.length += text.length;
    this.text += text;
  }

  private part(word: Word, index: number, offset: number): void {
    const { from, to, hyphen } = partAt(this.stretch, index, word);
    const segments = partOf(word, from, to, hyphen);
    this.segments(word.leftward ? [...segments].reverse() : segments, word.fount, offset + sourceOf(word, from));
    if (hyphen) this.text = `${this.text.slice(0, -1)}\u00ad`;
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
    this.text += shaped.text;
    for (let i = 0; i < glyphs.length; i++) {
      let advance = advances[i]! * wide;
      if (tracking !== 0 && clusters[i] !== clusters[i + 1]) advance += tracking * this.spacing.scale * size;
      page.glyph(glyphs[i]!, advance, base + clusters[i]!);
      if (offsets) page.offsetLast(offsets[i * 2]! * wide, -offsets[i * 2 + 1]! * scale * size);
      this.pen += advance;
    }
  }

  private space(space: Space, index: number): void {
    const { fount } = space;
    this.cover(index, fount);
    this.run(fount, fount.face, this.stretch.copy.offsets[index]!);
    const { factor, more } = this.spacing;
    const advance = (spaceWidth(this.stretch.copy, index, space) * factor + more) * this.size;
    this.page.glyph(fount.spaceGlyph, advance, this.length++);
    this.text += space.text;
    this.pen += advance;
  }

  /** Sees to it that a run of a fount and face is open. */
  private run(fount: Fount, face: FontFace, offset: number): void {
    if (this.fount === fount && this.face === face) return;
    this.endRun();
    this.fount = fount;
    this.face = face;
    this.page.beginRun(this.startOf(fount, face, offset));
  }

  private startOf({ style }: Fount, face: FontFace, offset: number): RunStart {
    const { block } = this.stretch.copy.text;
    const at: Anchor | null = block === '' ? null : { block, offset };
    return {
      face: face.id,
      size: style.size * this.size,
      x: this.pen,
      y: this.y - style.rise * this.size,
      ...(at ? { at } : {}),
      ...(style.grey !== 0 ? { grey: style.grey } : {}),
      ...(this.spacing.scale !== 1 ? { scale: this.spacing.scale } : {}),
      ...(this.placing.furniture ? { furniture: true } : {}),
    };
  }

  private endRun(): void {
    if (this.fount) this.page.endRun(this.text);
    this.text = '';
    this.length = 0;
    this.fount = null;
    this.face = null;
  }

  /** Links and strikes lie over stretches of a span: ends the one before where another span begins. */
  private cover(index: number, fount: Fount): void {
    const span = this.stretch.copy.spans[index]!;
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

/** Thickness of a strike in ems (common practice, no source). */
const STRIKE_THICKNESS = 0.05;
