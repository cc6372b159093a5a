/**
 * The zip container, written without copying what is large. In: entries in order; out: its bytes in parts, in which pictures
 * stand as they are in memory. A picture is summed once, however often the book is saved.
 */
import { type FlateError, Zip, ZipDeflate, ZipPassThrough } from 'fflate';

/** A zip's dates are local times: one written without a zone reads the same everywhere. */
const DATE = '1980-01-01T12:00:00';

/** The level of the deflated entries: beyond it books shrink by hundredths and take twice the time. */
const LEVEL = 6;

export interface Entry {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** `deflated` by us, `stored` as it is, or as somebody else has deflated it (RFC 1951). */
  readonly how: 'deflated' | 'stored' | { readonly packed: Uint8Array };
}

/** The parts of a container; one after the other they are the file. */
export function containerOf(entries: readonly Entry[]): readonly Uint8Array[] {
  const parts: Uint8Array[] = [];
  const zip = new Zip((problem: FlateError | null, part) => {
    if (problem) throw problem;
    if (part.length > 0) parts.push(part);
  });
  for (const { name, bytes, how } of entries) {
    const entry = entryOf(name, how);
    entry.mtime = DATE;
    zip.add(entry);
    entry.push(bytes, true);
  }
  zip.end();
  return parts;
}

function entryOf(name: string, how: Entry['how']): ZipPassThrough | ZipDeflate {
  if (how === 'stored') return new Stored(name);
  return how === 'deflated' ? new ZipDeflate(name, { level: LEVEL }) : new Packed(name, how.packed);
}

/** CRC-32 of bytes that were stored before. What was once given to a book is never written to. */
const sums = new WeakMap<Uint8Array, number>();

class Stored extends ZipPassThrough {
  override push(bytes: Uint8Array, final: boolean): void {
    const sum = sums.get(bytes);
    if (sum === undefined) {
      super.push(bytes, final);
      sums.set(bytes, this.crc);
    } else {
      this.crc = sum;
      this.size = bytes.length;
      // The library takes any bytes here, as its own `push` does; only its types are narrower.
      this.process(bytes as Uint8Array<ArrayBuffer>, final);
    }
  }
}

/** The number by which a zip knows deflated entries (APPNOTE, 4.4.5). */
const DEFLATED = 8;

/** Summed by what it is, written as it was packed. */
class Packed extends ZipPassThrough {
  constructor(
    name: string,
    private readonly packed: Uint8Array,
  ) {
    super(name);
    this.compression = DEFLATED;
  }

  protected override process(_bytes: Uint8Array, final: boolean): void {
    this.ondata(null, this.packed as Uint8Array<ArrayBuffer>, final);
  }
}
