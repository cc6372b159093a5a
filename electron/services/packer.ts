/**
 * Deflates on another core. In: batches of streams; out: the same streams in zlib's format (RFC 1950). The far end is
 * `electron/pack-thread.ts`.
 */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { deflateSync } from 'node:zlib';
import type { Batch } from '#print';
import { programFolder } from './program.ts';

/** Deflate level of PDF streams: two thirds of the time of zlib's usual 6 for three per cent more bytes. */
const LEVEL = 4;

interface Waiting {
  readonly resolve: (packed: Batch) => void;
  readonly reject: (problem: Error) => void;
}

/** One stream at once, here. */
export function deflate(stream: Uint8Array): Uint8Array {
  return deflateSync(stream, { level: LEVEL });
}

/** A thread that packs batches in the order in which they come. Stop it, or the program does not end. */
export class Packer {
  private readonly thread = new Worker(join(programFolder(), 'pack-thread.mjs'), { workerData: LEVEL });
  private readonly waiting: Waiting[] = [];

  constructor() {
    this.thread.on('message', (packed: Batch) => this.waiting.shift()?.resolve(packed));
    this.thread.on('error', (problem) => {
      for (const { reject } of this.waiting.splice(0)) reject(problem);
    });
  }

  /** The streams of a batch, packed. Its bytes are given away. */
  pack(batch: Batch): Promise<Batch> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ resolve, reject });
      this.thread.postMessage(batch, [batch.bytes.buffer as ArrayBuffer]);
    });
  }

  /** Lets the thread end when its work is done. */
  stop(): void {
    this.thread.postMessage(null);
  }
}
