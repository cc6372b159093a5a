/** Runs the built `reglet` command as a user would, in a folder of its own. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

export const root = resolve(import.meta.dirname, '../..');
/** The build that is tried: `REGLET_DIST` names another than the project's own. */
export const dist = process.env['REGLET_DIST'] ?? join(root, 'dist');
export const demo = join(root, 'assets/demo/manuscript.docx');

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs `reglet` with the words given. */
export function reglet(words: readonly string[], env: Readonly<Record<string, string>> = {}): Ran {
  const result = spawnSync(process.execPath, [join(dist, 'reglet.mjs'), ...words], {
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
    env: { ...process.env, ...env },
  });
  return { status: result.status, out: result.stdout, err: result.stderr };
}

/** An empty folder that nothing else uses. */
export function freshFolder(): string {
  return mkdtempSync(join(tmpdir(), 'reglet-test-'));
}

/** Runs an outside program and gives its standard output; throws with its complaint when it fails. */
export function outside(program: string, words: readonly string[]): string {
  const result = spawnSync(program, [...words], { encoding: 'utf8', maxBuffer: 2 ** 28 });
  if (result.error) throw result.error;
  if (result.status !== 0) throw new Error(`${program} failed: ${result.stdout}${result.stderr}`);
  return result.stdout;
}
