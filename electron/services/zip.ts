/**
 * Entries into a ZIP archive as EPUB's container asks (EPUB 3.3, OCF "ZIP container"). In: entries in their order; out:
 * bytes that depend on nothing but the entries: neither clock, time zone nor machine shows in them.
 */
import { type Zippable, zipSync } from 'fflate';
import type { EbookEntry } from '#ebook';

/** The beginning of ZIP's calendar. The archive stores local time as it is, so the same local date is the same bytes. */
const MTIME = new Date(1980, 0, 1, 0, 0, 0);

const LEVEL = 6;

/** The archive. The first entry has no extra field, so that an ebook's `mimetype` stands where readers look for it. */
export function zipEntries(entries: readonly EbookEntry[]): Uint8Array {
  const files: Zippable = {};
  for (const entry of entries) {
    if (entry.path in files) throw new RangeError(`two entries named ${JSON.stringify(entry.path)}`);
    files[entry.path] = [entry.bytes, { level: entry.compress ? LEVEL : 0, mtime: MTIME }];
  }
  return zipSync(files);
}
