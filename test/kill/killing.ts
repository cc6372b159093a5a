/**
 * Kills the writer again and again at moments chosen by a seed, and checks after each kill that nothing is lost. In: a seed,
 * how often, a fault to plant or none; out: what was lost, in sentences; none if nothing was.
 */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { build } from 'vite';
import { applyChange, type Book } from '#book';
import { readProject, writeProject } from '#project';
import { chance, deed, lastDeed } from './deeds.ts';

export interface Killing {
  readonly seed: number;
  readonly kills: number;
  readonly book: Book;
  readonly fault?: string;
  /** Hears of progress, now and then. */
  readonly say?: (line: string) => void;
}

export interface Killed {
  readonly losses: readonly string[];
  readonly kills: number;
  /** Changes that were made and kept. */
  readonly changes: number;
}

/** A change acknowledged this long before a kill must be there after it: milliseconds. In truth all of them must. */
const PROMISE = 1000;

interface Life {
  readonly found: { readonly number: number; readonly hash: string } | null;
  readonly made: readonly { readonly number: number; readonly at: number }[];
  readonly killedAt: number;
  readonly complaint: string;
}

/** Runs the kill test. */
export async function killAgainAndAgain({ seed, kills, book, fault = '', say }: Killing): Promise<Killed> {
  const folder = mkdtempSync(join(tmpdir(), 'reglet-kill-'));
  const [data, path] = [join(folder, 'data'), join(folder, 'book.reglet')];
  mkdirSync(data);
  writeFileSync(path, writeProject(book));
  try {
    const writer = await bundledWriter(folder);
    const check = new Check(seed, book);
    const next = chance(seed);
    for (let kill = 1; kill <= kills && check.losses.length === 0; kill++) {
      // A writer may be killed while it recovers, or while it works and saves.
      const moment = { recovering: next() < 0.15, after: next() * 500 };
      const life = await liveFor(moment, [writer, data, path, String(seed), fault]);
      check.life(life);
      check.files(path, join(data, 'backups'));
      if (kill % 50 === 0) say?.(`${kill} kills, ${check.last} changes, ${check.losses.length} lost`);
    }
    return { losses: check.losses, kills, changes: check.last };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the book must be, told from its seed alone, beside what was found. */
class Check {
  readonly losses: string[] = [];
  /** The number up to which `expected` holds the changes. */
  last = 0;
  private promised = 0;
  private expected: Book;

  constructor(
    private readonly seed: number,
    book: Book,
  ) {
    this.expected = book;
  }

  life({ found, made, killedAt, complaint }: Life): void {
    if (complaint !== '') this.losses.push(`The writer failed: ${complaint}`);
    if (found) this.found(found.number, found.hash);
    this.promised = made.findLast(({ at }) => at <= killedAt - PROMISE)?.number ?? this.promised;
    const latest = made.at(-1)?.number;
    // A killed process loses nothing that it handed to the system: what it acknowledged is there, however late.
    if (latest !== undefined) this.promised = Math.max(this.promised, latest);
  }

  private found(number: number, hash: string): void {
    if (number < this.promised) {
      this.losses.push(`Change ${number + 1} to ${this.promised} were kept, and are gone.`);
      return;
    }
    while (this.last < number) {
      const applied = applyChange(this.expected, deed(this.seed, this.last + 1, this.expected));
      if (!applied.ok) throw new RangeError(applied.problem);
      this.expected = applied.value.book;
      this.last++;
    }
    const right = createHash('sha256').update(writeProject(this.expected)).digest('hex');
    if (right !== hash) this.losses.push(`The book that was found is not the one after change ${number}.`);
  }

  /** The file itself and every back-up open, whenever the writer was killed. */
  files(path: string, backups: string): void {
    const folders = existsSync(backups) ? readdirSync(backups, { withFileTypes: true, recursive: true }) : [];
    const all = [path, ...folders.filter((each) => each.isFile()).map((each) => join(each.parentPath, each.name))];
    for (const file of all) {
      const read = readProject(readFileSync(file));
      if (!read.ok) this.losses.push(`${file} does not open: ${read.problem}`);
      else if (lastDeed(read.value) > this.promised + 1)
        this.losses.push(`${file} holds changes that were never made.`);
    }
  }
}

async function bundledWriter(folder: string): Promise<string> {
  await build({
    root: process.cwd(),
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    build: {
      ssr: resolve(process.cwd(), 'test/kill/writer.ts'),
      outDir: folder,
      emptyOutDir: false,
      target: 'node20',
      rollupOptions: { output: { entryFileNames: 'writer.mjs' } },
    },
  });
  return join(folder, 'writer.mjs');
}

/** One life of the writer: it is killed some milliseconds after its start, or after it has taken up its work. */
function liveFor(moment: { recovering: boolean; after: number }, words: readonly string[]): Promise<Life> {
  return new Promise((done, reject) => {
    const child = spawn(process.execPath, [...words], { stdio: ['ignore', 'pipe', 'pipe'] });
    const made: { number: number; at: number }[] = [];
    let found: Life['found'] = null;
    let killedAt = 0;
    let complaint = '';
    let rest = '';
    let timer: NodeJS.Timeout | null = null;
    const kill = (): void => {
      timer ??= setTimeout(() => {
        killedAt = Date.now();
        child.kill('SIGKILL');
      }, moment.after);
    };
    if (moment.recovering) kill();
    child.stdout.on('data', (data: Buffer) => {
      const lines = (rest + data.toString('utf8')).split('\n');
      rest = lines.pop() ?? '';
      for (const line of lines) {
        const [what, number, hash = ''] = line.split(' ');
        if (what === 'found') {
          found = { number: Number(number), hash };
          kill();
        } else made.push({ number: Number(number), at: Date.now() });
      }
    });
    child.stderr.on('data', (data: Buffer) => (complaint += data.toString('utf8')));
    child.once('error', reject);
    child.once('close', () => {
      if (timer) clearTimeout(timer);
      done({ found, made, killedAt, complaint });
    });
  });
}
