/** Fonts that travel with the ebook. In: font files; out: what kind they are and whether they may be embedded. */

/** The media type that the bytes show (EPUB 3.3, "core media types": fonts), or null for no font that we know. */
export function fontMediaType(bytes: Uint8Array): string | null {
  const signature = String.fromCharCode(...bytes.subarray(0, 4));
  switch (signature) {
    case 'OTTO':
      return 'font/otf';
    case '\u0000\u0001\u0000\u0000':
    case 'true':
      return 'font/ttf';
    case 'wOFF':
      return 'font/woff';
    case 'wOF2':
      return 'font/woff2';
    default:
      return null;
  }
}

const RESTRICTED = 2;

/**
 * Whether the font's own licence bits allow embedding (OpenType, OS/2 `fsType`, low four bits: 2 forbids it). A file
 * without an OS/2 table that can be read forbids nothing.
 */
export function mayEmbed(bytes: Uint8Array): boolean {
  const type = fontMediaType(bytes);
  if (type !== 'font/otf' && type !== 'font/ttf') return type !== null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tables = bytes.length >= 12 ? view.getUint16(4) : 0;
  for (let index = 0; index < tables; index++) {
    const record = 12 + index * 16;
    if (record + 16 > bytes.length) return true;
    if (view.getUint32(record) !== 0x4f532f32) continue;
    const offset = view.getUint32(record + 8);
    return offset + 10 > bytes.length || (view.getUint16(offset + 8) & 0x000f) !== RESTRICTED;
  }
  return true;
}
