/**
 * Deflates streams and cuts fonts on another core. In: batches of streams, fonts with glyphs; out: the same streams,
 * packed, and smaller fonts. The far end is `electron/pack-thread.ts`.
 */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Batch } from '#print';
import type { Packing } from './packing.ts';
import { programFolder } from './program.ts';

export type PackerTask =
  | { readonly kind: 'pack'; readonly batch: Batch; readonly packing: Packing }
  | { readonly kind: 'cut'; readonly font: Uint8Array; readonly glyphs: readonly number[] };

/** What a task comes to. */
interface Results {
  readonly pack: Batch;
  readonly cut: Uint8Array;
}

export type PackerResult = Results[keyof Results];

interface Waiting {
  readonly resolve: (result: PackerResult) => void;
  readonly reject: (problem: Error) => void;
}

/** A thread that takes tasks in the order in which they come. Stop it, or the program does not end. */
export class Packer {
  private thread: Worker | null = null;
  private readonly waiting: Waiting[] = [];

  /** Starts the thread before there is work for it: it takes as long to start as a tenth of a novel to lay out. */
  open(): void {
    this.thread ??= this.start();
  }

  /** The streams of a batch, packed. Its bytes are given away. */
  pack(batch: Batch, packing: Packing): Promise<Batch> {
    return this.send<'pack'>({ kind: 'pack', batch, packing }, [batch.bytes.buffer as ArrayBuffer]);
  }

  /** A font with these glyphs alone, under their old ids. */
  cut(font: Uint8Array, glyphs: readonly number[]): Promise<Uint8Array> {
    return this.send<'cut'>({ kind: 'cut', font, glyphs }, []);
  }

  private send<Kind extends keyof Results>(task: PackerTask & { readonly kind: Kind }, given: ArrayBuffer[]) {
    this.open();
    this.thread?.postMessage(task, given);
    return new Promise<Results[Kind]>((resolve, reject) => {
      // Results come in the order of the tasks, so each is of its task's kind.
      this.waiting.push({ resolve: (result) => resolve(result as Results[Kind]), reject });
    });
  }

  /** Lets the thread end when its work is done. */
  stop(): void {
    this.thread?.postMessage(null);
    this.thread = null;
  }

  private start(): Worker {
    const thread = new Worker(join(programFolder(), 'pack-thread.mjs'));
    thread.on('message', (result: PackerResult) => this.waiting.shift()?.resolve(result));
    thread.on('error', (problem) => {
      for (const { reject } of this.waiting.splice(0)) reject(problem);
    });
    return thread;
  }
}
