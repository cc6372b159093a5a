/**
 * Deflates on another core. In: batches of streams; out: the same streams, packed. The far end is
 * `electron/pack-thread.ts`.
 */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Batch } from '#print';
import type { Packing } from './packing.ts';
import { programFolder } from './program.ts';

export interface PackTask {
  readonly batch: Batch;
  readonly packing: Packing;
}

interface Waiting {
  readonly resolve: (packed: Batch) => void;
  readonly reject: (problem: Error) => void;
}

/** A thread that packs batches in the order in which they come. Stop it, or the program does not end. */
export class Packer {
  private thread: Worker | null = null;
  private readonly waiting: Waiting[] = [];

  /** The streams of a batch, packed. Its bytes are given away. */
  pack(batch: Batch, packing: Packing): Promise<Batch> {
    const task: PackTask = { batch, packing };
    this.thread ??= this.start();
    this.thread.postMessage(task, [batch.bytes.buffer as ArrayBuffer]);
    return new Promise((resolve, reject) => {
      this.waiting.push({ resolve, reject });
    });
  }

  /** Lets the thread end when its work is done. */
  stop(): void {
    this.thread?.postMessage(null);
    this.thread = null;
  }

  private start(): Worker {
    const thread = new Worker(join(programFolder(), 'pack-thread.mjs'));
    thread.on('message', (packed: Batch) => this.waiting.shift()?.resolve(packed));
    thread.on('error', (problem) => {
      for (const { reject } of this.waiting.splice(0)) reject(problem);
    });
    return thread;
  }
}
