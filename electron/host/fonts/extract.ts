/**
 * One face of a collection as a font file of its own. In: the bytes of a .ttc and a face's place in it; out: bytes with
 * one table directory, the tables copied as they are (OpenType specification 1.9, "Font Collections").
 */

const HEADER = 12;
const RECORD = 16;
const COLLECTION = 0x74746366;

/** The face's bytes; a file of one face as it is; null where the file is damaged. */
export function faceBytes(bytes: Uint8Array, index: number): Uint8Array | null {
  try {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    return view.getUint32(0) === COLLECTION ? extracted(bytes, view, view.getUint32(HEADER + index * 4)) : bytes;
  } catch (problem) {
    // DataView's own check is the bound on every offset that a damaged file may name.
    if (problem instanceof RangeError) return null;
    throw problem;
  }
}

function extracted(bytes: Uint8Array, view: DataView, directory: number): Uint8Array {
  const count = view.getUint16(directory + 4);
  const records = Array.from({ length: count }, (_, at) => directory + HEADER + at * RECORD);
  const size = records.reduce((sum, record) => sum + padded(view.getUint32(record + 12)), HEADER + count * RECORD);
  // Tables may lie inside each other in a hostile file, but never add up to much more than the file.
  if (size > 2 * bytes.length + HEADER) throw new RangeError(`a face of ${size} bytes`);
  const out = new Uint8Array(size);
  const outView = new DataView(out.buffer);
  out.set(bytes.subarray(directory, directory + HEADER));
  let place = HEADER + count * RECORD;
  records.forEach((record, at) => {
    const [offset, length] = [view.getUint32(record + 8), view.getUint32(record + 12)];
    if (offset + length > bytes.length) throw new RangeError(`a table that ends at ${offset + length}`);
    const to = HEADER + at * RECORD;
    out.set(bytes.subarray(record, record + RECORD), to);
    outView.setUint32(to + 8, place);
    out.set(bytes.subarray(offset, offset + length), place);
    place += padded(length);
  });
  return out;
}

/** Tables begin at multiples of four. */
function padded(length: number): number {
  return (length + 3) & ~3;
}
