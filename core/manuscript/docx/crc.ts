/** CRC-32 as zip files use it (APPNOTE.TXT 4.4.7): reflected polynomial 0xEDB88320, four bytes a step. */

const TABLES = makeTables();

function makeTables(): Uint32Array {
  const tables = new Uint32Array(1024);
  for (let byte = 0; byte < 256; byte++) {
    let value = byte;
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
    tables[byte] = value;
  }
  for (let at = 256; at < 1024; at++) {
    const before = tables[at - 256]!;
    tables[at] = (before >>> 8) ^ tables[before & 255]!;
  }
  return tables;
}

/** The checksum as an unsigned number. */
export function crc32(bytes: Uint8Array): number {
  const t = TABLES;
  const whole = bytes.length & ~3;
  let crc = -1;
  for (let at = 0; at < whole; at += 4) {
    crc ^= bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24);
    crc =
      t[768 + (crc & 255)]! ^ t[512 + ((crc >>> 8) & 255)]! ^ t[256 + ((crc >>> 16) & 255)]! ^ t[(crc >>> 24) & 255]!;
  }
  for (let at = whole; at < bytes.length; at++) crc = (crc >>> 8) ^ t[(crc ^ bytes[at]!) & 255]!;
  return ~crc >>> 0;
}
