/**
 * The display list: what a finished page is, for print, screen and preflight alike. Painters take no decisions.
 *
 * Units are points, origin at the top left of the trimmed page, y down. Glyphs of all runs of a page lie in the page's
 * pools (typed arrays over one block, which another thread is sent copies of); a run is a stretch of the pools.
 */
import type { Anchor, AssetId, FaceId, PageIndex, Points, Rect, SectionId, Size } from '#base';

export type Side = 'recto' | 'verso';

export interface Folio {
  /** The page number as it reads: `iv`, `12`. Every page has one, printed or not. */
  readonly label: string;
  readonly style: 'roman' | 'arabic';
  readonly value: number;
  /** Whether the page prints it. */
  readonly printed: boolean;
}

/** One line's stretch of glyphs of one face at one size. */
export interface GlyphRun {
  readonly kind: 'glyphs';
  readonly face: FaceId;
  readonly size: Points;
  /** Left end of the run. */
  readonly x: Points;
  /** The baseline. */
  readonly y: Points;
  /** First glyph in the page's pools. */
  readonly start: number;
  /** Number of glyphs. */
  readonly count: number;
  /**
   * The characters that the run shows, in logical order; a hyphen set at a line's end reads U+00AD. The run of a drop cap
   * has no text (all clusters 0), and the run after it begins with a cluster of two characters, so that whoever reads the
   * page's text finds the word whole.
   */
  readonly text: string;
  /** Place of the run's first character; absent for furniture that stands nowhere in the text. */
  readonly at?: Anchor;
  /** Grey from 0 (black, the default) to 1 (paper). */
  readonly grey?: number;
  /** Horizontal glyph scaling, 1 where absent. */
  readonly scale?: number;
  /** True for running heads, folios and ornaments (artifacts in tagged output, no part of the running text). */
  readonly furniture?: boolean;
}

/** A filled rectangle: rules and leaders. */
export interface RuleItem extends Rect {
  readonly kind: 'rule';
  readonly grey?: number;
}

export interface ImageItem extends Rect {
  readonly kind: 'image';
  readonly asset: AssetId;
  readonly alt: string;
  readonly at: Anchor;
  /** What shows of it; all where absent. */
  readonly clip?: Rect;
  /** True for a picture that is no part of the text, such as a mark between scenes (an artifact in tagged output). */
  readonly furniture?: boolean;
}

/** A filled outline, such as an ornament. */
export interface PathItem extends Rect {
  readonly kind: 'path';
  /** SVG path data in the units of `viewBox`, y down, filled by the non-zero rule. */
  readonly path: string;
  readonly viewBox: Size;
  readonly grey?: number;
  readonly at?: Anchor;
}

/** An area that leads to a place in the book or outside it. */
export interface LinkItem extends Rect {
  readonly kind: 'link';
  readonly target: { readonly url: string } | { readonly at: Anchor };
}

export type PageItem = GlyphRun | RuleItem | ImageItem | PathItem | LinkItem;

export interface Page {
  readonly index: PageIndex;
  readonly side: Side;
  readonly folio: Folio;
  /** The section that the page belongs to; a blank belongs to the one it precedes. */
  readonly section: SectionId | null;
  readonly blank: boolean;
  /** True where a section begins on this page. */
  readonly opener: boolean;
  /** Trimmed size. */
  readonly size: Size;
  readonly items: readonly PageItem[];
  /** Glyph ids of all runs. */
  readonly glyphs: Uint16Array;
  /** Advance of each glyph as placed, in points: kerning, letterspacing and justification included. */
  readonly advances: Float32Array;
  /** Offset of each glyph from the pen, in points, x then y (y down), or null where all are nil. */
  readonly offsets: Float32Array | null;
  /** For each glyph, the UTF-16 index in its run's `text` at which its cluster begins. */
  readonly clusters: Uint16Array;
}
