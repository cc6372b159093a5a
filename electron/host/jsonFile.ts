/**
 * A small file of JSON in the app's data folder. In: a path; out: what it holds, or null where it is missing or broken.
 * Writes are atomic and follow each other.
 */
import { join } from 'node:path';
import { writeWhole } from '../services/files.ts';
import { readWhole } from './paths.ts';

const LARGEST = 16 * 2 ** 20;

export class JsonFile {
  private readonly path: string;
  private last: Promise<unknown> = Promise.resolve();

  constructor(folder: string, name: string) {
    this.path = join(folder, name);
  }

  async read(): Promise<unknown> {
    const read = await readWhole(this.path, LARGEST);
    if (!read.ok) return null;
    try {
      return JSON.parse(new TextDecoder().decode(read.value));
    } catch (problem) {
      if (problem instanceof SyntaxError) return null;
      throw problem;
    }
  }

  /** Writes after all earlier writes are done. Passes on what the disk refuses. */
  write(value: unknown): Promise<void> {
    const bytes = new TextEncoder().encode(`${JSON.stringify(value, null, 1)}\n`);
    const written = this.last.then(() => writeWhole(this.path, bytes));
    this.last = written.catch(() => undefined);
    return written;
  }

  /** Resolves when nothing waits to be written. */
  async settled(): Promise<void> {
    await this.last;
  }
}
