/**
 * The entries of a project file. In: bytes that may be anything; out: the entries that belong there, unpacked, or one
 * sentence. No size is believed: what would unpack to more than the limits is refused before it is unpacked.
 */
import { type UnzipFileInfo, unzipSync } from 'fflate';
import { failure, type Outcome, success } from '#base';
import { ASSET_ENTRY, BOOK_ENTRY, LIMITS, MANIFEST_ENTRY } from './format.ts';

export type Entries = ReadonlyMap<string, Uint8Array>;

export function unpack(bytes: Uint8Array): Outcome<Entries> {
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) return failure('This is not a Reglet book: it is no zip container.');
  const gate = new Gate(Math.min(LIMITS.assetBytes, LIMITS.assetsPacked * bytes.length));
  try {
    const unpacked = unzipSync(bytes, { filter: (entry) => gate.admits(entry) });
    return gate.problem === null ? success(new Map(Object.entries(unpacked))) : failure(gate.problem);
  } catch (error) {
    if (error instanceof Error) return failure('This Reglet book is damaged: its container can’t be unpacked.');
    throw error;
  }
}

/** Admits entries as long as all is within bounds; remembers the first thing that is not. */
class Gate {
  problem: string | null = null;
  private readonly seen = new Set<string>();
  private count = 0;
  private assetBytes = 0;

  /** @param mostAssets bytes that all pictures together may have. */
  constructor(private readonly mostAssets: number) {}

  admits(entry: UnzipFileInfo): boolean {
    this.problem ??= this.problemWith(entry);
    return this.problem === null && this.seen.has(entry.name);
  }

  private problemWith(entry: UnzipFileInfo): string | null {
    this.count++;
    if (this.count > LIMITS.entries) return `This Reglet book holds more than ${LIMITS.entries} entries.`;
    const limit = limitOf(entry.name);
    if (limit === null) return null;
    if (this.seen.has(entry.name)) return `This Reglet book holds "${entry.name}" twice.`;
    this.seen.add(entry.name);
    if (ASSET_ENTRY.test(entry.name)) this.assetBytes += entry.originalSize;
    const size = Math.max(entry.originalSize, entry.size);
    if (size > limit || this.assetBytes > this.mostAssets) {
      return `"${entry.name}" in this Reglet book is larger than any book needs.`;
    }
    return null;
  }
}

/** The most bytes that an entry may have; null for entries that don't belong in a project file. */
function limitOf(name: string): number | null {
  if (name === MANIFEST_ENTRY) return LIMITS.manifestBytes;
  if (name === BOOK_ENTRY) return LIMITS.bookBytes;
  return ASSET_ENTRY.test(name) ? LIMITS.assetBytes : null;
}
