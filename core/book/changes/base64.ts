/** Bytes as text and back (RFC 4648, section 4), for assets that travel in a change. */

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const VALUES = new Int8Array(128).fill(-1);
for (let value = 0; value < 64; value++) VALUES[DIGITS.charCodeAt(value)] = value;

/** Bytes to a piece of text: a multiple of three, so that only the last piece is padded. */
const PIECE = 3 * 4096;

export function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let start = 0; start < bytes.length; start += PIECE) {
    pieces.push(encodedPiece(bytes.subarray(start, start + PIECE)));
  }
  return pieces.join('');
}

/** The bytes, or null where the text is not base64 with its padding. */
export function fromBase64(text: string): Uint8Array | null {
  if (text.length % 4 !== 0) return null;
  const padding = text.endsWith('==') ? 2 : text.endsWith('=') ? 1 : 0;
  const bytes = new Uint8Array((text.length / 4) * 3 - padding);
  let byte = 0;
  for (let index = 0; index < text.length; index += 4) {
    const group = groupAt(text, index, index + 4 === text.length ? padding : 0);
    if (group < 0) return null;
    for (let shift = 16; shift >= 0 && byte < bytes.length; shift -= 8) bytes[byte++] = (group >> shift) & 0xff;
  }
  return bytes;
}

/** Four digits as 24 bits, or -1 where one is no digit. */
function groupAt(text: string, index: number, padding: number): number {
  let group = 0;
  for (let place = 0; place < 4; place++) {
    const value = place >= 4 - padding ? 0 : (VALUES[text.charCodeAt(index + place)] ?? -1);
    if (value < 0) return -1;
    group = (group << 6) | value;
  }
  return group;
}

function encodedPiece(bytes: Uint8Array): string {
  let text = '';
  for (let index = 0; index < bytes.length; index += 3) {
    const left = bytes.length - index;
    const group = (bytes[index]! << 16) | ((bytes[index + 1] ?? 0) << 8) | (bytes[index + 2] ?? 0);
    text += DIGITS.charAt(group >> 18) + DIGITS.charAt((group >> 12) & 63);
    text += (left > 1 ? DIGITS.charAt((group >> 6) & 63) : '=') + (left > 2 ? DIGITS.charAt(group & 63) : '=');
  }
  return text;
}
