/**
 * The kernel of this room (see `Kernel` of the base): filling a section's pages. One section at a time lies in its memory:
 * rows go in block by block, the pages of the least cost come out.
 */
import { Kernel, type KernelFunctions, KernelModule } from '#base';
import { KERNEL } from './binary.ts';

/** What `assembly/index.ts` exports; documented there. */
export interface FillCalls extends KernelFunctions {
  pricesAt(): number;
  // A section's rows.
  startStrip(): void;
  startItem(gives: boolean): void;
  addRow(height: number, penalty: number, edge: number, flags: number): void;
  addNote(length: number): void;
  addLines(lines: number, height: number, orphans: number, widows: number, inside: number, after: number): void;
  hyphenate(line: number): void;
  endItem(): void;
  endStrip(): void;
  startStretch(item: number, change: number, cost: number): void;
  endStretch(): void;
  // The search.
  startEnds(lines: number, extra: number, noteLeading: number, leading: number): void;
  fill(recto: boolean, most: number): number;
  costOfPath(): number;
  costBound(): number;
  pathAt(): number;
  endsAt(): number;
}

/** What the kernel asks of its host: `assembly/outside.ts` says what each is. */
export interface FillHost {
  askLengths(item: number): void;
}

const MODULE = new KernelModule(KERNEL);

export type FillKernel = Kernel<FillCalls>;

/** Starts a kernel with nothing in it. */
export function startKernel(host: FillHost): FillKernel {
  return new Kernel(MODULE, host);
}
