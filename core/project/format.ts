/**
 * What a project file is: a zip container with `manifest.json` (format, version, hash of the book), `book.json` (all but
 * the pictures' bytes) and `assets/<sha256>` (pictures, stored as they are).
 */
import type { Book, Json } from '#book';

export const FORMAT = 'reglet';

/**
 * The version that this program writes. Raise it with every change that an older program would misread, with a step in
 * migrate.ts and a file in test/project/fixtures.
 */
export const VERSION = 1;

export const MANIFEST_ENTRY = 'manifest.json';
export const BOOK_ENTRY = 'book.json';
export const ASSET_ENTRY = /^assets\/([0-9a-f]{64})$/;

export function assetEntry(id: string): string {
  return `assets/${id}`;
}

export interface Manifest {
  readonly format: typeof FORMAT;
  readonly version: number;
  /** SHA-256 of `book.json`, hexadecimal. */
  readonly book: string;
}

/** `book.json`, each member as the book room reads and writes it. */
export type BookRecord = Readonly<Record<keyof Book, Json>>;

/** Bounds on what is read, far above any real book. */
export const LIMITS = {
  entries: 5_000,
  manifestBytes: 64 * 1024,
  bookBytes: 64 * 1024 * 1024,
  assetBytes: 1024 * 1024 * 1024,
  /** Pictures are stored as they are; a container that someone packed again may save some, but not most of their bytes. */
  assetsPacked: 4,
  /** Brackets inside brackets in `book.json`. */
  depth: 200,
  /** Lists and objects in `book.json`: a paragraph has some five. */
  values: 2_000_000,
} as const;
