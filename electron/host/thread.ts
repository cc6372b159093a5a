/**
 * Work in a thread that can be stopped: files from strangers may take for ever, exports may be given up. In: a script and
 * its data; out: what the thread says last, or how it ended instead.
 */
import { performance } from 'node:perf_hooks';
import { Worker } from 'node:worker_threads';

export interface ThreadTask {
  /** The script's file. */
  readonly script: string;
  readonly data: unknown;
  /** Megabytes of script memory; more ends the thread. */
  readonly memory: number;
  /**
   * Milliseconds of work without a word after which the thread is stopped; null to wait for ever. A computer that is busy
   * with other things is given three times as long.
   */
  readonly patience: number | null;
  /** Hears what the thread says on the way. */
  readonly onWord?: (word: unknown) => void;
  readonly signal?: AbortSignal;
}

/** What a thread's script sends: words on the way, and one result. */
export type ThreadWord<Result> =
  | { readonly kind: 'word'; readonly word: unknown }
  | { readonly kind: 'result'; readonly result: Result };

export type ThreadEnd<Result> =
  | { readonly kind: 'result'; readonly result: Result }
  | { readonly kind: 'silent' }
  | { readonly kind: 'outOfMemory' }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'fault'; readonly fault: Error };

/** Runs the thread to its end. It is gone when this resolves. */
export async function runThread<Result>(task: ThreadTask): Promise<ThreadEnd<Result>> {
  if (task.signal?.aborted) return { kind: 'stopped' };
  const worker = new Worker(task.script, {
    workerData: task.data,
    resourceLimits: { maxOldGenerationSizeMb: task.memory },
  });
  const end = await endOf<Result>(worker, task);
  await worker.terminate();
  return end;
}

function endOf<Result>(worker: Worker, { patience, onWord, signal }: ThreadTask): Promise<ThreadEnd<Result>> {
  return new Promise((resolve) => {
    const silence = new Silence(patience, () => done({ kind: 'silent' }));
    const done = (end: ThreadEnd<Result>): void => {
      silence.end();
      signal?.removeEventListener('abort', stop);
      resolve(end);
    };
    const stop = (): void => done({ kind: 'stopped' });
    signal?.addEventListener('abort', stop);
    worker.on('message', (message: ThreadWord<Result>) => {
      silence.broken();
      if (message.kind === 'result') done(message);
      else onWord?.(message.word);
    });
    worker.once('error', (fault: Error) => done(endByFault(fault)));
    worker.once('exit', (code) => done({ kind: 'fault', fault: new Error(`the thread ended with status ${code}`) }));
  });
}

/** How often a silent thread is looked at. */
const LOOK_MS = 100;
const BUSY_FACTOR = 3;

/** Waits for the end of patience, which counts what the program could work meanwhile. */
class Silence {
  private since = performance.now();
  private workedBefore = worked();
  private readonly timer: NodeJS.Timeout | undefined;

  constructor(patience: number | null, over: () => void) {
    if (patience !== null) this.timer = setInterval(() => this.isOver(patience) && over(), LOOK_MS);
  }

  broken(): void {
    this.since = performance.now();
    this.workedBefore = worked();
  }

  end(): void {
    clearInterval(this.timer);
  }

  private isOver(patience: number): boolean {
    const waited = performance.now() - this.since;
    return waited > BUSY_FACTOR * patience || (waited > patience && worked() - this.workedBefore > patience);
  }
}

/** Milliseconds that the processor gave to this program so far, its threads included. */
function worked(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1_000;
}

function endByFault<Result>(fault: Error): ThreadEnd<Result> {
  const tooMuch = 'code' in fault && fault.code === 'ERR_WORKER_OUT_OF_MEMORY';
  return tooMuch ? { kind: 'outOfMemory' } : { kind: 'fault', fault };
}
