/** Starts the thread that shapes words ahead. Its far end is `electron/shaping-thread.ts`. */
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { ShapingAside } from '#type';
import { programFolder } from './program.ts';

let started: ShapingAside | null = null;

/**
 * A thread that shapes, the same one for all fonts; null where it would only take turns with this one. The program ends
 * without waiting for it.
 */
export function startShaping(): ShapingAside | null {
  if (availableParallelism() < 2) return null;
  started ??= start();
  return started;
}

function start(): ShapingAside {
  const thread = new Worker(join(programFolder(), 'shaping-thread.mjs'));
  const aside = new ShapingAside((job) => thread.postMessage(job));
  thread.on('error', () => aside.giveUp());
  thread.on('exit', () => aside.giveUp());
  thread.unref();
  return aside;
}
