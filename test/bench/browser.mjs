/** Headless Chromium as a fresh process: a page in, a PDF and the time from start to exit out. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The browser's path, or null where there is none. @returns {string | null} */
export function findBrowser() {
  const path = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
  return existsSync(path) ? path : null;
}

/**
 * Print a page with an empty profile, the quickest way that the command line offers: no tags, no headers.
 * @param {{ browser: string, page: string, pdf: string }} paths
 * @param {(program: string, args: readonly string[]) => Promise<number>} measured what runs the program and measures it
 * @returns {Promise<number>} what was measured
 */
export async function printPage({ browser, page, pdf }, measured) {
  const profile = mkdtempSync(join(tmpdir(), 'reglet-bench-'));
  rmSync(pdf, { force: true });
  const flags = [
    '--headless',
    '--no-sandbox',
    '--disable-gpu',
    '--disable-dev-shm-usage',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--no-first-run',
    '--allow-file-access-from-files',
    '--no-pdf-header-footer',
    '--disable-pdf-tagging',
    `--user-data-dir=${profile}`,
    `--print-to-pdf=${pdf}`,
    `file://${page}`,
  ];
  const figure = await measured(browser, flags);
  rmSync(profile, { recursive: true, force: true });
  if (!existsSync(pdf)) throw new Error(`${browser} wrote no PDF`);
  return figure;
}

/**
 * Seconds from the start of a process to its end; throws with what it wrote on standard error when it fails.
 * @param {string} program
 * @param {readonly string[]} args
 * @returns {Promise<number>}
 */
export function timed(program, args) {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const child = spawn(program, args, { stdio: ['ignore', 'ignore', 'pipe'] });
    let complaint = '';
    child.stderr.on('data', (chunk) => {
      complaint += chunk;
    });
    child.on('error', reject);
    child.on('exit', (code) => {
      const seconds = (performance.now() - start) / 1000;
      if (code === 0) resolve(seconds);
      else reject(new Error(`${program} ${args[0] ?? ''} ended with ${code}: ${complaint.slice(-600)}`));
    });
  });
}
