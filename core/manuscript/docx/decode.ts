/** Bytes of an XML part to characters: UTF-8 or UTF-16 as ECMA-376 part 2 asks, and Latin-1 where a file declares it. */
import { strFromU8 } from 'fflate';

export function decodeXml(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return utf16(bytes.subarray(2), 0);
  if (first === 0xfe && second === 0xff) return utf16(bytes.subarray(2), 1);
  if (first === 0x3c && second === 0) return utf16(bytes, 0);
  if (first === 0 && second === 0x3c) return utf16(bytes, 1);
  const declaration = strFromU8(bytes.subarray(0, 120), true);
  const latin = /^<\?xml[^>]*encoding=["'](iso-8859-1|windows-1252|us-ascii)["']/i.test(declaration);
  const text = strFromU8(bytes, latin);
  return text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
}

/** A trailing odd byte is dropped; the XML parser then finds the part unfinished. */
function utf16(bytes: Uint8Array, bigEndian: 0 | 1): string {
  const chunks: string[] = [];
  for (let from = 0; from + 1 < bytes.length; from += 16384) {
    const units: number[] = [];
    const to = Math.min(bytes.length - 1, from + 16384);
    for (let at = from; at < to; at += 2) {
      const [a, b] = [bytes[at]!, bytes[at + 1]!];
      units.push(bigEndian ? (a << 8) | b : (b << 8) | a);
    }
    chunks.push(String.fromCharCode(...units));
  }
  return chunks.join('');
}
