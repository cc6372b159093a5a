/**
 * The window in an installed browser, where Electron's runtime is not there. In: an address and a folder for the profile;
 * out: a window without the browser's own bars, until it is closed.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import type { Machine } from './places.ts';

/** Programs that know `--app`, in the order in which they are looked for. */
const ON_PATH = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];
const ON_MAC = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
];
const ON_WINDOWS = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Chromium\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
];

/** The browser's program; null where none is installed. `REGLET_BROWSER` names one. */
export function findBrowser({ platform, environment }: Machine): string | null {
  const given = environment['REGLET_BROWSER'];
  const candidates = given ? [given] : candidatesOn({ platform, environment });
  return candidates.find((each) => existsSync(each)) ?? null;
}

function candidatesOn({ platform, environment }: Machine): readonly string[] {
  if (platform === 'darwin') return ON_MAC;
  if (platform === 'win32') {
    const roots = ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].flatMap((name) => environment[name] ?? []);
    return roots.flatMap((root) => ON_WINDOWS.map((each) => join(root, each)));
  }
  const folders = (environment['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  return ON_PATH.flatMap((name) => folders.map((folder) => join(folder, name)));
}

export interface WindowRequest {
  readonly browser: string;
  readonly address: string;
  /** Kept apart from the person's own browsing: no extensions, no history, no cookies of theirs. */
  readonly profile: string;
  /** Whether the program runs as the system's administrator, for whom the browser keeps no sandbox on Linux. */
  readonly asRoot: boolean;
}

export function openWindow({ browser, address, profile, asRoot }: WindowRequest): ChildProcess {
  const options = [
    `--app=${address}`,
    `--user-data-dir=${profile}`,
    '--no-first-run',
    '--no-default-browser-check',
    '--disable-sync',
    '--disable-extensions',
    '--window-size=1440,900',
    ...(asRoot ? ['--no-sandbox'] : []),
  ];
  return spawn(browser, options, { stdio: 'ignore' });
}
