/** Where things lie on this computer. In: the platform and its environment; out: folders, by each platform's custom. */
import { stat } from 'node:fs/promises';
import { homedir } from 'node:os';
import { isAbsolute, join, resolve } from 'node:path';
import type { StartInfo } from '#host';

export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly environment: NodeJS.ProcessEnv;
}

/**
 * The folder of the program's own data: after the XDG Base Directory Specification, in Application Support on macOS, in
 * the roaming data on Windows. `REGLET_DATA` names another.
 */
export function appDataFolder({ platform, environment }: Machine): string {
  const given = environment['REGLET_DATA'];
  if (given) return resolve(given);
  const home = homedir();
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Reglet');
  if (platform === 'win32') return join(environment['APPDATA'] ?? join(home, 'AppData', 'Roaming'), 'Reglet');
  const data = environment['XDG_DATA_HOME'];
  return join(data && isAbsolute(data) ? data : join(home, '.local', 'share'), 'reglet');
}

/** Where file dialogs begin: the documents folder where there is one. */
export async function documentsFolder(): Promise<string> {
  const documents = join(homedir(), 'Documents');
  const there = await stat(documents).catch(() => null);
  return there?.isDirectory() ? documents : homedir();
}

export function platformName(platform: NodeJS.Platform): StartInfo['platform'] {
  if (platform === 'darwin') return 'mac';
  return platform === 'win32' ? 'windows' : 'linux';
}
