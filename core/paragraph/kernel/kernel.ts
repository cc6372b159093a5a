/**
 * The kernel: the loops that a whole book goes through, in WebAssembly, since a book is laid out before the compiler of
 * the language would have got round to them. Out: an instance with its memory and the functions of `assembly/index.ts`.
 * Words, copy and lists of breaks lie in its memory, and go when nobody holds the instance any more.
 */
import { KERNEL } from './binary.ts';

/** Pointers and sizes are 32-bit numbers in the kernel's memory. */
export type Pointer = number;

/** What `assembly/index.ts` exports; documented there. */
export interface KernelCalls {
  // Words.
  addFount(
    spaceWidth: number,
    scale: number,
    tracking: number,
    hyphenWidth: number,
    flags: number,
    patterns: Pointer,
  ): Pointer;
  addPatterns(
    before: number,
    after: number,
    end: number,
    width: number,
    branches: number,
    nodes: number,
    levels: number,
    exceptions: number,
  ): Pointer;
  marksAt(): Pointer;
  textAt(length: number): Pointer;
  wordOfText(length: number, kind: number): number;
  nameOf(from: number, to: number): number;
  wordCount(): number;
  wordsAt(): Pointer;
  lettersAt(): Pointer;
  endOfKind(first: number): number;
  plainWords(first: number, end: number): number;
  boundsAt(): Pointer;
  shapedAt(words: number, glyphs: number): Pointer;
  keepWords(first: number, end: number): number;
  glyphsAt(): Pointer;
  // Cuts.
  cutsIn(word: number, divided: boolean): number;
  measure(word: number, at: number, divided: boolean): Pointer;
  widthUpTo(word: number, at: number): number;
  addCut(place: number, kind: number, width: number, end: number, start: number): number;
  endCuts(): void;
  cutsAt(): Pointer;
  placesAt(count: number): Pointer;
  // Copy.
  startCopy(): void;
  read(length: number, offset: number, kind: number, span: number): void;
  readMark(word: number, offset: number, span: number): void;
  readLineBreak(offset: number, span: number): void;
  dropTrailingSpaces(): void;
  takePieces(count: number): void;
  pieceCount(): number;
  kindsAt(): Pointer;
  endingsAt(): Pointer;
  valuesAt(): Pointer;
  offsetsAt(): Pointer;
  spansAt(): Pointer;
  // Lists of breaks.
  price(...prices: readonly number[]): void;
  build(hangs: boolean, words: number, opensWithDash: boolean): void;
  startList(): void;
  box(width: number): void;
  glue(width: number, stretch: number, shrink: number): number;
  tie(width: number, stretch: number, shrink: number): void;
  penalty(cost: number, flags: number): number;
  forcedBreak(): number;
  change(at: number, end: number, start: number): void;
  hang(at: number, end: number, start: number): void;
  mark(at: number, flags: number): void;
  name(at: number, end: number, start: number): void;
  stand(at: number, piece: number, cut: number): void;
  endList(): void;
  breaksAt(): Pointer;
  breakCount(): number;
  // The search.
  tune(...settings: readonly number[]): void;
  widthsAt(count: number): Pointer;
  setPlace(scaling: number, ragged: number, lastLineMin: number): void;
  search(tolerance: number, most: number, divide: boolean, rescue: boolean, everyLength: boolean): number;
  solutionsAt(): Pointer;
  moves(): number;
}

/** What the kernel asks of its host: `assembly/outside.ts` says what each is. */
export interface KernelHost {
  traitsOf(from: number, to: number): number;
  jointOf(before: number, after: number): number;
  mayBreak(before: number, after: number): boolean;
  has(fount: number, unit: number): boolean;
  hasJoints(word: number): boolean;
  divide(word: number): number;
  findCuts(word: number, divided: number): number;
  findTornCuts(word: number, divided: number): number;
  kerning(fount: number, left: number, right: number): number;
  partWidth(word: number, from: number, to: number, hyphen: number): number;
  unitOf(word: number, at: number): number;
  spaceKerning(piece: number): number;
  touchesLetters(piece: number): boolean;
  lettersFrom(piece: number, cut: number): number;
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
  // The memory in its sizes, good until something in it has moved.
  bytes!: Uint8Array;
  units!: Uint16Array;
  words!: Int32Array;
  numbers!: Float64Array;
  private moves = -1;

  constructor(host: KernelHost) {
    compiled ??= compile();
    const exports = new WebAssembly.Instance(compiled, { outside: host }).exports as KernelExports;
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
