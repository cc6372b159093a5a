/**
 * The two HarfBuzz modules as numbers and bytes. In: the bytes of a .wasm file; out: its exports and growing memory. The
 * host passes the bytes, so that nothing here reads a file or knows an address.
 */

/** Pointers and sizes are 32-bit numbers in the module's memory. */
export type Pointer = number;

export type WasmFunction = (...args: number[]) => number;

interface WasmMemory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}

interface WasmTable {
  grow(by: number): number;
  set(index: number, value: unknown): void;
}

interface WasmInstance {
  readonly exports: Readonly<Record<string, unknown>>;
}

type WasmImports = Record<string, Record<string, (...args: never[]) => unknown>>;

/** The part of the WebAssembly interface used here; the ES2023 library of the compiler does not declare it. */
declare const WebAssembly: {
  instantiate(bytes: Uint8Array, imports: WasmImports): Promise<{ readonly instance: WasmInstance }>;
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: WasmImports) => WasmInstance;
};

const PAGE = 65536;

/** An instance with its memory. Views are renewed when the memory has grown: take them anew after each call. */
export class WasmModule {
  private readonly memory: WasmMemory;
  private readonly table: WasmTable;
  private bytesView: Uint8Array;
  private wordsView: Int32Array;
  private unitsView: Uint16Array;

  constructor(private readonly instance: WasmInstance) {
    this.memory = instance.exports['memory'] as WasmMemory;
    this.table = instance.exports['__indirect_function_table'] as WasmTable;
    this.bytesView = new Uint8Array(this.memory.buffer);
    this.wordsView = new Int32Array(this.memory.buffer);
    this.unitsView = new Uint16Array(this.memory.buffer);
  }

  /** The export of that name. */
  call(name: string): WasmFunction {
    const found = this.instance.exports[name];
    if (typeof found !== 'function') throw new RangeError(`the module has no function ${name}`);
    return found as WasmFunction;
  }

  get bytes(): Uint8Array {
    this.renewViews();
    return this.bytesView;
  }

  get words(): Int32Array {
    this.renewViews();
    return this.wordsView;
  }

  get units(): Uint16Array {
    this.renewViews();
    return this.unitsView;
  }

  /** Puts a function into the module's table and gives its index. `parameters`: i for a 32-bit integer, f for a float. */
  addCallback(parameters: string, callback: (...args: number[]) => void): Pointer {
    const module = new WebAssembly.Module(trampoline(parameters));
    const typed = new WebAssembly.Instance(module, { e: { f: callback } });
    const index = this.table.grow(1);
    this.table.set(index, typed.exports['f']);
    return index;
  }

  private renewViews(): void {
    if (this.bytesView.buffer === this.memory.buffer) return;
    this.bytesView = new Uint8Array(this.memory.buffer);
    this.wordsView = new Int32Array(this.memory.buffer);
    this.unitsView = new Uint16Array(this.memory.buffer);
  }
}

/** Starts the shaping module (harfbuzz.wasm). */
export async function startShaperModule(bytes: Uint8Array): Promise<WasmModule> {
  let memory: WasmMemory | undefined;
  const { instance } = await WebAssembly.instantiate(bytes, {
    env: {
      _abort_js: abort,
      _emscripten_runtime_keepalive_clear: () => undefined,
      _setitimer_js: () => 0,
      emscripten_resize_heap: (wanted: number) => (memory && growTo(memory, wanted) ? 1 : 0),
    },
    wasi_snapshot_preview1: { proc_exit: abort },
  });
  memory = instance.exports['memory'] as WasmMemory;
  const module = new WasmModule(instance);
  module.call('__wasm_call_ctors')();
  return module;
}

/** Starts the subsetting module (harfbuzz-subset.wasm), which needs nothing from outside. */
export function startSubsetterModule(bytes: Uint8Array): WasmModule {
  const module = new WasmModule(new WebAssembly.Instance(new WebAssembly.Module(bytes), {}));
  module.call('_initialize')();
  return module;
}

function growTo(memory: WasmMemory, wanted: number): boolean {
  const missing = Math.ceil((wanted - memory.buffer.byteLength) / PAGE);
  if (missing <= 0) return true;
  // A quarter more than asked for, so that a run of fonts does not grow the memory one by one.
  const generous = missing + Math.ceil(memory.buffer.byteLength / PAGE / 4);
  memory.grow(generous);
  return true;
}

function abort(): never {
  throw new RangeError('the font engine stopped: out of memory or damaged font data');
}

/** The smallest module that gives a JavaScript function the type which an indirect call asks for. */
function trampoline(parameters: string): Uint8Array {
  const types = [...parameters].map((letter) => (letter === 'f' ? 0x7d : 0x7f));
  const type = [0x01, 0x60, types.length, ...types, 0x00];
  return new Uint8Array([
    ...[0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00],
    ...[0x01, type.length, ...type],
    ...[0x02, 0x07, 0x01, 0x01, 0x65, 0x01, 0x66, 0x00, 0x00],
    ...[0x07, 0x05, 0x01, 0x01, 0x66, 0x00, 0x00],
  ]);
}
