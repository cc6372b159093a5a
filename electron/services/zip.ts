/**
 * Entries into a ZIP archive as EPUB's container asks (EPUB 3.3, OCF "ZIP container"). In: entries in their order; out:
 * bytes that depend on nothing but the entries: neither clock, time zone nor machine shows in them.
 */
import { type Zippable, zipSync } from 'fflate';
import type { EbookEntry } from '#ebook';

const LEVEL = 6;

/** The archive. The first entry has no extra field, so that an ebook's `mimetype` stands where readers look for it. */
export function zipEntries(entries: readonly EbookEntry[]): Uint8Array {
  const files: Zippable = {};
  // The archive stores local time as it stands, so the same local date is the same bytes everywhere: the first day of
  // ZIP's calendar, at noon, which no clock change skips.
  const mtime = new Date(1980, 0, 1, 12);
  for (const entry of entries) {
    if (entry.path in files) throw new RangeError(`two entries named ${JSON.stringify(entry.path)}`);
    files[entry.path] = [entry.bytes, { level: entry.compress ? LEVEL : 0, mtime }];
  }
  return zipSync(files);
}
