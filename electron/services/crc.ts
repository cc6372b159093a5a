/** CRC-32 with the polynomial of ISO 3309, as ZIP archives and PNG files check their parts by. In: bytes; out: 32 bits. */
import * as zlib from 'node:zlib';

/** The platform's own where there is one (Node 20.15, 22.2), which takes a fiftieth of the time. */
export const crcOf: (bytes: Uint8Array) => number = zlib.crc32 ?? crcByTable;

/** Byte by byte with a table of remainders (ISO/IEC 15948, annex D). */
export function crcByTable(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (TABLE[(crc ^ byte) & 0xff] ?? 0) ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}

const TABLE = Int32Array.from({ length: 256 }, (_, index) => {
  let value = index;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});
