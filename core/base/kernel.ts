/**
 * A kernel: loops that a whole book goes through, compiled to WebAssembly beforehand, since a book is laid out before the
 * compiler of the language would have got round to them. In: the module and what it asks of its host; out: its functions
 * and its memory, which goes when nobody holds the kernel any more.
 */

/** What every kernel offers. */
export interface KernelFunctions {
  /** How often something has moved in the memory (`assembly/room.ts`). */
  moves(): number;
}

/** The part of the WebAssembly interface used here; the ES2023 library of the compiler does not declare it. */
declare const WebAssembly: {
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: object) => { readonly exports: unknown };
};

declare const atob: (text: string) => string;

/** A module in base64, compiled when the first kernel of it starts. */
export class KernelModule {
  private compiled: object | null = null;

  constructor(private readonly text: string) {}

  start(host: object): unknown {
    if (!this.compiled) {
      const bytes = atob(this.text);
      this.compiled = new WebAssembly.Module(Uint8Array.from({ length: bytes.length }, (_, i) => bytes.charCodeAt(i)));
    }
    return new WebAssembly.Instance(this.compiled, { outside: host }).exports;
  }
}

export class Kernel<Calls extends KernelFunctions> {
  readonly calls: Calls;
  private readonly memory: { readonly buffer: ArrayBuffer };
  // The memory in its sizes, good until something in it has moved.
  bytes!: Uint8Array;
  units!: Uint16Array;
  words!: Int32Array;
  numbers!: Float64Array;
  private moves = -1;

  constructor(module: KernelModule, host: object) {
    const exports = module.start(host) as Calls & { readonly memory: { readonly buffer: ArrayBuffer } };
    this.calls = exports;
    this.memory = exports.memory;
    this.renew();
  }

  /** Renews the views where something has moved since the last time; true if so. To be called after each call. */
  renew(): boolean {
    const moves = this.calls.moves();
    if (moves === this.moves) return false;
    this.moves = moves;
    this.look();
    return true;
  }

  /** Renews the views alone: whoever keeps places in the memory still learns by `renew` that they have moved. */
  look(): void {
    const { buffer } = this.memory;
    if (this.bytes?.buffer === buffer) return;
    this.bytes = new Uint8Array(buffer);
    this.units = new Uint16Array(buffer);
    this.words = new Int32Array(buffer);
    this.numbers = new Float64Array(buffer);
  }
}
