/**
 * Names for the parts of a book, and a source of new ones that needs neither clock nor chance.
 */

export type SectionId = string & { readonly id?: 'section' };
export type BlockId = string & { readonly id?: 'block' };
export type NoteId = string & { readonly id?: 'note' };
export type EditionId = string & { readonly id?: 'edition' };
export type DesignId = string & { readonly id?: 'design' };
/** The SHA-256 of an asset's bytes, 64 lower-case hexadecimal digits. */
export type AssetId = string & { readonly id?: 'asset' };
/** A font face: family, weight and style as one stable word, such as `eb-garamond-400-italic`. */
export type FaceId = string & { readonly id?: 'face' };

/** Hands out ids `prefix1`, `prefix2`, ... */
export class IdSource {
  private next: number;

  constructor(
    private readonly prefix: string,
    first = 1,
  ) {
    this.next = first;
  }

  /** A fresh id. */
  take(): string {
    return `${this.prefix}${this.next++}`;
  }
}
