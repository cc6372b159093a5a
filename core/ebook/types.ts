/** What an ebook consists of before it is zipped: entries in their final order. */

export interface EbookEntry {
  /** Path inside the container, such as `EPUB/text/chapter-04.xhtml`. */
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly mediaType: string;
  /** False for entries that are stored as they are (mimetype, pictures that are compressed already). */
  readonly compress: boolean;
}

/** Where the print edition's pages begin, for the page list: the folio's label and the place of its first character. */
export interface PageStart {
  readonly label: string;
  readonly block: string;
  readonly offset: number;
}
