/**
 * A PNG file as samples for print. In: the file; out: grey or colour samples of eight bits, or of one bit for pure line
 * art, on white paper: a transparent picture is laid on white, since presses know no transparency.
 */
import { type DecodedPng, decode } from 'fast-png';

export interface Samples {
  readonly width: number;
  readonly height: number;
  readonly bits: 1 | 8;
  readonly components: 1 | 3;
  readonly data: Uint8Array;
}

const WHITE = 255;

/** Decodes a PNG file; null for one that is damaged. */
export function readPng(bytes: Uint8Array): Samples | null {
  const decoded = decodeOrNull(bytes);
  if (!decoded) return null;
  const { width, height } = decoded;
  const colour = onWhite(decoded);
  const grey = greyOf(colour);
  if (!grey) return { width, height, bits: 8, components: 3, data: colour };
  const line = lineArtOf(grey, width, height);
  if (line) return { width, height, bits: 1, components: 1, data: line };
  return { width, height, bits: 8, components: 1, data: grey };
}

function decodeOrNull(bytes: Uint8Array): DecodedPng | null {
  try {
    return decode(bytes);
  } catch {
    // The decoder has one plain error for whatever is wrong with a file.
    return null;
  }
}

/** Red, green and blue of every pixel. */
function onWhite(png: DecodedPng): Uint8Array {
  const pixels = png.width * png.height;
  const out = new Uint8Array(pixels * 3);
  const read = pixelReader(png);
  const pixel = new Uint8Array(4);
  for (let i = 0; i < pixels; i++) {
    read(i, pixel);
    const alpha = pixel[3]!;
    for (let k = 0; k < 3; k++) {
      const value = pixel[k]!;
      out[i * 3 + k] = alpha === 255 ? value : Math.round((value * alpha + WHITE * (255 - alpha)) / 255);
    }
  }
  return out;
}

type PixelReader = (index: number, into: Uint8Array) => void;

/** How to read one pixel as red, green, blue and alpha of eight bits each. */
function pixelReader(png: DecodedPng): PixelReader {
  const sample = sampleReader(png);
  if (png.palette) return paletteReader(sample, png.palette);
  const { channels } = png;
  const grey = channels < 3;
  const hasAlpha = channels === 2 || channels === 4;
  const clear = png.transparency;
  const max = 2 ** png.depth - 1;
  const scale = 255 / max;
  return (index, into) => {
    const at = index * channels;
    const first = sample(at);
    const second = grey ? first : sample(at + 1);
    const third = grey ? first : sample(at + 2);
    into[0] = Math.round(first * scale);
    into[1] = Math.round(second * scale);
    into[2] = Math.round(third * scale);
    into[3] = hasAlpha ? Math.round(sample(at + channels - 1) * scale) : 255;
    if (clear && first === clear[0] && (grey || (second === clear[1] && third === clear[2]))) into[3] = 0;
  };
}

function paletteReader(sample: (at: number) => number, palette: readonly number[][]): PixelReader {
  return (index, into) => {
    const entry = palette[sample(index)] ?? [WHITE, WHITE, WHITE];
    into[0] = entry[0]!;
    into[1] = entry[1]!;
    into[2] = entry[2]!;
    into[3] = entry[3] ?? 255;
  };
}

/** Samples of fewer than eight bits are packed, each row beginning on a byte. */
function sampleReader({ data, depth, width, channels }: DecodedPng): (at: number) => number {
  if (depth >= 8) return (at) => data[at]!;
  const perRow = width * channels;
  const rowBytes = Math.ceil((perRow * depth) / 8);
  const mask = 2 ** depth - 1;
  return (at) => {
    const row = Math.floor(at / perRow);
    const bit = (at - row * perRow) * depth;
    return (data[row * rowBytes + (bit >> 3)]! >> (8 - depth - (bit & 7))) & mask;
  };
}

/** One sample a pixel where red, green and blue are equal throughout, else null. */
function greyOf(colour: Uint8Array): Uint8Array | null {
  const grey = new Uint8Array(colour.length / 3);
  for (let i = 0; i < grey.length; i++) {
    const value = colour[i * 3]!;
    if (colour[i * 3 + 1] !== value || colour[i * 3 + 2] !== value) return null;
    grey[i] = value;
  }
  return grey;
}

/** One bit a pixel, 1 for white, where there is only black and white, else null. */
function lineArtOf(grey: Uint8Array, width: number, height: number): Uint8Array | null {
  const rowBytes = Math.ceil(width / 8);
  const bits = new Uint8Array(rowBytes * height);
  for (let i = 0; i < grey.length; i++) {
    const value = grey[i]!;
    if (value !== 0 && value !== WHITE) return null;
    const x = i % width;
    if (value) bits[((i - x) / width) * rowBytes + (x >> 3)]! |= 0x80 >> (x & 7);
  }
  return bits;
}
