/**
 * A short digest, to tell whether two things are the same. In: text and numbers in order; out: 16 hexadecimal digits. Not
 * for secrets, nor for what a stranger could forge.
 *
 * Two lanes of multiply and exclusive-or (as FNV-1a does) over 32-bit words, with other multipliers (2^32 over the golden
 * ratio, made odd, and MurmurHash3's first), mixed at the end by MurmurHash3's 32-bit finalizer.
 */

const HIGH = 0x9e3779b1;
const LOW = 0xcc9e2d51;

export class Digest {
  private high = 0x811c9dc5;
  private low = 0x9747b28c;

  /** Takes in a whole number of 32 bits. */
  whole(value: number): this {
    const high = Math.imul(this.high ^ value, HIGH);
    const low = Math.imul(this.low ^ value, LOW);
    this.high = high ^ (low >>> 15);
    this.low = low ^ (this.high >>> 13);
    return this;
  }

  /** Takes in a text, its length first: what follows can't be taken for it. */
  text(text: string): this {
    this.whole(text.length);
    let { high, low } = this;
    for (let at = 0; at < text.length; at++) {
      const unit = text.charCodeAt(at);
      high = Math.imul(high ^ unit, HIGH);
      low = Math.imul(low ^ unit, LOW);
      high ^= low >>> 15;
      low ^= high >>> 13;
    }
    this.high = high;
    this.low = low;
    return this;
  }

  /** The digest of all that was taken in. */
  get hex(): string {
    return hex(mixed(this.high ^ this.low)) + hex(mixed(this.low));
  }
}

/** The digest of some texts. */
export function digestOf(...texts: readonly string[]): string {
  const digest = new Digest();
  for (const text of texts) digest.text(text);
  return digest.hex;
}

function mixed(value: number): number {
  let mix = value ^ (value >>> 16);
  mix = Math.imul(mix, 0x85ebca6b);
  mix = Math.imul(mix ^ (mix >>> 13), 0xc2b2ae35);
  return mix ^ (mix >>> 16);
}

function hex(value: number): string {
  return (value >>> 0).toString(16).padStart(8, '0');
}
