/**
 * The glyphs of many words side by side, as a page takes them. In: shaped words; out: places in large blocks, so that
 * setting a line reads memory in few places. Blocks are filled once and never changed.
 */
import { PACKED, packGlyph } from '#page';
import type { Shaped } from '#type';

export interface PackedGlyphs {
  readonly block: Int32Array;
  readonly from: number;
}

/** Numbers in a block. */
const BLOCK = 1 << 16;
/** Longest text whose clusters the packed form holds. */
const LONGEST = 0x7fff;

export class GlyphStore {
  private block = new Int32Array(0);
  private used = 0;

  /** Keeps glyphs; null for what the packed form can't hold: glyphs moved from the pen, very long text. */
  keep({ text, glyphs, advances, offsets, clusters }: Shaped): PackedGlyphs | null {
    if (offsets !== null || text.length > LONGEST) return null;
    const from = this.take(glyphs.length * PACKED);
    const { block } = this;
    for (let i = 0; i < glyphs.length; i++) packGlyph(block, from + i * PACKED, glyphs[i]!, advances[i]!, clusters[i]!);
    return { block, from };
  }

  private take(numbers: number): number {
    if (this.used + numbers > this.block.length) {
      this.block = new Int32Array(Math.max(BLOCK, numbers));
      this.used = 0;
    }
    const from = this.used;
    this.used += numbers;
    return from;
  }
}
