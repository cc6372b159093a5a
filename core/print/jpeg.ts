/** What a PDF must say about a JPEG file that it carries as it is. In: the file; out: size and colours from its frame. */

export interface JpegFrame {
  readonly width: number;
  readonly height: number;
  readonly bits: number;
  /** 1 grey, 3 colour, 4 CMYK. */
  readonly components: 1 | 3 | 4;
  /** True where CMYK values are written the other way round, as files with an Adobe marker have them. */
  readonly inverted: boolean;
}

const START_OF_IMAGE = 0xd8;
const ADOBE = 0xee;

/** Reads the frame header (ITU T.81, B.2.2); null for a file that is no JPEG that can be printed. */
export function readJpegFrame(bytes: Uint8Array): JpegFrame | null {
  if (bytes[0] !== 0xff || bytes[1] !== START_OF_IMAGE) return null;
  let adobe = false;
  for (let at = 2; at + 9 < bytes.length; ) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1]!;
    if (marker === 0xff || isAlone(marker)) {
      at += marker === 0xff ? 1 : 2;
      continue;
    }
    if (isFrame(marker)) return frameAt(bytes, at + 4, adobe);
    if (marker === ADOBE) adobe = isAdobe(bytes, at + 4);
    at += 2 + ((bytes[at + 2]! << 8) | bytes[at + 3]!);
  }
  return null;
}

function frameAt(bytes: Uint8Array, at: number, adobe: boolean): JpegFrame | null {
  const bits = bytes[at]!;
  const height = (bytes[at + 1]! << 8) | bytes[at + 2]!;
  const width = (bytes[at + 3]! << 8) | bytes[at + 4]!;
  const components = bytes[at + 5]!;
  if (width === 0 || height === 0 || bits !== 8) return null;
  if (components !== 1 && components !== 3 && components !== 4) return null;
  return { width, height, bits, components, inverted: adobe && components === 4 };
}

/** Start of frame, other than the tables and the extension that share the range (C4, C8, CC). */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}

/** Markers without a length. */
function isAlone(marker: number): boolean {
  return marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7);
}

function isAdobe(bytes: Uint8Array, at: number): boolean {
  return [0x41, 0x64, 0x6f, 0x62, 0x65].every((letter, i) => bytes[at + i] === letter);
}
