/**
 * The zip container. In: the bytes of the file; out: parts by name, each unpacked only when asked for, within limits
 * that hold for what really comes out and not only for what the directory claims.
 *
 * APPNOTE.TXT 6.3: end record 4.3.16, directory 4.3.12, local header 4.3.7. Neither ZIP64 nor split archives.
 */
import { Inflate } from 'fflate';
import { crc32 } from './crc.ts';
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
const DIRECTORY = 0x02014b50;
const LOCAL = 0x04034b50;
const STORED = 0;
const DEFLATED = 8;
const SLICE = 256 * 1024;

export class Zip {
  private readonly entries = new Map<string, Entry>();
  private readonly view: DataView;
  private spent = 0;

  /** `file` is how messages call it. */
  constructor(
    private readonly bytes: Uint8Array,
    private readonly file: string,
  ) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.readDirectory();
  }

  /** Lower-case part names without a leading slash. */
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
    this.checkClaims(entry);
    const data = this.unpack(entry);
    if (data.length !== entry.size || crc32(data) !== entry.crc) throw this.damaged(entry);
    return data;
  }

  private readDirectory(): void {
    const end = this.findEnd();
    const count = this.view.getUint16(end + 10, true);
    if (count > LIMITS.entries) {
      throw new Unreadable(`${this.file} holds ${count} parts, more than any manuscript needs, so it is not opened.`);
    }
    let at = this.view.getUint32(end + 16, true);
    for (let index = 0; index < count; index++) at = this.readEntry(at, end);
  }

  private findEnd(): number {
    const lowest = Math.max(0, this.bytes.length - 22 - 0xffff);
    for (let at = this.bytes.length - 22; at >= lowest; at--) {
      if (this.view.getUint32(at, true) === END) return at;
    }
    throw new Unreadable(`${this.file} is cut short: its end is missing. Copy or download it again.`);
  }

  /** Takes one directory record; gives where the next begins. */
  private readEntry(at: number, end: number): number {
    const { view } = this;
    if (at + 46 > end || view.getUint32(at, true) !== DIRECTORY) throw this.damaged(null);
    const flags = view.getUint16(at + 8, true);
    const nameLength = view.getUint16(at + 28, true);
    const next = at + 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > end) throw this.damaged(null);
    const name = latin(this.bytes.subarray(at + 46, at + 46 + nameLength));
    const key = keyOf(name);
    // Of two parts with one name the first counts, so that no later one can stand in for what was looked at.
    if (!this.entries.has(key)) {
      this.entries.set(key, {
        name,
        encrypted: (flags & 1) !== 0,
        method: view.getUint16(at + 10, true),
        crc: view.getUint32(at + 16, true),
        packed: view.getUint32(at + 20, true),
        size: view.getUint32(at + 24, true),
        offset: view.getUint32(at + 42, true),
      });
    }
    return next;
  }

  private checkClaims(entry: Entry): void {
    if (entry.encrypted) {
      throw new Unreadable(`${this.file} is locked with a password. Save it without one and bring it in again.`);
    }
    this.spent += entry.size;
    const bomb = entry.size > LIMITS.ratioFrom && entry.size > entry.packed * LIMITS.ratio;
    if (bomb || entry.size > LIMITS.partBytes || this.spent > LIMITS.totalBytes) {
      throw new Unreadable(`${this.file} unpacks to far more than a manuscript holds, so it is not opened.`);
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
    return this.inflate(data, entry);
  }

  /** In slices, so that a stream that outgrows its claim is dropped before it fills the memory. */
  private inflate(data: Uint8Array, entry: Entry): Uint8Array {
    const out = new Uint8Array(entry.size);
    let length = 0;
    const stream = new Inflate((chunk) => {
      if (length + chunk.length > entry.size) throw this.damaged(entry);
      out.set(chunk, length);
      length += chunk.length;
    });
    try {
      for (let at = 0; at < data.length; at += SLICE) {
        stream.push(data.subarray(at, at + SLICE), at + SLICE >= data.length);
      }
    } catch {
      // fflate throws plain errors with a code; whatever it was, the stream can't be unpacked.
      throw this.damaged(entry);
    }
    return out.subarray(0, length);
  }

  private damaged(entry: Entry | null): Unreadable {
    const where = entry ? `its part ${entry.name} can't be unpacked` : 'its list of parts is broken';
    return new Unreadable(`${this.file} is damaged: ${where}.`);
  }
}

function keyOf(name: string): string {
  return name.replaceAll('\\', '/').replace(/^\/+/, '').toLowerCase();
}

function latin(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes.subarray(0, 4096));
}
