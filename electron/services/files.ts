/** Reading and writing whole files: bounded in, all or nothing out. */
import { randomBytes } from 'node:crypto';
import { open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { InputProblem } from '../problems.ts';
import { makeFolder } from './folders.ts';

/** The largest manuscript or book file that is read: 1 GiB. */
const LARGEST_INPUT = 2 ** 30;

/** The bytes of a file the user named. Throws `InputProblem` with one sentence. */
export async function readInput(path: string): Promise<Uint8Array> {
  const name = basename(path);
  try {
    const about = await stat(path);
    if (about.isDirectory()) throw new InputProblem(`${name} is a folder, not a manuscript.`);
    if (!about.isFile()) throw new InputProblem(`${name} is not a file.`);
    if (about.size === 0) throw new InputProblem(`${name} is empty.`);
    if (about.size > LARGEST_INPUT) throw new InputProblem(`${name} is larger than 1 GB and was not read.`);
    const file = await open(path);
    try {
      return await file.readFile();
    } finally {
      await file.close();
    }
  } catch (problem) {
    throw asInputProblem(problem, {
      ENOENT: `${name} was not found.`,
      ENOTDIR: `${name} was not found.`,
      EACCES: `${name} may not be read.`,
      ELOOP: `${name} is a link that leads in a circle.`,
      ENAMETOOLONG: 'The name of the file is too long.',
      ERR_INVALID_ARG_VALUE: 'The name of the file holds characters that no name may hold.',
    });
  }
}

/**
 * Writes a file so that its name holds either the old bytes or all of the new ones: beside it, flushed, renamed over
 * it. Nothing is left behind on failure.
 */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const folder = dirname(path);
  const beside = join(folder, `.${basename(path)}.${randomBytes(6).toString('hex')}.part`);
  try {
    await makeFolder(folder);
    const file = await open(beside, 'wx');
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (problem) {
    // Where the folder is none there is nothing to take away, and saying so would hide what went wrong.
    await rm(beside, { force: true }).catch(() => undefined);
    throw asInputProblem(problem, {
      EACCES: `${path} may not be written.`,
      EPERM: `${path} may not be written.`,
      EROFS: `${path} can't be written: its disk is read-only.`,
      ENOSPC: `${path} can't be written: the disk is full.`,
      ENOENT: `${folder} is not there and can't be made.`,
      ENOTDIR: `${folder} is not a folder.`,
      EEXIST: `${folder} is not a folder.`,
      EISDIR: `${path} is a folder.`,
    });
  }
}

/** Turns the system errors named in `sentences` into an `InputProblem`; passes everything else on. */
function asInputProblem(problem: unknown, sentences: Readonly<Record<string, string>>): unknown {
  const code = problem instanceof Error && 'code' in problem ? String(problem.code) : '';
  const sentence = sentences[code];
  return sentence === undefined ? problem : new InputProblem(sentence);
}
