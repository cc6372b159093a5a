/** A growing run of bytes with the few ways of writing that page descriptions need. */

const ZERO = 48;
const MINUS = 45;
const POINT = 46;
const SPACE = 32;
const BACKSLASH = 92;

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

  /** ASCII text. */
  text(text: string): void {
    this.reserve(text.length);
    for (let i = 0; i < text.length; i++) this.bytes[this.length++] = text.charCodeAt(i);
  }

  byte(value: number): void {
    this.reserve(1);
    this.bytes[this.length++] = value;
  }

  /** Two bytes inside a literal string, escaped where the syntax asks for it (ISO 32000-1, 7.3.4.2). */
  stringUnit(unit: number): void {
    this.reserve(4);
    this.stringByte(unit >> 8);
    this.stringByte(unit & 255);
  }

  /** A whole number of thousandths as a decimal, and a space: 12500 -> `12.5 `. */
  thousandths(value: number): void {
    this.reserve(16);
    let rest = value;
    if (rest < 0) {
      this.bytes[this.length++] = MINUS;
      rest = -rest;
    }
    const whole = Math.floor(rest / 1000);
    this.digits(whole);
    this.fraction(rest - whole * 1000);
    this.bytes[this.length++] = SPACE;
  }

  private fraction(thousandths: number): void {
    if (thousandths === 0) return;
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
    if (value === 40 || value === 41 || value === BACKSLASH) {
      this.bytes[this.length++] = BACKSLASH;
      this.bytes[this.length++] = value;
    } else if (value === 13) {
      // A bare carriage return would be read as a line feed.
      this.bytes[this.length++] = BACKSLASH;
      this.bytes[this.length++] = 114;
    } else {
      this.bytes[this.length++] = value;
    }
  }

  private reserve(more: number): void {
    if (this.length + more <= this.bytes.length) return;
    const wider = new Uint8Array(Math.max(this.bytes.length * 2, this.length + more));
    wider.set(this.bytes);
    this.bytes = wider;
  }
}
