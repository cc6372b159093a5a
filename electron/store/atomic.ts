/**
 * Files written whole or not at all. In: a path and bytes; out: a file that holds either all of the new bytes or all of the
 * old ones, whatever stops the program or the computer. Written beside, flushed, renamed over; then the folder is flushed,
 * so that the new name survives too.
 */
import { randomBytes } from 'node:crypto';
import { type FileHandle, open, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** The mark of a file that is being written; what a stopped program left of it is swept later. */
const BESIDE = /^\..+\.[0-9a-f]{12}\.part$/;

/** A file left behind is swept when it is older than this: milliseconds. */
const LEFT_BEHIND = 60 * 60 * 1000;

export interface ReplaceOptions {
  /** Runs when the new bytes are safe beside the old file, just before they take its place. */
  readonly ready?: (path: string) => Promise<void>;
}

/** Replaces a file. A link stays a link: the file that it leads to is replaced. Rejects with the system's error. */
export async function replaceFile(path: string, bytes: Uint8Array, options: ReplaceOptions = {}): Promise<void> {
  const target = await realpath(path).catch(() => path);
  const folder = dirname(target);
  const beside = join(folder, `.${basename(target)}.${randomBytes(6).toString('hex')}.part`);
  try {
    await writeFlushed(beside, bytes, await modeOf(target));
    await options.ready?.(target);
    await rename(beside, target);
  } catch (problem) {
    await rm(beside, { force: true });
    throw problem;
  }
  await flushFolder(folder);
}

async function modeOf(path: string): Promise<number> {
  return (await stat(path).catch(() => null))?.mode ?? 0o666;
}

async function writeFlushed(path: string, bytes: Uint8Array, mode: number): Promise<void> {
  const file = await open(path, 'wx', mode);
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Flushes a folder's list of names. Windows has no such thing: there the rename itself is journalled. */
export async function flushFolder(folder: string): Promise<void> {
  let handle: FileHandle;
  try {
    handle = await open(folder, 'r');
  } catch {
    return;
  }
  try {
    await handle.sync();
  } catch (problem) {
    if (!NO_FOLDER_SYNC.has(String((problem as NodeJS.ErrnoException).code))) throw problem;
  } finally {
    await handle.close();
  }
}

/** What systems answer that can't flush a folder. */
const NO_FOLDER_SYNC: ReadonlySet<string> = new Set(['EINVAL', 'EPERM', 'EISDIR', 'ENOTSUP', 'EBADF']);

/** Takes away what writers that were stopped left beside a file. */
export async function sweepBeside(path: string, now: number): Promise<void> {
  const folder = dirname(path);
  for (const name of await readdir(folder).catch(() => [])) {
    if (!BESIDE.test(name) || !name.startsWith(`.${basename(path)}.`)) continue;
    const left = join(folder, name);
    const about = await stat(left).catch(() => null);
    if (about && now - about.mtimeMs > LEFT_BEHIND) await rm(left, { force: true });
  }
}
