/**
 * What a font face is to the rest of the engine. All lengths are in the face's own units (`unitsPerEm` to the em); the
 * caller scales by size / unitsPerEm.
 */
import type { FaceId, FontUnits, GlyphId } from '#base';

/** What the licence bits of the OS/2 table allow (OpenType `fsType`). */
export type Embedding = 'installable' | 'editable' | 'preview' | 'restricted';

export interface ShapeSetting {
  /**
   * OpenType features beside the defaults (kern, liga, clig, calt), sorted and joined by commas: `onum,smcp`. A minus
   * sign turns a default off: `-liga`.
   */
  readonly features: string;
  /** BCP 47. */
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
}

/**
 * Shaped text. Arrays are as long as there are glyphs; they may be views of one large buffer and belong to the face, so
 * readers neither change them nor hand them to another thread.
 */
export interface Shaped {
  readonly text: string;
  readonly glyphs: Uint16Array;
  readonly advances: Int32Array;
  /** x, y pairs (y up, font units), or null where all are nil. */
  readonly offsets: Int32Array | null;
  /** UTF-16 index of each glyph's cluster. */
  readonly clusters: Uint16Array;
  /**
   * 1 where the text before and after the glyph's cluster may not be cut and put together again without shaping anew
   * (HarfBuzz's unsafe-to-break flag), or null where every place is safe. A piece that begins at a glyph with 0 and ends
   * before a glyph with 0 (or at the end) has the very glyphs and advances that it has inside the word. Beware of
   * kerning: it makes the place before its second glyph unsafe.
   */
  readonly unsafe: Uint8Array | null;
  /** Sum of the advances. */
  readonly width: FontUnits;
}

/** Words as stretches of UTF-16 units: word n reaches from `bounds[2n]` to before `bounds[2n + 1]`. */
export interface WordStretches {
  readonly units: Uint16Array;
  readonly bounds: Int32Array;
  readonly count: number;
}

/** What shaping words together yields. All of it is lent: the face writes over it with the next words. */
export interface ShapedWords {
  /** First glyph of each word, and how many it has. */
  readonly starts: Int32Array;
  readonly counts: Int32Array;
  /** Sum of each word's advances, in font units. */
  readonly widths: Int32Array;
  /** 1 for a word with glyphs that stand off the pen, whose places `FontFace.shape` tells. */
  readonly moved: Uint8Array;
  /** Of each glyph; clusters count from the word's start, `unsafe` is as in `Shaped`. */
  readonly glyphs: Uint16Array;
  readonly advances: Int32Array;
  readonly clusters: Uint16Array;
  readonly unsafe: Uint8Array;
}

/** Words that are being shaped on another thread. */
export interface WordsUnderWay {
  /** The shaped words; waits for them. To be asked for once. */
  readonly take: () => ShapedWords;
}

export interface FontFace {
  readonly id: FaceId;
  readonly family: string;
  readonly italic: boolean;
  readonly weight: number;
  readonly postScriptName: string;
  readonly unitsPerEm: number;
  readonly ascender: FontUnits;
  /** Negative below the baseline. */
  readonly descender: FontUnits;
  readonly capHeight: FontUnits;
  readonly xHeight: FontUnits;
  /** xMin, yMin, xMax, yMax. */
  readonly boundingBox: readonly [number, number, number, number];
  /** Degrees, negative leaning right, from `post`. */
  readonly italicAngle: number;
  readonly embedding: Embedding;
  /** False where the licence bits forbid subsets (OpenType `fsType` bit 8). */
  readonly maySubset: boolean;
  /** See `FamilyFacts`. */
  readonly licence: string | null;
  readonly licenceAddress: string | null;
  /** True where outlines are CFF (OTF). */
  readonly cff: boolean;
  /** The complete font file. */
  readonly bytes: Uint8Array;

  /** Whether the face can set a character: by a glyph of its own, from base and accents, or because it shows nothing. */
  has(codePoint: number): boolean;
  /** The nominal glyph of a character, 0 where there is none. */
  glyphOf(codePoint: number): GlyphId;
  advanceOf(glyph: GlyphId): FontUnits;
  hasFeature(tag: string): boolean;
  /** Shapes one word or a longer text; cached by text and setting. */
  shape(text: string, setting: ShapeSetting): Shaped;
  /** Shapes words to the very glyphs that `shape` gives each of them, in less time; nothing is kept. */
  shapeWords(words: WordStretches, setting: ShapeSetting): ShapedWords;
  /** Begins to do the same on another thread; null where there is none, which is for good. */
  beginWords(words: WordStretches, setting: ShapeSetting): WordsUnderWay | null;
  /**
   * What the width of `left`, a space and `right` set together differs from the sum of their widths set apart: kerning
   * with and across the space, nil in most faces. Only the last character of `left` and the first of `right` count;
   * either may be empty. Cached.
   */
  spaceKerning(left: string, right: string, setting: ShapeSetting): FontUnits;
  /** SVG path data of a glyph's outline, font units, y up. */
  outline(glyph: GlyphId): string;
  /** xMin, yMin, xMax, yMax of a glyph's ink, font units, y up; null for a blank glyph. */
  inkOf(glyph: GlyphId): readonly [number, number, number, number] | null;
  /** A font file with only these glyphs, under their old ids (layout tables, cmap and names dropped). */
  subset(glyphs: Iterable<GlyphId>): Uint8Array;
  /** A font file for an ebook: these characters, with layout features and cmap kept. */
  subsetForText(codePoints: Iterable<number>): Uint8Array;
}

/** The four faces of a text family; a family without bold or italic repeats the regular face. */
export interface FontFamily {
  readonly name: string;
  readonly regular: FontFace;
  readonly italic: FontFace;
  readonly bold: FontFace;
  readonly boldItalic: FontFace;
}

/** What there is to say of a family besides its faces. */
export interface FamilyFacts {
  /** True for one that is installed on the computer and does not travel with the program. */
  readonly installed: boolean;
  readonly embedding: Embedding;
  /** The terms that the font itself names (name 13 of its `name` table), and where they can be read (name 14). */
  readonly licence: string | null;
  readonly licenceAddress: string | null;
}

/** All that layout may draw on, loaded before it begins. */
export interface FontLibrary {
  /** What is known of a family; null for a name that was not loaded. */
  about(family: string): FamilyFacts | null;
  /** The named family; a RangeError for a name that was not loaded. */
  family(name: string): FontFamily;
  face(id: FaceId): FontFace;
  /** Faces to try, in order, for characters that the text face lacks. */
  readonly fallbacks: readonly FontFace[];
  /** Whether `FontFace.beginWords` has a thread to work on. */
  readonly shapesAside: boolean;
}

/** A font file as the host hands it over. */
export interface FontFile {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  readonly bytes: Uint8Array;
  /** True for a face that only serves as fallback. */
  readonly fallback?: boolean;
  /** True for a face that is installed on the computer and does not travel with the program. */
  readonly installed?: boolean;
}

/** A font file that is read when its face is first needed: most books are set in one family of many. */
export interface UnreadFontFile extends Omit<FontFile, 'bytes'> {
  readonly read: () => Uint8Array;
}
