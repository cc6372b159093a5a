/** What the ebook is made from. Everything is loaded and decided before; making it reads nothing else. */
import type { EditionView } from '#book';
import type { EbookDesign } from '#design';
import type { PageStart } from './types.ts';

/** A font to embed, already cut down to the characters of the book. */
export interface EbookFont {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  /** TrueType, OpenType, WOFF or WOFF2. */
  readonly bytes: Uint8Array;
  readonly fileName: string;
}

export interface EbookCover {
  readonly bytes: Uint8Array;
  /** `image/jpeg`, `image/png` or another of EPUB's image types. */
  readonly mediaType: string;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly alt: string;
}

export interface EbookRequest {
  readonly view: EditionView;
  readonly design: EbookDesign;
  readonly fonts: readonly EbookFont[];
  /** Licence texts that have to travel with the fonts. */
  readonly fontLicences: readonly { readonly fileName: string; readonly text: string }[];
  readonly cover: EbookCover;
  /** Where the print edition's pages begin, in the order of the pages; empty where there is no print edition. */
  readonly pageStarts: readonly PageStart[];
  /** The ISBN of that print edition, 13 digits without hyphens. */
  readonly printIsbn: string | null;
  /** Last change, seconds since 1970-01-01T00:00:00Z. */
  readonly modified: number;
}
