/**
 * Entries into a ZIP archive as EPUB's container asks (EPUB 3.3, OCF "ZIP container"). In: entries in their order; out:
 * bytes that depend on nothing but the entries: neither clock, time zone nor machine shows in them.
 */
import { buffer } from 'node:stream/consumers';
import { type Options, ZipFile } from 'yazl';
import type { EbookEntry } from '#ebook';

const LEVEL = 6;

/** The archive. No entry has an extra field, so that an ebook's `mimetype` stands where readers look for it. */
export async function zipEntries(entries: readonly EbookEntry[]): Promise<Uint8Array> {
  const seen = new Set<string>();
  const archive = new ZipFile();
  // The archive stores local time as it stands, so the same local date is the same bytes everywhere: the first day of
  // ZIP's calendar, at noon, which no clock change skips. Without the flag, universal time goes into an extra field.
  const dated: Partial<Options> = { mtime: new Date(1980, 0, 1, 12), forceDosTimestamp: true };
  for (const { path, bytes, compress } of entries) {
    if (seen.has(path)) throw new RangeError(`two entries named ${JSON.stringify(path)}`);
    seen.add(path);
    const content = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
    archive.addBuffer(content, path, { ...dated, compress, ...(compress ? { compressionLevel: LEVEL } : {}) });
  }
  archive.end();
  return new Uint8Array(await buffer(archive.outputStream));
}
