/**
 * What each glyph of a face reads as. In: glyphs with the text that they were set for; out: one text a glyph for the
 * ToUnicode map, and the answer whether a glyph needs more than that, because it stands for another text here.
 */
import type { FontFace } from '#type';

const SPACE = 0x20;
const HYPHEN = 0x2d;

export class FaceText {
  /** By glyph: the one UTF-16 unit that most read as, 0 for none. To be read only, as the two after it. */
  readonly single = new Uint16Array(0x10000);
  /** By glyph: `widthOf` where it was asked for, else 0. */
  readonly widths = new Uint16Array(0x10000);
  /** By glyph: 1 where it is set. */
  readonly used = new Uint8Array(0x10000);
  /** Glyphs that read as more than one unit, such as ligatures. */
  private readonly longer = new Map<number, string>();
  private readonly space: number;

  constructor(
    readonly face: FontFace,
    /** The name of the font in the pages' resources. */
    readonly resource: string,
  ) {
    this.used[0] = 1;
    // Glyphs that stand in for others (a line's hyphen, spaces of other widths) keep their own reading.
    this.space = face.glyphOf(SPACE);
    this.claim(this.space, SPACE);
    this.claim(face.glyphOf(HYPHEN), HYPHEN);
  }

  /** Glyphs that were set, in rising order; 0 is always among them. */
  glyphs(): readonly number[] {
    const glyphs: number[] = [];
    for (let glyph = 0; glyph < this.used.length; glyph++) if (this.used[glyph]) glyphs.push(glyph);
    return glyphs;
  }

  /** The glyph's width as the file states it: whole thousandths of the font size, as some readers round them. */
  widthOf(glyph: number): number {
    const known = this.widths[glyph]!;
    if (known !== 0) return known;
    const width = Math.round((this.face.advanceOf(glyph) * 1000) / this.face.unitsPerEm);
    this.widths[glyph] = width;
    return width;
  }

  /** Reading of a glyph, '' where it has none. */
  textOf(glyph: number): string {
    const unit = this.single[glyph]!;
    return unit === 0 ? (this.longer.get(glyph) ?? '') : String.fromCharCode(unit);
  }

  /** Whether a glyph is the face's word space. */
  isSpace(glyph: number): boolean {
    return glyph === this.space;
  }

  /** Notes that a glyph is set for one unit of text; false where the glyph reads otherwise. */
  readsAs(glyph: number, unit: number): boolean {
    this.used[glyph] = 1;
    const known = this.single[glyph]!;
    if (known === unit) return true;
    // Glyph 0 stands for whatever the face lacks.
    if (glyph === 0) return false;
    if (known !== 0 || this.longer.has(glyph)) return isSameSpace(known, unit);
    this.single[glyph] = unit;
    return true;
  }

  /** The same for a longer text. */
  readsAsText(glyph: number, text: string): boolean {
    if (text.length === 1) return this.readsAs(glyph, text.charCodeAt(0));
    this.used[glyph] = 1;
    if (glyph === 0 || this.single[glyph] !== 0) return false;
    const known = this.longer.get(glyph);
    if (known !== undefined) return known === text;
    if (!this.isLigature(glyph, text)) return false;
    this.longer.set(glyph, text);
    return true;
  }

  /** Notes that a glyph is set, whatever it reads as. */
  use(glyph: number): void {
    this.used[glyph] = 1;
  }

  /** Whether the letters by themselves give this glyph: else it shows one of them and reads as more only here. */
  private isLigature(glyph: number, text: string): boolean {
    const { glyphs } = this.face.shape(text, { features: '', language: 'und', direction: 'ltr' });
    return glyphs.length === 1 && glyphs[0] === glyph;
  }

  private claim(glyph: number, unit: number): void {
    if (glyph !== 0 && this.single[glyph] === 0) this.single[glyph] = unit;
  }
}

/** A space of another width that is set with the space's glyph may read as a plain space. */
function isSameSpace(known: number, unit: number): boolean {
  if (known !== SPACE && known !== 0xa0) return false;
  return unit === SPACE || unit === 0xa0 || unit === 0x202f || (unit >= 0x2000 && unit <= 0x200a) || unit === 0x205f;
}
