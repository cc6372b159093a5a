import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { makeEbook } from '#ebook';
import type { Pack } from '#print';
import { crcByTable, crcOf } from '../../electron/services/crc.ts';
import { packBatch } from '../../electron/services/packing.ts';
import { zipEntries } from '../../electron/services/zip.ts';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { request } from './request.ts';
import { richBook, richPages } from './rich.ts';

function small() {
  return makeEbook(request(bookValue(book(chapter('One', p('It rained.'))))));
}

// EPUB 3.3, OCF: the first 58 bytes of the container (FACTS E-01).
test('the archive begins with the stored media type and no extra field', async () => {
  const bytes = await zipEntries(small());
  const text = (from: number, to: number): string => String.fromCharCode(...bytes.subarray(from, to));
  expect([...bytes.subarray(0, 4)]).toEqual([0x50, 0x4b, 3, 4]);
  expect([...bytes.subarray(8, 10)]).toEqual([0, 0]);
  expect([...bytes.subarray(26, 30)]).toEqual([8, 0, 0, 0]);
  expect(text(30, 38)).toBe('mimetype');
  expect(text(38, 58)).toBe('application/epub+zip');
});

// FACTS E-02, E-03: methods 0 and 8 only, version 2.0, no extra fields, in all entries.
test('each entry is stored or deflated, in order, without extra fields', async () => {
  const entries = small();
  const headers = localHeaders(await zipEntries(entries));
  expect(headers.map((each) => each.name)).toEqual(entries.map((each) => each.path));
  expect(headers.map((each) => each.method)).toEqual(entries.map((each) => (each.compress ? 8 : 0)));
  expect(new Set(headers.map((each) => each.extra))).toEqual(new Set([0]));
  for (const each of headers) expect([10, 20]).toContain(each.version);
});

test('what goes in comes out', async () => {
  const entries = small();
  const files = unzipSync(await zipEntries(entries));
  expect(Object.keys(files)).toEqual(entries.map((each) => each.path));
  for (const entry of entries) expect(Buffer.compare(files[entry.path] ?? new Uint8Array(), entry.bytes)).toBe(0);
});

test('the same book gives the same bytes, in every time zone', async () => {
  const value = richBook();
  const make = (): Promise<Uint8Array> => zipEntries(makeEbook(request(value, { pageStarts: richPages(value) })));
  const first = await make();
  const zone = process.env['TZ'];
  process.env['TZ'] = 'Pacific/Kiritimati';
  try {
    expect(Buffer.compare(await make(), first)).toBe(0);
  } finally {
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
  }
});

test('two entries of one name are a mistake', async () => {
  const [first] = small();
  if (!first) throw new RangeError('no entry');
  await expect(zipEntries([first, first])).rejects.toThrow(RangeError);
});

interface LocalHeader {
  readonly name: string;
  readonly version: number;
  readonly method: number;
  readonly extra: number;
}

/** The local file headers, found by way of the central directory (APPNOTE 4.3.7 and 4.3.12, from memory). */
function localHeaders(bytes: Uint8Array): readonly LocalHeader[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = bytes.length - 22;
  expect(view.getUint32(end, true)).toBe(0x06054b50);
  const headers: LocalHeader[] = [];
  let at = view.getUint32(end + 16, true);
  for (let count = view.getUint16(end + 10, true); count > 0; count--) {
    const local = view.getUint32(at + 42, true);
    const nameLength = view.getUint16(local + 26, true);
    headers.push({
      name: new TextDecoder().decode(bytes.subarray(local + 30, local + 30 + nameLength)),
      version: view.getUint16(local + 4, true),
      method: view.getUint16(local + 8, true),
      extra: view.getUint16(local + 28, true),
    });
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return headers;
}

// The check value of CRC-32: "123456789" gives CBF43926 (the catalogue of parametrised CRC algorithms, from memory).
test('the check sum is that of ISO 3309, by the platform and by our table', () => {
  const digits = new TextEncoder().encode('123456789');
  expect(crcByTable(digits)).toBe(0xcbf43926);
  fc.assert(fc.property(fc.uint8Array(), (bytes) => crcOf(bytes) === crcByTable(bytes)));
});

test('an archive packed elsewhere is the same, and its failure is passed on', async () => {
  const entries = small();
  const later: Pack = async (batch) => packBatch(batch, 'zip');
  expect(Buffer.compare(await zipEntries(entries, later), await zipEntries(entries))).toBe(0);
  await expect(zipEntries(entries, () => Promise.reject(new Error('no room')))).rejects.toThrow('no room');
});
