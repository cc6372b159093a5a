/**
 * Many small arrays out of few large ones: a novel has tens of thousands of words and paragraphs, and a buffer for each
 * array of each of them is what the collector would spend its time on. Arrays are handed out for good; a block goes when
 * the last array in it does.
 */

/** Bytes of a block; a multiple of every element size. */
const BLOCK = 1 << 18;

export class ArrayPool {
  private block = new ArrayBuffer(BLOCK);
  private used = 0;
  private readonly risingArrays: Uint16Array[] = [];

  bytes(length: number): Uint8Array {
    const at = this.take(length);
    return new Uint8Array(this.block, at, length);
  }

  units(length: number): Uint16Array {
    const at = this.take(length * 2);
    return new Uint16Array(this.block, at, length);
  }

  words(length: number): Int32Array {
    const at = this.take(length * 4);
    return new Int32Array(this.block, at, length);
  }

  numbers(length: number): Float64Array {
    const at = this.take(length * 8);
    return new Float64Array(this.block, at, length);
  }

  /** 0, 1, 2, ...: the same array for the same length. */
  rising(length: number): Uint16Array {
    this.risingArrays[length] ??= Uint16Array.from({ length }, (_, i) => i);
    return this.risingArrays[length];
  }

  /** Room for so many bytes, on an offset that suits every element size. */
  private take(bytes: number): number {
    const size = (bytes + 7) & ~7;
    if (this.used + size > this.block.byteLength) {
      this.block = new ArrayBuffer(Math.max(BLOCK, size));
      this.used = 0;
    }
    const at = this.used;
    this.used += size;
    return at;
  }
}
