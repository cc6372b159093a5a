/**
 * Opens the workbench: in Electron where its runtime is installed, else in an installed browser over loopback. In: the
 * command line; out: a window, or with `--no-window` an address on standard output, until it is closed or stopped.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { InputProblem, UsageProblem } from './problems.ts';
import { programFolder } from './services/program.ts';
import { findBrowser, openWindow } from './start/browser.ts';
import { electronProgram } from './start/electronRuntime.ts';
import { appDataFolder, type Machine } from './start/places.ts';
import { parseStart, START_USAGE, type StartRequest } from './start/request.ts';
import { type Service, startService } from './start/service.ts';

const machine: Machine = { platform: process.platform, environment: process.env };

/** Whoever names a browser wants the window in it. */
const namesBrowser = Boolean(process.env['REGLET_BROWSER']);

async function start(request: StartRequest): Promise<number> {
  if (request.help) {
    process.stdout.write(START_USAGE);
    return 0;
  }
  const electron = request.window && !namesBrowser ? electronProgram() : null;
  const main = join(programFolder(), 'main.mjs');
  if (electron !== null && existsSync(main)) return inElectron(electron, main, request.open);
  return overLoopback(request);
}

function inElectron(program: string, main: string, open: string | null): Promise<number> {
  return statusOf(spawn(program, [main, ...(open === null ? [] : [open])], { stdio: 'inherit' }));
}

function statusOf(child: ChildProcess): Promise<number> {
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', (code) => resolve(code ?? 1));
  });
}

async function overLoopback(request: StartRequest): Promise<number> {
  const appData = appDataFolder(machine);
  const service = await startService(machine, appData, request.open);
  const stopped = signalled();
  try {
    const ended = request.window ? showWindow(service, appData) : null;
    if (ended === null) process.stdout.write(`${service.loopback.address}\n`);
    await Promise.race([stopped, ...(ended === null ? [] : [ended])]);
  } finally {
    await service.stop();
  }
  return 0;
}

/** Opens the window and resolves when it is closed; null where no browser is there to open it in. */
function showWindow(service: Service, appData: string): Promise<void> | null {
  const browser = findBrowser(machine);
  if (browser === null) {
    process.stderr.write(
      'Neither Electron’s runtime nor a browser that can show the window is installed. Open this:\n',
    );
    return null;
  }
  const reason = namesBrowser ? '' : 'Electron’s runtime is not installed. ';
  process.stderr.write(`${reason}The window opens in ${browser}.\n`);
  const asRoot = process.platform === 'linux' && process.getuid?.() === 0;
  const profile = join(appData, 'browser');
  const child = openWindow({ browser, address: service.loopback.address, profile, asRoot });
  return statusOf(child).then(() => service.loopback.deserted());
}

/** Resolves at the first signal to stop. */
function signalled(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });
}

async function main(): Promise<number> {
  try {
    return await start(parseStart(process.argv.slice(2), process.cwd()));
  } catch (problem) {
    if (problem instanceof UsageProblem) {
      process.stderr.write(`reglet: ${problem.message}\n${START_USAGE}`);
      return 2;
    }
    if (!(problem instanceof InputProblem)) throw problem;
    process.stderr.write(`reglet: ${problem.message}\n`);
    return 1;
  }
}

// Streams of a window that is still open would keep the program alive.
process.exit(await main());
