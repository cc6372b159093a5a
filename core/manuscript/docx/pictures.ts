/** What a picture's own bytes say. In: bytes; out: media type and size in pixels, whatever the file name claims. */
import { strFromU8 } from 'fflate';

export interface PictureFacts {
  /** Null where the format is not one that books carry. */
  readonly mediaType: string | null;
  readonly pixels: { readonly width: number; readonly height: number } | null;
}

const NONE: PictureFacts = { mediaType: null, pixels: null };

export function pictureFacts(bytes: Uint8Array): PictureFacts {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const head = strFromU8(bytes.subarray(0, 16), true);
  if (head.startsWith('\x89PNG\r\n\x1a\n') && bytes.length >= 24) {
    return facts('image/png', view.getUint32(16), view.getUint32(20));
  }
  if (head.startsWith('\xff\xd8\xff')) return jpeg(view);
  if (/^GIF8[79]a/.test(head) && bytes.length >= 10) {
    return facts('image/gif', view.getUint16(6, true), view.getUint16(8, true));
  }
  if (/^RIFF....WEBP/s.test(head) && bytes.length >= 30) return webp(view);
  if (isPlainSvg(bytes)) return { mediaType: 'image/svg+xml', pixels: null };
  return NONE;
}

function facts(mediaType: string, width: number, height: number): PictureFacts {
  return width > 0 && height > 0 ? { mediaType, pixels: { width, height } } : NONE;
}

/** ISO/IEC 10918-1 annex B: walks the markers to the frame header, which holds height and width. */
function jpeg(view: DataView): PictureFacts {
  let at = 2;
  while (at + 9 < view.byteLength) {
    if (view.getUint8(at) !== 0xff) return NONE;
    const marker = view.getUint8(at + 1);
    const frame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (frame) return facts('image/jpeg', view.getUint16(at + 7), view.getUint16(at + 5));
    const alone = marker === 0xff || marker === 1 || (marker >= 0xd0 && marker <= 0xd8);
    at += marker === 0xff ? 1 : alone ? 2 : 2 + view.getUint16(at + 2);
  }
  return NONE;
}

/** The three kinds of WebP header (RFC 9649, 2.4 to 2.7). */
function webp(view: DataView): PictureFacts {
  const kind = view.getUint8(15);
  if (kind === 0x58) {
    const three = (at: number) => view.getUint16(at, true) | (view.getUint8(at + 2) << 16);
    return facts('image/webp', three(24) + 1, three(27) + 1);
  }
  if (kind === 0x4c) {
    const bits = view.getUint32(21, true);
    return facts('image/webp', (bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1);
  }
  return facts('image/webp', view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff);
}

/** What could run, load or unfold something when the drawing is shown. */
const ACTIVE =
  /<script|<!doctype|<!entity|<foreignobject|\son[a-z]+\s*=|javascript:|href\s*=\s*["'](?!#|data:image\/)/i;

/** A drawing without script, entities or references to other files; others are not taken. */
function isPlainSvg(bytes: Uint8Array): boolean {
  const head = strFromU8(bytes.subarray(0, 2048))
    .replace(/^\uFEFF/, '')
    .trimStart();
  return head.startsWith('<') && /<svg[\s>]/.test(head) && !ACTIVE.test(strFromU8(bytes));
}
