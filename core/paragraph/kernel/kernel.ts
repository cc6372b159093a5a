/**
 * The kernel: the loops that a whole book goes through, in WebAssembly, since a book is laid out before the compiler of
 * the language would have got round to them. Out: an instance with its memory and the functions of `assembly/index.ts`.
 */
import { KERNEL } from './binary.ts';

/** Pointers and sizes are 32-bit numbers in the kernel's memory. */
export type Pointer = number;

/** What `assembly/index.ts` exports; documented there. */
interface KernelCalls {
  roomForBreaks(count: number): void;
  sumsAt(): Pointer;
  flagsAt(): Pointer;
  namesAt(): Pointer;
  tune(...settings: readonly number[]): void;
  widthsAt(count: number): Pointer;
  setPlace(scaling: number, ragged: number, lastLineMin: number): void;
  search(
    count: number,
    slack: number,
    tolerance: number,
    most: number,
    divide: boolean,
    rescue: boolean,
    everyLength: boolean,
  ): number;
  solutionsAt(): Pointer;
}

interface KernelExports extends KernelCalls {
  readonly memory: { readonly buffer: ArrayBuffer };
}

/** The part of the WebAssembly interface used here; the ES2023 library of the compiler does not declare it. */
declare const WebAssembly: {
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: object) => { readonly exports: unknown };
};

declare const atob: (text: string) => string;

/** Compiled when the first kernel starts. */
let compiled: object | null = null;

function compile(): object {
  const text = atob(KERNEL);
  return new WebAssembly.Module(Uint8Array.from({ length: text.length }, (_, i) => text.charCodeAt(i)));
}

export class Kernel {
  readonly calls: KernelCalls;
  private readonly memory: KernelExports['memory'];
  private bytesView: Uint8Array;
  private wordsView: Int32Array;
  private numbersView: Float64Array;

  constructor() {
    compiled ??= compile();
    const exports = new WebAssembly.Instance(compiled, {}).exports as KernelExports;
    this.calls = exports;
    this.memory = exports.memory;
    this.bytesView = new Uint8Array(this.memory.buffer);
    this.wordsView = new Int32Array(this.memory.buffer);
    this.numbersView = new Float64Array(this.memory.buffer);
  }

  // The memory in three sizes. Take them anew after each call that makes room.

  get bytes(): Uint8Array {
    this.renewViews();
    return this.bytesView;
  }

  get words(): Int32Array {
    this.renewViews();
    return this.wordsView;
  }

  get numbers(): Float64Array {
    this.renewViews();
    return this.numbersView;
  }

  private renewViews(): void {
    if (this.bytesView.buffer === this.memory.buffer) return;
    this.bytesView = new Uint8Array(this.memory.buffer);
    this.wordsView = new Int32Array(this.memory.buffer);
    this.numbersView = new Float64Array(this.memory.buffer);
  }
}
