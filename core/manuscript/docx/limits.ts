/** How large a file from a stranger may be, and the exception that ends the reading of one that can't be used. */

export const LIMITS = {
  entries: 10_000,
  /** Bytes of one part after unpacking. */
  partBytes: 256 * 1024 * 1024,
  /** Bytes of all parts after unpacking. */
  totalBytes: 512 * 1024 * 1024,
  /** A part above `ratioFrom` bytes that grew more than this many times is taken for a bomb (prose packs 4 to 20). */
  ratio: 200,
  ratioFrom: 64 * 1024 * 1024,
  /** Elements inside each other; real files stay below a hundred. */
  depth: 256,
  /** Elements of one part, and paragraphs among them: a long novel has some 6,000 paragraphs. */
  elements: 8_000_000,
  paragraphs: 500_000,
  /** UTF-16 units of text in one part. */
  text: 64 * 1024 * 1024,
  /** Pixels of one picture. */
  pixels: 250_000_000,
} as const;

/** Ends the reading of one file; `message` is a whole sentence for the author. Caught by `readDocx` alone. */
export class Unreadable extends Error {}
