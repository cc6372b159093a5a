/** How fast pages follow a change, ours and a running browser's, on the novel of the bench. */
import { spawnSync } from 'node:child_process';
import { cpSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { median } from './quality.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const folder = join(root, '.cache/bench/latency');

/**
 * @typedef {{ median: number, p99: number }} Spread
 * @typedef {{ made: number, set: number }} Layout
 * @typedef {{ cold: Layout, section: Spread, whole: Spread, trim: Layout, back: Layout, size: Layout, leading: Layout,
 *   fit: Layout, heap: { before: number, after: number } }} Latency
 */

/** Letters that the last process types for the figures of memory. */
export const LONG_RUN = 10_000;

/**
 * Bundle `latency.ts` and run it in processes of its own; the medians of what they found, the heap of the last.
 * @param {{ docx: string, dist: string, runs: number }} of @returns {Promise<Latency>}
 */
export async function measureLatency({ docx, dist, runs }) {
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
        input: {
          latency: join(root, 'test/bench/latency.ts'),
          'shaping-thread': join(root, 'electron/shaping-thread.ts'),
        },
        output: { entryFileNames: '[name].mjs', chunkFileNames: 'chunks/[name]-[hash].mjs' },
      },
    },
  });
  for (const beside of ['fonts', 'wasm']) cpSync(join(dist, beside), join(folder, beside), { recursive: true });
  const found = Array.from({ length: runs }, (_, run) => runOnce(docx, run === runs - 1 ? LONG_RUN : 0));
  const spread = (/** @type {'section' | 'whole'} */ key) => ({
    median: median(found.map((each) => each[key].median)),
    p99: median(found.map((each) => each[key].p99)),
  });
  const layout = (/** @type {'cold' | 'trim' | 'back' | 'size' | 'leading' | 'fit'} */ key) => ({
    made: median(found.map((each) => each[key].made)),
    set: median(found.map((each) => each[key].set)),
  });
  return {
    cold: layout('cold'),
    section: spread('section'),
    whole: spread('whole'),
    trim: layout('trim'),
    back: layout('back'),
    size: layout('size'),
    leading: layout('leading'),
    fit: layout('fit'),
    heap: found.at(-1)?.heap ?? { before: 0, after: 0 },
  };
}

/**
 * Threads that V8 has for its compilers and its collector: one core is left to the layout. Node takes four on any machine;
 * on two cores they keep the layout waiting for a fifth of its time.
 */
const HELPERS = Math.max(1, availableParallelism() - 1);

/** @param {string} docx @param {number} edits @returns {Latency} */
function runOnce(docx, edits) {
  const args = ['--expose-gc', `--v8-pool-size=${HELPERS}`, join(folder, 'latency.mjs'), docx, String(edits)];
  const ran = spawnSync(process.execPath, args, { encoding: 'utf8' });
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
