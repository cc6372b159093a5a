/**
 * Files that the window names. In: a path that may be anything; out: bytes within a bound, or one sentence. Only regular
 * files are read: a device or a pipe could go on for ever.
 */
import { constants } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import { basename, isAbsolute, normalize } from 'node:path';
import { failure, type Outcome, success } from '#base';

/** The path, tidied, if it is one that can be used at all. */
export function usablePath(path: string): Outcome<string> {
  if (path.includes('\0')) return failure('The name of the file holds a character that no name may hold.');
  if (!isAbsolute(path)) return failure(`“${path.slice(0, 200)}” does not say in which folder it lies.`);
  return success(normalize(path));
}

const SENTENCES: Readonly<Record<string, (name: string) => string>> = {
  ENOENT: (name) => `${name} was not found.`,
  ENOTDIR: (name) => `${name} was not found.`,
  EACCES: (name) => `${name} may not be read.`,
  EPERM: (name) => `${name} may not be read.`,
  EISDIR: (name) => `${name} is a folder, not a file.`,
  ELOOP: (name) => `${name} is a link that leads to itself.`,
  ENAMETOOLONG: (name) => `The name of ${name.slice(0, 60)}… is too long.`,
  EMFILE: (name) => `${name} can't be read: too many files are open.`,
  EIO: (name) => `${name} can't be read: its disk fails.`,
};

/** The sentence of a system error about a file; passes on what is none. */
export function sentenceOf(problem: unknown, path: string): string {
  const code = problem instanceof Error && 'code' in problem ? String(problem.code) : '';
  const sentence = SENTENCES[code];
  if (sentence) return sentence(basename(path));
  if (code !== '') return `${basename(path)} can't be used (${code}).`;
  throw problem;
}

/** The bytes of a regular file of at most `limit` bytes. */
export async function readWhole(path: string, limit: number): Promise<Outcome<Uint8Array>> {
  const usable = usablePath(path);
  if (!usable.ok) return usable;
  try {
    return await read(usable.value, limit);
  } catch (problem) {
    return failure(sentenceOf(problem, path));
  }
}

async function read(path: string, limit: number): Promise<Outcome<Uint8Array>> {
  const name = basename(path);
  const before = await stat(path);
  if (before.isDirectory()) return failure(`${name} is a folder, not a file.`);
  if (!before.isFile()) return failure(`${name} is not a file.`);
  // Not to wait for ever where a pipe has taken the file's place meanwhile.
  const file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const about = await file.stat();
    if (!about.isFile()) return failure(`${name} is not a file.`);
    if (about.size > limit) return failure(`${name} is larger than ${megabytes(limit)} MB and was not read.`);
    const bytes = new Uint8Array(about.size);
    let at = 0;
    while (at < bytes.length) {
      const { bytesRead } = await file.read(bytes, at, bytes.length - at, at);
      if (bytesRead === 0) break;
      at += bytesRead;
    }
    return success(at === bytes.length ? bytes : bytes.slice(0, at));
  } finally {
    await file.close();
  }
}

function megabytes(bytes: number): number {
  return Math.floor(bytes / 2 ** 20);
}
