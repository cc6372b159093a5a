/**
 * What the window and its layout worker say to each other: the engine's own messages, and those about fonts, outlines, the
 * ebook and the check before press. The worker is told the book once; from there on it is sent changes.
 */
import type { EditionId, FaceId, Finding, GlyphId, SectionId } from '#base';
import type { Change } from '#book';
import type { PageFrame } from '#design';
import type { SectionProof } from '#ebook';
import type { DeskReply, DeskRequest } from '#engine';
import type { BookMessage } from '#host';
import type { MarksReply } from './marks.ts';
import type { SpecimenReply, SpecimenRequest } from './specimen.ts';

/** A face that the worker may set text in. */
export interface WorkerFace {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  readonly fallback: boolean;
  /** True for a face of this computer. */
  readonly installed?: boolean;
  /** Where its bytes are, relative to the window's own address. */
  readonly address: string;
}

export type WorkerRequest =
  /** The book, once. `base` is the window's address: the worker's own is another. */
  | {
      readonly kind: 'open';
      readonly book: BookMessage;
      readonly faces: readonly WorkerFace[];
      readonly base: string;
    }
  /** Further faces, for a design that asks for a family that was not there before. */
  | { readonly kind: 'faces'; readonly faces: readonly WorkerFace[] }
  /** A section as an ebook edition shows it; takes the place of what was asked before. */
  | { readonly kind: 'ebook'; readonly edition: EditionId; readonly section: SectionId }
  /** Whether the editions that are not laid out for the proof are to be checked too, whenever nothing else is to be done. */
  | { readonly kind: 'others'; readonly wanted: boolean }
  /** Which characters of these families, and of the faces that help out, can stand between scenes. */
  | { readonly kind: 'marks'; readonly families: readonly string[] }
  /** A section as a design that is tried would have it. */
  | SpecimenRequest
  | DeskRequest;

/** What every book needs may be loaded before there is one. */
export interface WarmRequest {
  readonly kind: 'warm';
  readonly faces: readonly WorkerFace[];
  readonly base: string;
}

/** The outlines of glyphs that the replies after it show for the first time. */
export interface OutlinesReply {
  readonly kind: 'outlines';
  readonly face: FaceId;
  readonly unitsPerEm: number;
  readonly glyphs: readonly GlyphId[];
  /** SVG path data in font units, y up, one for each glyph. */
  readonly paths: readonly string[];
}

/** The page as the design resolved it for the edition's count of pages. */
export interface FrameReply {
  readonly kind: 'frame';
  readonly version: number;
  readonly edition: EditionId;
  readonly frame: PageFrame;
}

export interface EbookReply {
  readonly kind: 'ebook';
  readonly version: number;
  readonly edition: EditionId;
  readonly section: SectionId;
  /** null where the edition's ebook does not have the section. */
  readonly proof: SectionProof | null;
}

export interface CheckedReply {
  readonly kind: 'checked';
  readonly version: number;
  readonly edition: EditionId;
  /** About the book, then about the edition. */
  readonly findings: readonly Finding<Change>[];
}

/** An edition other than the one in proof, checked while nothing else was to be done. */
export interface OtherReply {
  readonly kind: 'other';
  readonly version: number;
  readonly edition: EditionId;
  /** Pages of a print edition; null for an ebook, and where it can't be set. */
  readonly count: number | null;
  /** About the book, then about the edition. */
  readonly findings: readonly Finding<Change>[];
  /** Why it can't be laid out as it is, or null. */
  readonly problem: string | null;
}

export type WorkerReply =
  | DeskReply
  | OutlinesReply
  | FrameReply
  | EbookReply
  | CheckedReply
  | OtherReply
  | SpecimenReply
  | MarksReply
  /** Fonts are loaded and the book is there. */
  | { readonly kind: 'ready' }
  /** Something can't be laid out as it is; the next change may mend it. */
  | { readonly kind: 'failed'; readonly problem: string };
