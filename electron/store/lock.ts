/**
 * Who holds a journal. In: a journal's folder; out: whether a living program works on it, so that its work is not offered
 * as lost. A process number alone could be another program's by now: the holder also shows that it lives.
 */
import { mkdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const LOCK_FILE = 'held.json';

/** Milliseconds between two signs of life, and the silence after which a holder counts as dead. */
const SIGN_EVERY = 10_000;
const DEAD_AFTER = 60_000;

export class Lock {
  private readonly timer: NodeJS.Timeout;

  private constructor(private readonly path: string) {
    this.timer = setInterval(() => this.sign(), SIGN_EVERY).unref();
  }

  /** Takes a journal's folder, which is made if there is none; null where someone holds it. Throws the system's error. */
  static take(folder: string, now: number): Lock | null {
    if (isHeld(folder, now)) return null;
    mkdirSync(folder, { recursive: true });
    const path = join(folder, LOCK_FILE);
    rmSync(path, { force: true });
    try {
      writeFileSync(path, JSON.stringify({ process: process.pid }), { flag: 'wx' });
    } catch (problem) {
      if ((problem as NodeJS.ErrnoException).code === 'EEXIST') return null;
      throw problem;
    }
    return new Lock(path);
  }

  /** Lets go: what the journal holds may be offered again, to this program too. */
  release(): void {
    clearInterval(this.timer);
    rmSync(this.path, { force: true });
  }

  private sign(): void {
    const now = new Date();
    try {
      utimesSync(this.path, now, now);
    } catch {
      // The folder was taken away from outside: there is nothing left to hold.
      clearInterval(this.timer);
    }
  }
}

/** Whether another living program, or this one, holds the journal. */
export function isHeld(folder: string, now: number): boolean {
  try {
    const path = join(folder, LOCK_FILE);
    const { process: holder } = JSON.parse(readFileSync(path, 'utf8')) as { process?: unknown };
    return typeof holder === 'number' && isAlive(holder) && now - statSync(path).mtimeMs < DEAD_AFTER;
  } catch {
    return false;
  }
}

function isAlive(holder: number): boolean {
  try {
    process.kill(holder, 0);
    return true;
  } catch (problem) {
    return (problem as NodeJS.ErrnoException).code === 'EPERM';
  }
}
