/** The window in Chromium, as `npm start` opens it where there is no Electron. In: nothing; out: a tab with the program in it. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import { launchChromium } from '../tools/chromium.ts';
import { dist, freshFolder, root } from './command.ts';

/** Where pictures of the screens are kept to be looked at. */
const SCREENS = join(root, '.cache/screens');

export interface OpenWindow {
  readonly tab: Page;
  /** A home of its own, where its file dialogs begin. */
  readonly home: string;
  /** What the page complained of: faults of scripts. */
  readonly faults: readonly string[];
  close(): Promise<void>;
}

/** Starts the built program with data of its own and opens its window. `words`: a file to open at once. */
export async function openWindow(words: readonly string[] = [], home: string = freshFolder()): Promise<OpenWindow> {
  const program = spawn(process.execPath, [join(dist, 'start.mjs'), '--no-window', ...words], {
    env: { ...process.env, HOME: home, USERPROFILE: home, XDG_CONFIG_HOME: home, REGLET_DATA: join(home, '.data') },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const [address, browser] = await Promise.all([addressOf(program), launchChromium()]);
  const tab = await browser.newPage({ viewport: { width: 1440, height: 900 }, reducedMotion: 'reduce' });
  const faults: string[] = [];
  tab.on('pageerror', (fault) => faults.push(fault.message));
  await tab.goto(address);
  return { tab, home, faults, close: () => closeAll(program, browser) };
}

/** What comes to be true in a moment. */
export function poll(look: () => unknown): ReturnType<typeof expect.poll> {
  return expect.poll(look, { timeout: 20_000 });
}

/** Opens the demo book and shows its pages on the proof desk. */
export async function proofTheDemo(tab: Page): Promise<void> {
  await tab.getByRole('button', { name: 'Look at the demo' }).click();
  await tab.getByRole('tab', { name: 'Proof' }).click();
  await tab.getByText(/^of [1-9]\d* pages$/).waitFor();
}

/** The one line that a start without a window prints. */
function addressOf(program: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    program.stdout?.on('data', (piece) => {
      said += String(piece);
      if (said.includes('\n')) resolve(said.trim());
    });
    program.once('exit', (status) => reject(new Error(`the program ended with status ${status}`)));
  });
}

async function closeAll(program: ChildProcess, browser: Browser): Promise<void> {
  await browser.close();
  program.kill('SIGTERM');
}

/** A picture of the screen, in light and in dark. */
export async function keepScreens(tab: Page, name: string): Promise<void> {
  mkdirSync(SCREENS, { recursive: true });
  for (const shade of ['light', 'dark'] as const) {
    await tab.emulateMedia({ colorScheme: shade });
    await tab.screenshot({ path: join(SCREENS, `${name}-${shade}.png`) });
  }
  await tab.emulateMedia({ colorScheme: 'light' });
}

/** What axe-core finds inside an element, one line each. */
export async function accessibilityFaults(tab: Page, within: string): Promise<readonly string[]> {
  await tab.evaluate(axe.source);
  return tab.evaluate(async (selector) => {
    const { axe: checker } = globalThis as unknown as { axe: typeof axe };
    const { violations } = await checker.run({ include: [selector] });
    return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 120)}`));
  }, within);
}
