/** Starts the installed Chromium without a window, for tests that look at what it shows. */
import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

export function launchChromium(): Promise<Browser> {
  const executablePath = PLACES.find((path) => existsSync(path));
  if (!executablePath) throw new RangeError(`no Chromium at ${PLACES.join(', ')}`);
  const args = ['--no-sandbox', '--disable-gpu', '--disable-background-networking'];
  return chromium.launch({ executablePath, args, headless: true });
}
