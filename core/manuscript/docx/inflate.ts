/** Unpacking without help from the host. In: a raw deflate stream (RFC 1951); out: its bytes. */
import { Inflate as InflateStream } from 'fflate';

/**
 * Unpacks a raw deflate stream that is said to give `size` bytes. Throws where the stream is damaged or gives more; a
 * stream that gives less is for the caller to notice. A host may have a faster one than `inflateInSlices`.
 */
export type Inflate = (data: Uint8Array, size: number) => Uint8Array;

const SLICE = 256 * 1024;

/** In slices, so that a stream that outgrows its claim is dropped before it fills the memory. */
export const inflateInSlices: Inflate = (data, size) => {
  const out = new Uint8Array(size);
  let length = 0;
  const stream = new InflateStream((chunk) => {
    if (length + chunk.length > size) throw new RangeError(`more than the ${size} bytes announced`);
    out.set(chunk, length);
    length += chunk.length;
  });
  for (let at = 0; at < data.length; at += SLICE) {
    stream.push(data.subarray(at, at + SLICE), at + SLICE >= data.length);
  }
  return out.subarray(0, length);
};
