/** A growing run of bytes with the few ways of writing that PDF files need. */

const ZERO = 48;
const MINUS = 45;
const POINT = 46;
const SPACE = 32;
const OPEN = 40;
const CLOSE = 41;
const RETURN = 13;
const LETTER_R = 114;
const BACKSLASH = 92;
/** More bytes than a number or an escaped unit of a string can take. */
const ROOM = 20;

/** 1 for each byte that must be escaped in a literal string (ISO 32000-1, 7.3.4.2). */
const ESCAPED = new Uint8Array(256);
for (const byte of [OPEN, CLOSE, BACKSLASH, RETURN]) ESCAPED[byte] = 1;

export class ByteSink {
  private bytes: Uint8Array;
  private length = 0;

  constructor(capacity = 1 << 16) {
    this.bytes = new Uint8Array(capacity);
  }

  get size(): number {
    return this.length;
  }

  /** Forgets what was written and keeps the room. */
  clear(): void {
    this.length = 0;
  }

  /** A copy of what was written. */
  copy(): Uint8Array {
    return this.bytes.slice(0, this.length);
  }

  /** What was written, valid until the next write. */
  view(): Uint8Array {
    return this.bytes.subarray(0, this.length);
  }

  /** One byte a character. */
  text(text: string): void {
    this.reserve(text.length);
    const { bytes, length } = this;
    for (let i = 0; i < text.length; i++) bytes[length + i] = text.charCodeAt(i);
    this.length = length + text.length;
  }

  /** Bytes as they are. */
  append(bytes: Uint8Array): void {
    this.reserve(bytes.length);
    this.bytes.set(bytes, this.length);
    this.length += bytes.length;
  }

  byte(value: number): void {
    this.reserve(1);
    this.bytes[this.length++] = value;
  }

  /** Two bytes inside a literal string, escaped where the syntax asks for it (ISO 32000-1, 7.3.4.2). */
  stringUnit(unit: number): void {
    this.reserve(ROOM);
    const high = unit >> 8;
    const low = unit & 255;
    if (ESCAPED[high]! | ESCAPED[low]!) {
      this.stringByte(high);
      this.stringByte(low);
      return;
    }
    const { bytes, length } = this;
    bytes[length] = high;
    bytes[length + 1] = low;
    this.length = length + 2;
  }

  /** The same for units of a list, from the first to before the last. */
  stringUnits(units: Uint16Array, from: number, to: number): void {
    this.reserve((to - from) * 4);
    const { bytes } = this;
    let { length } = this;
    for (let i = from; i < to; i++) {
      const unit = units[i]!;
      const high = unit >> 8;
      const low = unit & 255;
      if (ESCAPED[high]! | ESCAPED[low]!) {
        this.length = length;
        this.stringByte(high);
        this.stringByte(low);
        length = this.length;
      } else {
        bytes[length] = high;
        bytes[length + 1] = low;
        length += 2;
      }
    }
    this.length = length;
  }

  /** A whole number from 0. */
  whole(value: number): void {
    this.reserve(ROOM);
    this.digits(value);
  }

  /** A whole number of thousandths as a decimal: 12500 -> `12.5`. */
  decimal(value: number): void {
    this.reserve(ROOM);
    let rest = value;
    if (rest < 0) {
      this.bytes[this.length++] = MINUS;
      rest = -rest;
    }
    const whole = Math.floor(rest / 1000);
    this.digits(whole);
    if (rest !== whole * 1000) this.fraction(rest - whole * 1000);
  }

  /** The same, and a space. */
  thousandths(value: number): void {
    this.decimal(value);
    this.bytes[this.length++] = SPACE;
  }

  private fraction(thousandths: number): void {
    const hundreds = Math.floor(thousandths / 100);
    const tens = Math.floor(thousandths / 10) % 10;
    const ones = thousandths % 10;
    this.bytes[this.length++] = POINT;
    this.bytes[this.length++] = ZERO + hundreds;
    if (tens || ones) this.bytes[this.length++] = ZERO + tens;
    if (ones) this.bytes[this.length++] = ZERO + ones;
  }

  private digits(value: number): void {
    if (value >= 10) this.digits(Math.floor(value / 10));
    this.bytes[this.length++] = ZERO + (value % 10);
  }

  private stringByte(value: number): void {
    if (ESCAPED[value]) this.bytes[this.length++] = BACKSLASH;
    // A bare carriage return would be read as a line feed.
    this.bytes[this.length++] = value === RETURN ? LETTER_R : value;
  }

  private reserve(more: number): void {
    if (this.length + more <= this.bytes.length) return;
    const wider = new Uint8Array(Math.max(this.bytes.length * 2, this.length + more));
    wider.set(this.bytes.subarray(0, this.length));
    this.bytes = wider;
  }
}
