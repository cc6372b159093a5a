/** Folders that have to be there before something is written. In: a path; out: a folder, with those above it. */
import { mkdir, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';

/**
 * Makes a folder and those above it that are missing. Rejects with the system's error. Node's own way of doing so is not taken:
 * where a folder is there but nothing can be made in it, and the system says of what should be made that it is not there (as it
 * does below /proc), that way begins again for ever.
 * @param mode of the folders that are made.
 */
export async function makeFolder(path: string, mode?: number): Promise<void> {
  const missing: string[] = [];
  for (let at = resolve(path); !(await isThere(at)); at = dirname(at)) missing.push(at);
  for (const folder of missing.reverse()) await makeOne(folder, mode);
}

/** Whether the folder is there. Rejects where something else is. */
async function isThere(path: string): Promise<boolean> {
  try {
    if ((await stat(path)).isDirectory()) return true;
  } catch (problem) {
    if (codeOf(problem) === 'ENOENT' && dirname(path) !== path) return false;
    throw problem;
  }
  throw Object.assign(new Error(`${path} is not a folder`), { code: 'ENOTDIR' });
}

/** Another writer may be quicker. */
async function makeOne(path: string, mode: number | undefined): Promise<void> {
  try {
    await mkdir(path, mode === undefined ? {} : { mode });
  } catch (problem) {
    if (codeOf(problem) !== 'EEXIST') throw problem;
  }
}

function codeOf(problem: unknown): string {
  return problem instanceof Error && 'code' in problem ? String(problem.code) : '';
}
