/**
 * Kills the writer again and again at moments chosen by a seed, and checks after each kill that nothing is lost. In: a seed,
 * how often, a fault to plant or none; out: what was lost, in sentences; none if nothing was.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { applyChange, type Book } from '#book';
import { readProject, writeProject } from '#project';
import { chance, deed, lastDeed } from './deeds.ts';
import { bundledWriter, type Life, liveFor } from './life.ts';

export interface Killing {
  readonly seed: number;
  readonly kills: number;
  readonly book: Book;
  /** `late-journal` or `in-place`. */
  readonly fault?: string;
  /** Hears of progress, now and then. */
  readonly say?: (line: string) => void;
}

export interface Killed {
  readonly losses: readonly string[];
  readonly kills: number;
  /** Changes that were made and kept. */
  readonly changes: number;
  /** Kills that came while a save was under way. */
  readonly whileSaving: number;
}

/** Runs the kill test; it ends with the first loss. */
export async function killAgainAndAgain({ seed, kills, book, fault = '', say }: Killing): Promise<Killed> {
  const folder = mkdtempSync(join(tmpdir(), 'reglet-kill-'));
  const at = (name: string): string => join(folder, name);
  const [data, path, start] = [at('data'), at('book.reglet'), at('start.reglet')];
  mkdirSync(data);
  writeFileSync(start, writeProject(book));
  try {
    const writer = await bundledWriter(folder, fault);
    const check = new Check(seed, book);
    const next = chance(seed);
    while (check.kills < kills && check.losses.length === 0) {
      const moment = { recovering: next() < 0.15, after: next() * 500 };
      check.life(await liveFor(moment, [writer, data, path, start, String(seed), fault]));
      check.files(path, join(data, 'backups'));
      if (check.kills % 50 === 0) say?.(check.line());
    }
    const { losses, last: changes, whileSaving } = check;
    return { losses, kills: check.kills, changes, whileSaving };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the book must be, told from its seed alone, beside what was found. */
class Check {
  readonly losses: string[] = [];
  kills = 0;
  whileSaving = 0;
  /** The number up to which `expected` holds the changes. */
  last = 0;
  /**
   * The last change that was acknowledged. The promise is a second; but a killed process loses nothing that it has handed
   * to the system, so all of them must be there, however late they came.
   */
  private promised = 0;
  private expected: Book;

  constructor(
    private readonly seed: number,
    book: Book,
  ) {
    this.expected = book;
  }

  life({ found, made, saving, complaint }: Life): void {
    this.kills++;
    if (saving) this.whileSaving++;
    if (complaint !== '') this.losses.push(`The writer failed: ${complaint}`);
    if (found) this.found(found.number, found.hash);
    this.promised = Math.max(this.promised, made ?? 0);
  }

  private found(number: number, hash: string): void {
    if (number < this.promised) {
      this.losses.push(`Changes ${number + 1} to ${this.promised} were kept, and are gone.`);
      return;
    }
    // A writer may be killed when it has kept a change and not yet said so.
    if (number > this.promised + 1) this.losses.push(`Change ${number} was never made.`);
    while (this.last < number) {
      const applied = applyChange(this.expected, deed(this.seed, this.last + 1, this.expected));
      if (!applied.ok) throw new RangeError(applied.problem);
      this.expected = applied.value.book;
      this.last++;
    }
    const right = createHash('sha256').update(writeProject(this.expected)).digest('hex');
    if (right !== hash) this.losses.push(`The book that was found is not the one after change ${number}.`);
    this.promised = Math.max(this.promised, number);
  }

  /** The file itself and every back-up open, whenever the writer was killed. */
  files(path: string, backups: string): void {
    const folders = existsSync(backups) ? readdirSync(backups, { withFileTypes: true, recursive: true }) : [];
    const kept = folders.filter((each) => each.isFile()).map((each) => join(each.parentPath, each.name));
    for (const file of existsSync(path) ? [path, ...kept] : kept) {
      const read = readProject(readFileSync(file));
      if (!read.ok) this.losses.push(`${file} does not open: ${read.problem}`);
      else if (lastDeed(read.value) > this.promised + 1) this.losses.push(`${file} holds what was never made.`);
    }
  }

  line(): string {
    return `${this.kills} kills, ${this.whileSaving} of them while saving; ${this.last} changes; ${this.losses.length} lost`;
  }
}
