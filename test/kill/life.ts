/** One life of the writer. In: when it is killed; out: what it said until then. */
import { spawn } from 'node:child_process';
import { join, resolve } from 'node:path';
import { build, type Plugin } from 'vite';

export interface Moment {
  /** Counted from the start of the process, to hit it while it takes up its work; else from when it has. */
  readonly recovering: boolean;
  /** Milliseconds. */
  readonly after: number;
}

export interface Life {
  /** The number of the last change that it found, and the hash of the book; null where it was killed before. */
  readonly found: { readonly number: number; readonly hash: string } | null;
  /** The last change that it acknowledged. */
  readonly made: number | null;
  /** Whether a save was under way when it was killed. */
  readonly saving: boolean;
  /** What it said on standard error. */
  readonly complaint: string;
}

/** Bundles the writer into a folder, with the fault `in-place` where it is asked for. */
export async function bundledWriter(folder: string, fault: string): Promise<string> {
  const test = resolve(process.cwd(), 'test/kill');
  await build({
    root: process.cwd(),
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    plugins: fault === 'in-place' ? [instead('./atomic.ts', 'openBook.ts', join(test, 'inPlace.ts'))] : [],
    build: {
      ssr: join(test, 'writer.ts'),
      outDir: folder,
      emptyOutDir: false,
      target: 'node20',
      rollupOptions: { output: { entryFileNames: 'writer.mjs' } },
    },
  });
  return join(folder, 'writer.mjs');
}

/** Another file in the place of one that a file imports. */
function instead(source: string, importer: string, replacement: string): Plugin {
  return {
    name: 'instead',
    enforce: 'pre',
    resolveId: (wanted, from) => (wanted === source && from?.endsWith(`/${importer}`) ? replacement : null),
  };
}

/** Starts the writer, kills it, and tells what it said. */
export function liveFor(moment: Moment, words: readonly string[]): Promise<Life> {
  return new Promise((done, reject) => {
    const child = spawn(process.execPath, [...words], { stdio: ['ignore', 'pipe', 'pipe'] });
    const heard = new Heard();
    let timer: NodeJS.Timeout | null = null;
    const kill = (): void => {
      timer ??= setTimeout(() => child.kill('SIGKILL'), moment.after);
    };
    if (moment.recovering) kill();
    child.stdout.on('data', (data: Buffer) => {
      heard.hear(data.toString('utf8'));
      if (heard.found) kill();
    });
    let complaint = '';
    child.stderr.on('data', (data: Buffer) => (complaint += data.toString('utf8')));
    child.once('error', reject);
    child.once('close', () => {
      if (timer) clearTimeout(timer);
      done({ found: heard.found, made: heard.made, saving: heard.saving, complaint });
    });
  });
}

/** Reads what the writer says, line by line; a line that it could not end is not heard. */
class Heard {
  found: Life['found'] = null;
  made: number | null = null;
  saving = false;
  private rest = '';

  hear(text: string): void {
    const lines = (this.rest + text).split('\n');
    this.rest = lines.pop() ?? '';
    for (const line of lines) this.line(line.split(' '));
  }

  private line([what, number, hash = '']: readonly string[]): void {
    if (what === 'found') this.found = { number: Number(number), hash };
    else if (what === 'made') this.made = Number(number);
    else this.saving = what === 'saving';
  }
}
