/** How fast pages follow an edit, ours and a running browser's, on the novel of the bench. */
import { spawnSync } from 'node:child_process';
import { cpSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { median } from './quality.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const folder = join(root, '.cache/bench/latency');

/**
 * @typedef {{ median: number, p99: number }} Spread
 * @typedef {{ cold: number, section: Spread, whole: Spread, trim: number, back: number, size: number,
 *   heap: { before: number, after: number } }} Latency
 */

/** Bundle `latency.ts` and run it in a process of its own. @param {string} docx @returns {Promise<Latency>} */
export async function measureLatency(docx) {
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    ssr: { noExternal: true, target: 'node' },
    build: {
      ssr: true,
      target: 'node20',
      outDir: folder,
      emptyOutDir: true,
      minify: false,
      rollupOptions: {
        input: { latency: join(root, 'test/bench/latency.ts') },
        output: { entryFileNames: '[name].mjs' },
      },
    },
  });
  for (const beside of ['fonts', 'wasm']) cpSync(join(root, 'dist', beside), join(folder, beside), { recursive: true });
  const ran = spawnSync(process.execPath, ['--expose-gc', join(folder, 'latency.mjs'), docx], { encoding: 'utf8' });
  if (ran.status !== 0) throw new Error(`the latency bench failed: ${ran.stderr.slice(-600)}`);
  return JSON.parse(ran.stdout);
}

const EDITS = 3;

/**
 * Milliseconds that a running browser takes for an edit and the PDF after it.
 * @param {{ browser: string, page: string }} paths @returns {Promise<number>}
 */
export async function editInBrowser({ browser, page }) {
  const { chromium } = await import('playwright-core');
  const running = await chromium.launch({
    executablePath: browser,
    args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--disable-background-networking'],
  });
  try {
    const tab = await running.newPage();
    await tab.goto(`file://${page}`);
    const times = [];
    for (let edit = -1; edit < EDITS; edit += 1) {
      const start = performance.now();
      await tab.evaluate(() => {
        const paragraphs = document.querySelectorAll('p');
        paragraphs[Math.floor(paragraphs.length / 2)]?.prepend('e');
      });
      await tab.pdf({ preferCSSPageSize: true });
      if (edit >= 0) times.push(performance.now() - start);
    }
    return median(times);
  } finally {
    await running.close();
  }
}
