/**
 * What the host needs of whoever keeps books on disk: files, journal, back-ups. In: paths, bytes, books and changes; out:
 * open books, whose every change is kept.
 */
import type { Outcome } from '#base';
import type { Book, Change } from '#book';
import type { Backup, UnsavedWork } from '#host';

/** What a save came to. */
export type Saving =
  | { readonly kind: 'saved' }
  /** The file was changed by someone else since it was read or written; nothing was written. */
  | { readonly kind: 'changedOutside'; readonly path: string; readonly modifiedAt: number };

/** A book that is open: one writer, in order. */
export interface KeptBook {
  readonly book: Book;
  /** null for a book that was never saved. */
  readonly path: string | null;
  /** When its file was last written by us or read; milliseconds, null if never. */
  readonly savedAt: number | null;
  /** Whether there are changes that the file does not hold. */
  readonly dirty: boolean;
  /** How many changes it has seen since it was opened. */
  readonly version: number;
  /** Applies all of the changes or none, and keeps them; gives the version after them. */
  apply(changes: readonly Change[]): Outcome<number>;
  /** Saves to `path`, or where it was saved last. `overwrite` saves over a file that was changed outside. */
  save(path: string | null, overwrite: boolean): Promise<Outcome<Saving>>;
  /** Closes the book. Changes that were not saved are given up, or else offered again by `unsaved`. */
  close(discard: boolean): Promise<void>;
}

export interface BookKeeper {
  open(path: string): Promise<Outcome<KeptBook>>;
  /** Opens a book file that came as bytes, as a book that was never saved. */
  openBytes(name: string, bytes: Uint8Array): Promise<Outcome<KeptBook>>;
  /** Takes in a new book. */
  adopt(book: Book): Promise<Outcome<KeptBook>>;
  /** Work that earlier runs did not save. */
  unsaved(): Promise<readonly UnsavedWork[]>;
  recover(id: string): Promise<Outcome<KeptBook>>;
  discard(id: string): Promise<Outcome<null>>;
  backups(path: string): Promise<readonly Backup[]>;
  /** Opens a back-up of the book at `path` as a book that was never saved. */
  openBackup(path: string, id: string): Promise<Outcome<KeptBook>>;
}
