/**
 * The kernel of this room (see `Kernel` of the base): reading words, dividing them, listing a paragraph's breaks and
 * searching them. Words, copy and lists of breaks lie in its memory.
 */
import { Kernel, type KernelFunctions, KernelModule } from '#base';
import { KERNEL } from './binary.ts';

/** Pointers and sizes are 32-bit numbers in the kernel's memory. */
export type Pointer = number;

/** What `assembly/index.ts` exports; documented there. */
export interface KernelCalls extends KernelFunctions {
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
  addCut(
    place: number,
    kind: number,
    width: number,
    end: number,
    start: number,
    hangEnd: number,
    hangStart: number,
  ): number;
  endCuts(): void;
  cutsAt(): Pointer;
  placesAt(count: number): Pointer;
  // Copy.
  startCopy(): void;
  read(length: number, offset: number, kind: number, span: number): void;
  readMark(word: number, offset: number, span: number): void;
  readLineBreak(offset: number, span: number): void;
  dropTrailingSpaces(): void;
  takePieces(count: number): Pointer;
  pieceCount(): number;
  piecesAt(): Pointer;
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
  keepList(): number;
  hasList(number: number): boolean;
  takeList(number: number): boolean;
  // The search.
  tune(...settings: readonly number[]): void;
  widthsAt(count: number): Pointer;
  setPlace(scaling: number, ragged: number, lastLineMin: number): void;
  search(tolerance: number, most: number, divide: boolean, rescue: boolean, everyLength: boolean): number;
  solutionsAt(): Pointer;
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
  spaceKerning(piece: number): number;
  touchesLetters(piece: number): boolean;
  lettersFrom(piece: number, cut: number): number;
}

const MODULE = new KernelModule(KERNEL);

export type ParagraphKernel = Kernel<KernelCalls>;

/** Starts a kernel, with no words in it. */
export function startKernel(host: KernelHost): ParagraphKernel {
  return new Kernel(MODULE, host);
}
