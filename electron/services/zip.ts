/**
 * Entries into a ZIP archive as EPUB's container asks (EPUB 3.3, OCF "ZIP container"; PKWARE APPNOTE 4.3). In: entries in
 * their order; out: bytes that depend on nothing but the entries: neither clock, time zone nor machine shows in them.
 *
 * Written here and not by a library, for those deflate all entries at once: a novel's took thirty-five megabytes.
 */
import type { EbookEntry } from '#ebook';
import type { Batch, Pack } from '#print';
import { crcOf } from './crc.ts';
import { joined, packBatch, streamsOf } from './packing.ts';

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const LOCAL_SIZE = 30;
const CENTRAL_SIZE = 46;
const END_SIZE = 22;
/** Version 2.0 of the format, which knows deflate and folders; nothing here needs more. */
const VERSION = 20;
/** Names are UTF-8 (general purpose flag, bit 11). */
const UTF8 = 0x0800;
/** The first day of the format's calendar, at noon: every archive bears the same. */
const TIME = 12 << 11;
const DATE = (1 << 5) | 1;
const STORED = 0;
const DEFLATED = 8;
/** What the fields for counts and sizes hold; beyond them another format begins. */
const MOST_ENTRIES = 0xffff;
const MOST_BYTES = 0xffffffff;

interface Member {
  readonly name: Uint8Array;
  readonly method: number;
  readonly crc: number;
  readonly size: number;
  readonly data: Uint8Array;
}

/**
 * The archive. No entry has an extra field, so that an ebook's `mimetype` stands where readers look for it.
 * @param pack deflates a batch of entries (RFC 1951), perhaps elsewhere.
 */
export async function zipEntries(entries: readonly EbookEntry[], pack: Pack = packHere): Promise<Uint8Array> {
  checkNames(entries);
  const batch = joined(entries.filter((entry) => entry.compress).map((entry) => entry.bytes));
  const checks = entries.map((entry) => crcOf(entry.bytes));
  const packed = streamsOf(await pack(batch));
  const members = entries.map(({ path, bytes, compress }, index): Member => {
    const data = compress ? packed.shift() : bytes;
    if (!data) throw new RangeError(`no packed bytes for ${path}`);
    const name = new TextEncoder().encode(path);
    return { name, method: compress ? DEFLATED : STORED, crc: checks[index] ?? 0, size: bytes.length, data };
  });
  return archiveOf(members);
}

async function packHere(batch: Batch): Promise<Batch> {
  return packBatch(batch, 'zip');
}

function checkNames(entries: readonly EbookEntry[]): void {
  const seen = new Set<string>();
  for (const { path } of entries) {
    if (seen.has(path)) throw new RangeError(`two entries named ${JSON.stringify(path)}`);
    seen.add(path);
  }
}

/** Local headers with their data, the central directory, its end. */
function archiveOf(members: readonly Member[]): Uint8Array {
  const size = sizeOf(members);
  if (size > MOST_BYTES || members.length > MOST_ENTRIES) throw new RangeError(`an archive of ${size} bytes`);
  const bytes = new Uint8Array(size);
  const view = new DataView(bytes.buffer);
  let at = 0;
  const starts = members.map((member) => {
    const start = at;
    view.setUint32(at, LOCAL, true);
    writeFacts(view, at + 4, member);
    bytes.set(member.name, at + LOCAL_SIZE);
    bytes.set(member.data, at + LOCAL_SIZE + member.name.length);
    at += LOCAL_SIZE + member.name.length + member.data.length;
    return start;
  });
  const directory = at;
  for (const [index, member] of members.entries()) {
    view.setUint32(at, CENTRAL, true);
    view.setUint16(at + 4, VERSION, true);
    writeFacts(view, at + 6, member);
    view.setUint32(at + 42, starts[index] ?? 0, true);
    bytes.set(member.name, at + CENTRAL_SIZE);
    at += CENTRAL_SIZE + member.name.length;
  }
  view.setUint32(at, END, true);
  view.setUint16(at + 8, members.length, true);
  view.setUint16(at + 10, members.length, true);
  view.setUint32(at + 12, at - directory, true);
  view.setUint32(at + 16, directory, true);
  return bytes;
}

function sizeOf(members: readonly Member[]): number {
  return members.reduce(
    (sum, { name, data }) => sum + LOCAL_SIZE + CENTRAL_SIZE + 2 * name.length + data.length,
    END_SIZE,
  );
}

/** What stands in a local header and in the directory alike, from the version on (APPNOTE 4.3.7 and 4.3.12). */
function writeFacts(view: DataView, at: number, { name, method, crc, size, data }: Member): void {
  view.setUint16(at, VERSION, true);
  view.setUint16(at + 2, UTF8, true);
  view.setUint16(at + 4, method, true);
  view.setUint16(at + 6, TIME, true);
  view.setUint16(at + 8, DATE, true);
  view.setUint32(at + 10, crc, true);
  view.setUint32(at + 14, data.length, true);
  view.setUint32(at + 18, size, true);
  view.setUint16(at + 22, name.length, true);
}
