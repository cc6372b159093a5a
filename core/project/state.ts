/** What state of a book a project file holds. In: bytes that may be anything; out: the hash of its book, or null. */
import { strFromU8, unzipSync } from 'fflate';
import { LIMITS, MANIFEST_ENTRY, VERSION } from './format.ts';

/**
 * The SHA-256 of the book in a project file, as its manifest has it; null for a file that is none or a newer version's, which
 * is never the same as ours. Reads no more than that.
 */
export function projectState(bytes: Uint8Array): string | null {
  try {
    const { [MANIFEST_ENTRY]: manifest } = unzipSync(bytes, {
      filter: ({ name, originalSize }) => name === MANIFEST_ENTRY && originalSize <= LIMITS.manifestBytes,
    });
    const { book, version } = JSON.parse(manifest ? strFromU8(manifest) : '{}') as {
      book?: unknown;
      version?: unknown;
    };
    if (typeof version !== 'number' || version > VERSION) return null;
    return typeof book === 'string' && /^[0-9a-f]{64}$/.test(book) ? book : null;
  } catch {
    return null;
  }
}
