/** By what a file is known again. In: a path; out: its size, time and number, and the state of the book in it. */
import type { BigIntStats } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import type { Outcome } from '#base';
import type { Book } from '#book';
import { projectState, readProject } from '#project';
import { sha256 } from '../services/hash.ts';

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
  return about?.isFile() ? stampFrom(about) : null;
}

export function stampFrom({ size, mtimeMs, mtimeNs, ino }: BigIntStats): Stamp {
  return { size: Number(size), modifiedAt: Number(mtimeMs), mark: `${mtimeNs}-${ino}` };
}

export function sameStamp(one: Stamp, other: Stamp): boolean {
  return one.size === other.size && one.mark === other.mark;
}

/** The state of the book in a file; null where there is no book in it. */
export async function stateAt(path: string): Promise<string | null> {
  const bytes = await readFile(path).catch(() => null);
  return bytes && projectState(bytes);
}

/** The book in bytes, its pictures checked by the system's own hash. */
export function bookIn(bytes: Uint8Array): Outcome<Book> {
  return readProject(bytes, sha256);
}
