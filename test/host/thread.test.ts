/** Threads that can be stopped: whatever a script does, its end is known and nothing of it stays. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runThread, type ThreadTask } from '../../electron/host/thread.ts';
import { freshFolder } from './hosting.ts';

function script(body: string): string {
  const path = join(freshFolder(), 'thread.mjs');
  writeFileSync(path, `import { parentPort, workerData } from 'node:worker_threads';\n${body}\n`);
  return path;
}

function run(body: string, more: Partial<ThreadTask> = {}) {
  return runThread<unknown>({ script: script(body), data: 7, memory: 64, patience: null, ...more });
}

describe('a thread', () => {
  it('gives its result, and words before it', async () => {
    const words: unknown[] = [];
    const end = await run(
      `parentPort.postMessage({ kind: 'word', word: 'begun' });
       parentPort.postMessage({ kind: 'result', result: workerData + 1 });
       setInterval(() => {}, 1000);`,
      { onWord: (word) => words.push(word) },
    );
    expect(end).toEqual({ kind: 'result', result: 8 });
    expect(words).toEqual(['begun']);
  });

  it('that falls silent is stopped, even in an endless loop', async () => {
    expect(await run('for (;;);', { patience: 300 })).toEqual({ kind: 'silent' });
  });

  it('that goes on telling is not', async () => {
    const end = await run(
      `let said = 0;
       const timer = setInterval(() => {
         parentPort.postMessage({ kind: 'word', word: ++said });
         if (said < 8) return;
         clearInterval(timer);
         parentPort.postMessage({ kind: 'result', result: 'done' });
       }, 250);`,
      { patience: 1_500 },
    );
    expect(end).toEqual({ kind: 'result', result: 'done' });
  });

  it('that wants too much memory is stopped', async () => {
    expect(await run('const all = []; for (;;) all.push(new Array(1e5).fill(all.length));')).toEqual({
      kind: 'outOfMemory',
    });
  });

  it('that fails says how', async () => {
    const end = await run("throw new RangeError('no such place');");
    expect(end).toMatchObject({ kind: 'fault', fault: { message: 'no such place' } });
    expect(await run('process.exit(3);')).toMatchObject({ kind: 'fault' });
  });

  it('is stopped when it is given up, before it began or while it works', async () => {
    expect(await run('for (;;);', { signal: AbortSignal.abort() })).toEqual({ kind: 'stopped' });
    expect(await run('for (;;);', { signal: AbortSignal.timeout(200) })).toEqual({ kind: 'stopped' });
  });
});
