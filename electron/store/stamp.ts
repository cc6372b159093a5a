/** By what a file is known again. In: a path; out: its size, time and number, and the state of the book in it. */
import { readFile, stat } from 'node:fs/promises';
import { projectState } from '#project';

export interface Stamp {
  readonly size: number;
  /** Milliseconds since 1970. */
  readonly modifiedAt: number;
  /** Nanoseconds, as the disk has them, with the file's number. */
  readonly mark: string;
}

/** null where there is no file. */
export async function stampOf(path: string): Promise<Stamp | null> {
  const about = await stat(path, { bigint: true }).catch(() => null);
  if (!about?.isFile()) return null;
  const modifiedAt = Number(about.mtimeMs);
  return { size: Number(about.size), modifiedAt, mark: `${about.mtimeNs}-${about.ino}` };
}

export function sameStamp(one: Stamp, other: Stamp): boolean {
  return one.size === other.size && one.mark === other.mark;
}

/** The state of the book in a file; null where there is no book in it. */
export async function stateAt(path: string): Promise<string | null> {
  const bytes = await readFile(path).catch(() => null);
  return bytes && projectState(bytes);
}
