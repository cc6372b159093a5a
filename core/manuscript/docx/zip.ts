/**
 * The zip container. In: the bytes of the file; out: parts by name, each unpacked only when asked for, within limits
 * that hold for what really comes out and not only for what the directory claims.
 *
 * APPNOTE.TXT 6.3: end record 4.3.16, directory 4.3.12, local header 4.3.7; ZIP64 4.3.14, 4.3.15 and 4.5.3, as some
 * writers use it even for small files. Archives split over several files are not read.
 */
import { strFromU8 } from 'fflate';
import { crc32 } from './crc.ts';
import type { Inflate } from './inflate.ts';
import { LIMITS, Unreadable } from './limits.ts';

interface Entry {
  readonly name: string;
  readonly encrypted: boolean;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly size: number;
  readonly offset: number;
}

const END = 0x06054b50;
const END_64 = 0x06064b50;
const LOCATOR_64 = 0x07064b50;
const DIRECTORY = 0x02014b50;
const LOCAL = 0x04034b50;
const STORED = 0;
const DEFLATED = 8;
/** In a 32-bit field: the value is in the ZIP64 record instead. */
const ELSEWHERE = 0xffffffff;

export class Zip {
  private readonly entries = new Map<string, Entry>();
  private readonly view: DataView;
  private claimed = 0;

  /** `file` is how messages call it. */
  constructor(
    private readonly bytes: Uint8Array,
    private readonly file: string,
    private readonly inflate: Inflate,
  ) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.readDirectory();
  }

  /** Part names in lower case without a leading slash. */
  names(): Iterable<string> {
    return this.entries.keys();
  }

  has(name: string): boolean {
    return this.entries.has(keyOf(name));
  }

  /** The part's bytes, or null if there is none of that name (upper and lower case count as equal). */
  read(name: string): Uint8Array | null {
    const entry = this.entries.get(keyOf(name));
    if (!entry) return null;
    this.checkOpen(entry);
    const data = this.unpack(entry);
    if (data.length !== entry.size || crc32(data) !== entry.crc) throw this.damaged(entry);
    return data;
  }

  private readDirectory(): void {
    const end = this.findEnd();
    let count = this.view.getUint16(end + 10, true);
    let at = this.view.getUint32(end + 16, true);
    const wide = this.findWideEnd(end);
    if (wide !== null) {
      count = this.wideNumber(wide + 32);
      at = this.wideNumber(wide + 48);
    }
    if (count > LIMITS.entries) {
      throw new Unreadable(`${this.file} holds ${count} parts, more than any manuscript needs, so it is not opened.`);
    }
    for (let index = 0; index < count; index++) at = this.readEntry(at, end);
  }

  private findEnd(): number {
    const lowest = Math.max(0, this.bytes.length - 22 - 0xffff);
    for (let at = this.bytes.length - 22; at >= lowest; at--) {
      if (this.view.getUint32(at, true) === END) return at;
    }
    throw new Unreadable(`${this.file} is cut short: its end is missing. Copy or download it again.`);
  }

  private findWideEnd(end: number): number | null {
    const locator = end - 20;
    if (locator < 0 || this.view.getUint32(locator, true) !== LOCATOR_64) return null;
    const at = this.wideNumber(locator + 8);
    if (at + 56 > locator || this.view.getUint32(at, true) !== END_64) throw this.damaged(null);
    return at;
  }

  /** A 64-bit number; beyond what a number holds exactly it is too large for any use here. */
  private wideNumber(at: number): number {
    return this.view.getUint32(at, true) + this.view.getUint32(at + 4, true) * 2 ** 32;
  }

  /** Takes one directory record; gives where the next begins. */
  private readEntry(at: number, end: number): number {
    const { view } = this;
    if (at + 46 > end || view.getUint32(at, true) !== DIRECTORY) throw this.damaged(null);
    const flags = view.getUint16(at + 8, true);
    const extra = at + 46 + view.getUint16(at + 28, true);
    const comment = extra + view.getUint16(at + 30, true);
    const next = comment + view.getUint16(at + 32, true);
    if (next > end) throw this.damaged(null);
    const entry: Entry = {
      name: nameOf(this.bytes.subarray(at + 46, extra)),
      encrypted: (flags & 1) !== 0,
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      ...this.readSizes(at, extra, comment),
    };
    this.checkClaims(entry);
    const key = keyOf(entry.name);
    // Of two parts with one name the first counts, so that no later one can stand in for what was looked at.
    if (!this.entries.has(key)) this.entries.set(key, entry);
    return next;
  }

  private readSizes(at: number, extra: number, extraEnd: number): Pick<Entry, 'packed' | 'size' | 'offset'> {
    let wide = this.findWideField(extra, extraEnd);
    const read = (field: number) => {
      const value = this.view.getUint32(at + field, true);
      if (value !== ELSEWHERE || wide === null || wide + 8 > extraEnd) return value;
      wide += 8;
      return this.wideNumber(wide - 8);
    };
    // The order of the ZIP64 field: size, packed size, offset, each only where its own field says so.
    const size = read(24);
    const packed = read(20);
    return { size, packed, offset: read(42) };
  }

  private findWideField(from: number, to: number): number | null {
    for (let at = from; at + 4 <= to; at += 4 + this.view.getUint16(at + 2, true)) {
      if (this.view.getUint16(at, true) === 1) return at + 4;
    }
    return null;
  }

  /** Every part counts, also those never asked for: a file with a bomb in it is no manuscript. */
  private checkClaims(entry: Entry): void {
    this.claimed += entry.size;
    const bomb = entry.size > LIMITS.ratioFrom && entry.size > entry.packed * LIMITS.ratio;
    if (bomb || entry.size > LIMITS.partBytes || this.claimed > LIMITS.totalBytes) {
      throw new Unreadable(`${this.file} unpacks to far more than a manuscript holds, so it is not opened.`);
    }
  }

  private checkOpen(entry: Entry): void {
    if (entry.encrypted) {
      throw new Unreadable(`${this.file} is locked with a password. Save it without one and bring it in again.`);
    }
  }

  private unpack(entry: Entry): Uint8Array {
    const { offset, packed } = entry;
    if (offset + 30 > this.bytes.length || this.view.getUint32(offset, true) !== LOCAL) throw this.damaged(entry);
    const start = offset + 30 + this.view.getUint16(offset + 26, true) + this.view.getUint16(offset + 28, true);
    if (start + packed > this.bytes.length) throw this.damaged(entry);
    const data = this.bytes.subarray(start, start + packed);
    if (entry.method === STORED) return data;
    if (entry.method !== DEFLATED) throw this.damaged(entry);
    try {
      return this.inflate(data, entry.size);
    } catch {
      // Each library has its own plain errors; whatever it was, the stream can't be unpacked.
      throw this.damaged(entry);
    }
  }

  private damaged(entry: Entry | null): Unreadable {
    const where = entry ? `its part ${entry.name} can't be unpacked` : 'its list of parts is broken';
    return new Unreadable(`${this.file} is damaged: ${where}.`);
  }
}

/** UTF-8 where it can be, whether or not the writer set the flag for it; else one byte a character. */
function nameOf(bytes: Uint8Array): string {
  const name = strFromU8(bytes);
  return name.includes('\uFFFD') ? strFromU8(bytes, true) : name;
}

/** Names compare without regard to case, direction of slashes or percent encoding (ECMA-376 part 2, 6.2.2). */
function keyOf(name: string): string {
  return decoded(name).replaceAll('\\', '/').replace(/^\/+/, '').toLowerCase();
}

function decoded(name: string): string {
  if (!name.includes('%')) return name;
  try {
    return decodeURIComponent(name);
  } catch (problem) {
    if (problem instanceof URIError) return name;
    throw problem;
  }
}
