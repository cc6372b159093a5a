/**
 * Files written whole or not at all. In: a path and bytes; out: a file that holds either all of the new bytes or all of the
 * old ones, whatever stops the program or the computer. Written beside, flushed, renamed over; then the folder is flushed,
 * so that the new name survives too.
 */
import { randomBytes } from 'node:crypto';
import { closeSync, constants, fsyncSync, openSync } from 'node:fs';
import { copyFile, type FileHandle, open, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { type Stamp, stampFrom } from './stamp.ts';

/** The mark of a file that is being written; what a stopped program left of it is swept later. */
const BESIDE = /^\..+\.[0-9a-f]{12}\.part$/;

/** A file left behind is swept when it is older than this: milliseconds. */
const LEFT_BEHIND = 60 * 60 * 1000;

export interface ReplaceOptions {
  /** Runs when the new bytes are safe beside the old file, just before they take its place. */
  readonly ready?: (path: string) => Promise<void>;
}

/**
 * Replaces a file by bytes that come in parts. A link stays a link: the file that it leads to is replaced. Rejects with the
 * system's error.
 * @returns by what the new file is known again, taken before anyone else can get at it.
 */
export async function replaceFile(
  path: string,
  parts: readonly Uint8Array[],
  options: ReplaceOptions = {},
): Promise<Stamp> {
  const target = await behindLinks(path);
  const mode = (await stat(target).catch(() => null))?.mode ?? null;
  const beside = besideOf(target);
  let stamp: Stamp;
  try {
    stamp = await writeFlushed(beside, parts, mode);
    await options.ready?.(target);
    await renameOver(beside, target);
  } finally {
    await rm(beside, { force: true }).catch(() => {});
  }
  await flushFolder(dirname(target));
  return stamp;
}

async function writeFlushed(path: string, parts: readonly Uint8Array[], mode: number | null): Promise<Stamp> {
  const file = await open(path, 'wx');
  try {
    for (const part of parts) await file.writeFile(part);
    // A disk that knows no permissions refuses them: the book matters more.
    if (mode !== null) await file.chmod(mode & 0o7777).catch(() => {});
    await file.sync();
    return stampFrom(await file.stat({ bigint: true }));
  } finally {
    await file.close();
  }
}

function besideOf(path: string): string {
  return join(dirname(path), `${besidePrefix(path)}${randomBytes(6).toString('hex')}.part`);
}

/** Cut, so that the longest name that a system takes leaves room. */
function besidePrefix(path: string): string {
  return `.${basename(path).slice(0, 48)}.`;
}

/**
 * Makes a file that is a copy of another; where the disk can, the two share their bytes. Rejects with the system's error.
 * @param holds whether the source is still what is wanted, asked when it has been copied.
 * @returns whether there is a copy now.
 */
export async function copyWhole(path: string, source: string, holds: () => Promise<boolean>): Promise<boolean> {
  const beside = besideOf(path);
  let held = false;
  try {
    await copyFile(source, beside, constants.COPYFILE_FICLONE);
    const file = await open(beside, 'r+');
    await file.sync().finally(() => file.close());
    held = await holds();
    if (held) await renameOver(beside, path);
  } finally {
    await rm(beside, { force: true }).catch(() => {});
  }
  await flushFolder(dirname(path));
  return held;
}

/** Milliseconds between attempts at a rename. */
const PAUSES = [20, 100, 500];

/** On Windows a file that a virus scanner or a synchroniser looks at can't be replaced until it is done. */
async function renameOver(from: string, to: string): Promise<void> {
  for (const pause of process.platform === 'win32' ? PAUSES : []) {
    try {
      return await rename(from, to);
    } catch {
      await setTimeout(pause);
    }
  }
  await rename(from, to);
}

/** The file that a path leads to in the end, whether there is one or not. */
export async function behindLinks(path: string): Promise<string> {
  return realpath(path).catch(() => path);
}

/** Whether the author or the system has marked a file as not to be written. */
export async function isWriteProtected(path: string): Promise<boolean> {
  const about = await stat(path).catch(() => null);
  return about?.isFile() === true && (about.mode & 0o222) === 0;
}

/** What systems answer that can't flush a folder, Windows among them: there the rename itself is journalled. */
const NO_FOLDER_SYNC: ReadonlySet<string> = new Set(['EINVAL', 'EPERM', 'EACCES', 'EISDIR', 'ENOTSUP', 'EBADF']);

function passOver(problem: unknown): void {
  if (!NO_FOLDER_SYNC.has(String((problem as NodeJS.ErrnoException).code))) throw problem;
}

/** Flushes a folder's list of names, where the system knows such a thing. */
async function flushFolder(folder: string): Promise<void> {
  let handle: FileHandle | null = null;
  try {
    handle = await open(folder, 'r');
    await handle.sync();
  } catch (problem) {
    passOver(problem);
  } finally {
    await handle?.close();
  }
}

/** The same, at once. */
export function flushFolderSync(folder: string): void {
  let file: number | null = null;
  try {
    file = openSync(folder, 'r');
    fsyncSync(file);
  } catch (problem) {
    passOver(problem);
  } finally {
    if (file !== null) closeSync(file);
  }
}

/** Takes away what writers that were stopped left beside a file. */
export async function sweepBeside(path: string, now: number): Promise<void> {
  const target = await behindLinks(path);
  const folder = dirname(target);
  for (const name of await readdir(folder).catch(() => [])) {
    if (!BESIDE.test(name) || !name.startsWith(besidePrefix(target))) continue;
    const left = join(folder, name);
    const about = await stat(left).catch(() => null);
    if (about && now - about.mtimeMs > LEFT_BEHIND) await rm(left, { force: true }).catch(() => {});
  }
}
