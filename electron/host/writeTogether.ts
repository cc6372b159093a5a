/**
 * Several files that belong together, written all or not at all. In: paths and bytes; out: every file in its place, or the
 * folder as it was and one sentence. Each is written whole beside its place first, and what stood there is kept until all
 * have moved in.
 */
import { randomBytes } from 'node:crypto';
import { copyFile, link, open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { failure, type Outcome, success } from '#base';
import { makeFolder } from '../services/folders.ts';
import { sweepBeside } from '../store/atomic.ts';

export interface FileToWrite {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** A file on its way: where it waits, and where what it replaces is kept. */
interface Waiting {
  readonly path: string;
  readonly beside: string;
  readonly old: string;
  /** `old` holds what stood in the place. */
  kept: boolean;
  moved: boolean;
}

/** @param signal gives up before anything is in its place; afterwards it is too late. */
export async function writeTogether(files: readonly FileToWrite[], signal?: AbortSignal): Promise<Outcome<null>> {
  const waiting = files.map(({ path }) => waitingFor(path));
  try {
    for (const [at, each] of waiting.entries()) await writeBeside(each, files[at]?.bytes ?? new Uint8Array(0));
    if (signal?.aborted) return failure('The export was stopped.');
    for (const each of waiting) await moveIn(each);
    await flushFolders(waiting);
    for (const { old } of waiting) await drop(old);
    return success(null);
  } catch (problem) {
    await moveOut(waiting);
    return failure(sentenceOfWriting(problem));
  } finally {
    for (const { beside } of waiting) await drop(beside);
  }
}

function waitingFor(path: string): Waiting {
  return { path, beside: hiddenBeside(path), old: hiddenBeside(path), kept: false, moved: false };
}

/** A name that a later run knows as left behind, should this one be killed. */
function hiddenBeside(path: string): string {
  return join(dirname(path), `.${basename(path)}.${randomBytes(6).toString('hex')}.part`);
}

async function writeBeside({ path, beside }: Waiting, bytes: Uint8Array): Promise<void> {
  await makeFolder(dirname(path));
  await sweepBeside(path, Date.now());
  const there = await stat(path).catch(() => null);
  if (there && !there.isFile()) throw new NotAFile(`${path} is not a file and was not replaced.`);
  const file = await open(beside, 'wx');
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

class NotAFile extends Error {}

/** Keeps what stands in the place, and puts the new file there in one step. */
async function moveIn(waiting: Waiting): Promise<void> {
  await keepOld(waiting);
  await rename(waiting.beside, waiting.path);
  waiting.moved = true;
}

/** A second name costs nothing; where the disk knows no second names, a copy. */
async function keepOld(waiting: Waiting): Promise<void> {
  const { path, old } = waiting;
  try {
    await link(path, old);
  } catch (problem) {
    if (codeOf(problem) === 'ENOENT') return;
    await copyFile(path, old);
  }
  waiting.kept = true;
}

/** Puts back what stood there before. */
async function moveOut(waiting: readonly Waiting[]): Promise<void> {
  for (const each of waiting) {
    if (!each.moved) await drop(each.old);
    else if (!each.kept) await drop(each.path);
    // Where even this fails, the old file is still there under its hidden name.
    else await rename(each.old, each.path).catch(() => undefined);
  }
}

/** Takes a file away where it is; what the disk refuses here changes nothing that was said. */
async function drop(path: string): Promise<void> {
  await rm(path, { force: true }).catch(() => undefined);
}

/** A name lasts when its folder is flushed; not every system lets a folder be opened. */
async function flushFolders(waiting: readonly Waiting[]): Promise<void> {
  for (const folder of new Set(waiting.map(({ path }) => dirname(path)))) {
    const handle = await open(folder).catch(() => null);
    await handle?.sync().catch(() => undefined);
    await handle?.close();
  }
}

const SENTENCES: Readonly<Record<string, string>> = {
  EACCES: 'The folder may not be written to.',
  EPERM: 'The folder may not be written to.',
  EROFS: 'The folder is on a disk that is read-only.',
  ENOSPC: 'The disk is full.',
  EDQUOT: 'The disk is full.',
  ENOTDIR: 'What was chosen is not a folder.',
  EEXIST: 'What was chosen is not a folder.',
  ENOENT: 'The folder is not there and can’t be made.',
  ENAMETOOLONG: 'The name of a file is too long for the disk.',
};

function sentenceOfWriting(problem: unknown): string {
  if (problem instanceof NotAFile) return problem.message;
  const code = codeOf(problem);
  if (code === '') throw problem;
  return `${SENTENCES[code] ?? `The disk refused (${code}).`} Nothing was written.`;
}

function codeOf(problem: unknown): string {
  return problem instanceof Error && 'code' in problem ? String(problem.code) : '';
}
