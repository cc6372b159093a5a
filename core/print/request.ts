/** What a PDF is made from. Structural types, so that the room needs nothing of the book. */
import type { Anchor, AssetId, PageIndex, Points } from '#base';
import type { Page } from '#page';
import type { FontLibrary } from '#type';

/** A picture as the book keeps it. */
export interface PrintAsset {
  readonly bytes: Uint8Array;
  /** `image/jpeg` and `image/png` are printed; others must be converted before. */
  readonly mediaType: string;
}

export interface DocumentInformation {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  readonly keywords: readonly string[];
  /** BCP 47. */
  readonly language: string;
  /** The program that made the pages. */
  readonly creator: string;
  /** Seconds since 1970-01-01 UTC, null for no dates. */
  readonly date: number | null;
}

/** An entry of the outline that readers show beside the pages. */
export interface OutlineEntry {
  readonly title: string;
  readonly page: PageIndex;
  /** Where on the page, from the top. */
  readonly y: Points;
  readonly children: readonly OutlineEntry[];
}

export interface PrintRequest {
  readonly pages: readonly Page[];
  readonly library: FontLibrary;
  readonly asset: (id: AssetId) => PrintAsset | undefined;
  readonly document: DocumentInformation;
  readonly outline: readonly OutlineEntry[];
  /** zlib-wrapped deflate (RFC 1950). */
  readonly deflate: (bytes: Uint8Array) => Uint8Array;
  /** Ink beyond the trim on the three outer edges; 0 where absent. */
  readonly bleed?: Points;
  /** Whether links can be clicked; true where absent. */
  readonly links?: boolean;
}

/** Where an anchor stands in the finished pages. */
export interface Place {
  readonly page: PageIndex;
  readonly y: Points;
}

export type PlaceOf = (anchor: Anchor) => Place | null;
