/**
 * Work in a thread that can be stopped: files from strangers may take for ever, exports may be given up. In: a script and
 * its data; out: what the thread says last, or how it ended instead.
 */
import { type Transferable, Worker } from 'node:worker_threads';

export interface ThreadTask {
  /** The script's file. */
  readonly script: string;
  readonly data: unknown;
  readonly transfer?: readonly Transferable[];
  /** Megabytes of script memory; more ends the thread. */
  readonly memory: number;
  /** Milliseconds without a word after which the thread is stopped; null to wait for ever. */
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
    transferList: [...(task.transfer ?? [])],
    resourceLimits: { maxOldGenerationSizeMb: task.memory },
  });
  const end = await endOf<Result>(worker, task);
  await worker.terminate();
  return end;
}

function endOf<Result>(worker: Worker, { patience, onWord, signal }: ThreadTask): Promise<ThreadEnd<Result>> {
  return new Promise((resolve) => {
    let timer: NodeJS.Timeout | undefined;
    const done = (end: ThreadEnd<Result>): void => {
      clearTimeout(timer);
      signal?.removeEventListener('abort', stop);
      resolve(end);
    };
    const stop = (): void => done({ kind: 'stopped' });
    const wait = (): void => {
      clearTimeout(timer);
      if (patience !== null) timer = setTimeout(() => done({ kind: 'silent' }), patience);
    };
    signal?.addEventListener('abort', stop);
    worker.on('message', (message: ThreadWord<Result>) => {
      wait();
      if (message.kind === 'result') done(message);
      else onWord?.(message.word);
    });
    worker.once('error', (fault: Error) => done(endByFault(fault)));
    worker.once('exit', (code) => done({ kind: 'fault', fault: new Error(`the thread ended with status ${code}`) }));
    wait();
  });
}

function endByFault<Result>(fault: Error): ThreadEnd<Result> {
  const tooMuch = 'code' in fault && fault.code === 'ERR_WORKER_OUT_OF_MEMORY';
  return tooMuch ? { kind: 'outOfMemory' } : { kind: 'fault', fault };
}
