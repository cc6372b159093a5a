/** What state of a book a project file holds. In: bytes that may be anything; out: the hash of its book, or null. */
import { strFromU8, unzipSync } from 'fflate';
import { LIMITS, MANIFEST_ENTRY } from './format.ts';

/** The SHA-256 of the book in a project file, as its manifest has it; null for a file that is none. Reads no more than that. */
export function projectState(bytes: Uint8Array): string | null {
  try {
    const { [MANIFEST_ENTRY]: manifest } = unzipSync(bytes, {
      filter: ({ name, originalSize }) => name === MANIFEST_ENTRY && originalSize <= LIMITS.manifestBytes,
    });
    const { book } = JSON.parse(manifest ? strFromU8(manifest) : '{}') as { book?: unknown };
    return typeof book === 'string' && /^[0-9a-f]{64}$/.test(book) ? book : null;
  } catch {
    return null;
  }
}
