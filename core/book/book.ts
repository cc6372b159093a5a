/** The book: one immutable value that everything else is derived from. */

import type { Node } from 'prosemirror-model';
import type { AssetId, BlockId, DesignId, EditionId, Points } from '#base';

/** A person's or body's part in the book; `role` is a MARC relator code (`aut`, `edt`, `ill`, `trl`, ...). */
export interface Contributor {
  readonly name: string;
  /** The form under which a catalogue files the name: "Carroll, Lewis". */
  readonly fileAs: string | null;
  readonly role: string;
}

export interface Series {
  readonly name: string;
  /** Place in the series: unsigned integers joined by dots, as EPUB's `group-position` asks. */
  readonly number: string | null;
}

export interface Metadata {
  readonly title: string;
  readonly subtitle: string | null;
  readonly contributors: readonly Contributor[];
  /** BCP 47. */
  readonly language: string;
  readonly publisher: string | null;
  readonly place: string | null;
  /** Year of publication as printed after the copyright sign. */
  readonly year: number | null;
  readonly rightsHolder: string | null;
  readonly series: Series | null;
  readonly description: string | null;
  readonly subjects: readonly string[];
  /** What the book is known by for ever: `urn:uuid:...`, made from its first content, kept through every edit. */
  readonly identifier: string;
  /** Last change of the text, seconds since 1970-01-01T00:00:00Z, from the manuscript or the host; null if unknown. */
  readonly modified: number | null;
}

export type NotePlacement = 'foot' | 'chapter' | 'book';

interface EditionBase {
  readonly id: EditionId;
  /** What the author calls it: "Paperback". */
  readonly name: string;
  readonly design: DesignId;
  /** 13 digits without hyphens, or null. */
  readonly isbn: string | null;
}

/** A wish for the number of pages: an even count, a multiple that a press prints in, or as few as read well. */
export type Fit =
  | { readonly kind: 'pages'; readonly pages: number }
  | { readonly kind: 'multiple'; readonly of: 8 | 16 }
  | { readonly kind: 'fewest' };

export interface PrintEdition extends EditionBase {
  readonly kind: 'print';
  readonly trim: { readonly width: Points; readonly height: Points };
  readonly notes: NotePlacement;
  /** Absent or null where the pages may fall as the design sets them. */
  readonly fit?: Fit | null;
  /** Text size of an edition for readers with low vision, 16 points or more; absent or null for the design's own size. */
  readonly largePrint?: Points | null;
  /** The paper that it will be printed on, by its name in the design room; absent or null for the usual one. */
  readonly paper?: string | null;
}

export interface EbookEdition extends EditionBase {
  readonly kind: 'ebook';
  readonly notes: Exclude<NotePlacement, 'foot'>;
  /** The asset used as cover, or null for a generated one. */
  readonly cover: AssetId | null;
}

export type Edition = PrintEdition | EbookEdition;

/** A picture or other binary kept with the book. */
export interface Asset {
  readonly id: AssetId;
  readonly bytes: Uint8Array;
  /** `image/png`, `image/jpeg`, ... as found in the bytes, not as claimed. */
  readonly mediaType: string;
  /** The name it came under, for the author to know it by. */
  readonly name: string;
  /** Pixels, or null for vector and unknown. */
  readonly pixels: { readonly width: number; readonly height: number } | null;
}

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** A design kept with the book: settings that the design room reads; this room only carries them. */
export interface StoredDesign {
  readonly id: DesignId;
  readonly settings: Json;
}

/** A finding that the author has looked at and lets stay. */
export interface MutedFinding {
  /** By what the finding is known again: a digest of its rule, edition, place and words. */
  readonly id: string;
  readonly rule: string;
  readonly says: string;
  readonly edition: EditionId | null;
  /** The block or section that it is about; null where it is about none. */
  readonly at: BlockId | null;
  /** The digest of what stood there; '' where it is about no place. */
  readonly text: string;
  /** In the author's words. */
  readonly reason: string;
}

/** What an import did at a place, for the author to look over. */
export interface ImportRemark {
  readonly id: string;
  /** The block or section beside which it stands. */
  readonly block: BlockId;
  /** A stable word such as `blank-scene-break`. */
  readonly kind: string;
  readonly message: string;
}

export interface Book {
  readonly metadata: Metadata;
  readonly editions: readonly Edition[];
  readonly designs: readonly StoredDesign[];
  readonly assets: ReadonlyMap<AssetId, Asset>;
  /** Findings that the author lets stay. Those about a place go when it goes. */
  readonly muted: readonly MutedFinding[];
  /** What imports did, beside the blocks that are still there. */
  readonly remarks: readonly ImportRemark[];
  /** The `book` node. */
  readonly text: Node;
}

/** The names of the authors, in order; an empty list where none is given. */
export function authorsOf(metadata: Metadata): readonly string[] {
  return metadata.contributors.filter((each) => each.role === 'aut').map((each) => each.name);
}
