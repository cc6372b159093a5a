/**
 * Electron's runtime, where it is installed. In: nothing; out: its program, or null. The package brings the runtime only
 * when its own installation could download it; `path.txt` names the program then.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

export function electronProgram(): string | null {
  const folder = packageFolder();
  if (folder === null) return null;
  const named = join(folder, 'path.txt');
  if (!existsSync(named)) return null;
  const program = join(folder, 'dist', readFileSync(named, 'utf8').trim());
  return existsSync(program) ? program : null;
}

function packageFolder(): string | null {
  try {
    return dirname(createRequire(import.meta.url).resolve('electron/package.json'));
  } catch (problem) {
    if (problem instanceof Error && 'code' in problem && problem.code === 'MODULE_NOT_FOUND') return null;
    throw problem;
  }
}
