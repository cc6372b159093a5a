/**
 * Entries into a ZIP archive as EPUB's container asks (EPUB 3.3, OCF "ZIP container"). In: entries in their order; out:
 * bytes that depend on nothing but the entries: neither clock, time zone nor machine shows in them. Fields after
 * APPNOTE.TXT 6.3.9: local header 4.3.7, directory 4.3.12, end record 4.3.16. Packed by the zlib that comes with Node.
 */
import { crc32, deflateRawSync } from 'node:zlib';
import type { EbookEntry } from '#ebook';

const LEVEL = 6;
const STORED = 0;
const DEFLATED = 8;
const VERSION = 20;
/** Names are in UTF-8. */
const UTF8_NAMES = 0x0800;
/** The first day of ZIP's calendar, 1 January 1980, at noon. */
const NOON = 12 << 11;
const FIRST_DAY = (1 << 5) | 1;

const LOCAL_BYTES = 30;
const DIRECTORY_BYTES = 46;
const END_BYTES = 22;

interface Packed {
  readonly name: Buffer;
  readonly method: number;
  readonly data: Uint8Array;
  readonly crc: number;
  readonly size: number;
}

/** The archive. No entry has an extra field, so that an ebook's `mimetype` stands where readers look for it. */
export function zipEntries(entries: readonly EbookEntry[]): Uint8Array {
  const seen = new Set<string>();
  const parts: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let offset = 0;
  for (const entry of entries) {
    if (seen.has(entry.path)) throw new RangeError(`two entries named ${JSON.stringify(entry.path)}`);
    seen.add(entry.path);
    const packed = pack(entry);
    parts.push(localHeader(packed), packed.name, packed.data);
    directory.push(directoryRecord(packed, offset), packed.name);
    offset += LOCAL_BYTES + packed.name.length + packed.data.length;
  }
  const size = directory.reduce((sum, part) => sum + part.length, 0);
  return Buffer.concat([...parts, ...directory, endRecord(entries.length, size, offset)]);
}

function pack({ path, bytes, compress }: EbookEntry): Packed {
  const data = compress ? deflateRawSync(bytes, { level: LEVEL }) : bytes;
  const method = compress ? DEFLATED : STORED;
  return { name: Buffer.from(path, 'utf8'), method, data, crc: crc32(bytes), size: bytes.length };
}

function localHeader(packed: Packed): Uint8Array {
  const record = Buffer.alloc(LOCAL_BYTES);
  record.writeUInt32LE(0x04034b50, 0);
  writeFacts(packed, record, 4);
  return record;
}

function directoryRecord(packed: Packed, offset: number): Uint8Array {
  const record = Buffer.alloc(DIRECTORY_BYTES);
  record.writeUInt32LE(0x02014b50, 0);
  record.writeUInt16LE(VERSION, 4);
  writeFacts(packed, record, 6);
  record.writeUInt32LE(offset, 42);
  return record;
}

/** What the local header and the directory say alike; no extra field. */
function writeFacts({ name, method, data, crc, size }: Packed, record: Buffer, at: number): void {
  const fields: readonly (readonly [width: 2 | 4, value: number])[] = [
    [2, VERSION],
    [2, name.length === name.toString('utf8').length ? 0 : UTF8_NAMES],
    [2, method],
    [2, NOON],
    [2, FIRST_DAY],
    [4, crc],
    [4, data.length],
    [4, size],
    [2, name.length],
  ];
  let place = at;
  for (const [width, value] of fields) place = record.writeUIntLE(value, place, width);
}

function endRecord(count: number, size: number, offset: number): Uint8Array {
  const record = Buffer.alloc(END_BYTES);
  record.writeUInt32LE(0x06054b50, 0);
  record.writeUInt16LE(count, 8);
  record.writeUInt16LE(count, 10);
  record.writeUInt32LE(size, 12);
  record.writeUInt32LE(offset, 16);
  return record;
}
