/**
 * The bench: the same novel through our command and through a browser, fresh processes in turn, medians and ratios on
 * the terminal. `npm run bench -- --runs 5`; needs `npm run build` first.
 */
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { cpus } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findBrowser, printPage, timed } from './browser.mjs';
import { editInBrowser, measureLatency } from './latency.mjs';
import { chapters, countWords, toDocx, toHtml } from './novel.mjs';
import { median, qualityOf } from './quality.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const folder = join(root, '.cache/bench');
const command = resolve(process.env['REGLET'] ?? join(root, 'dist/reglet.mjs'));
const files = {
  docx: join(folder, 'moby-dick.docx'),
  page: join(folder, 'moby-dick.html'),
  out: join(folder, 'out'),
  printOnly: join(folder, 'print'),
  browserPdf: join(folder, 'browser.pdf'),
};

async function main() {
  const runs = runsWanted();
  if (!existsSync(command)) throw new Error(`${command} is not there: run npm run build first`);
  prepare();
  const browser = findBrowser();
  if (browser === null) console.log('No Chromium at /usr/bin/chromium or in CHROMIUM: our figures only.');
  const contenders = contendersWith(browser);
  const times = await measure(contenders, runs);
  reportTimes(contenders, times, runs);
  reportQuality(browser);
  await reportLatency(browser);
}

function runsWanted() {
  const at = process.argv.indexOf('--runs');
  const runs = at < 0 ? 5 : Number(process.argv[at + 1]);
  if (!Number.isInteger(runs) || runs < 1)
    throw new RangeError(`--runs wants a whole number, not ${process.argv[at + 1]}`);
  return runs;
}

/** Write the novel in both forms. */
function prepare() {
  mkdirSync(folder, { recursive: true });
  const book = chapters();
  const require = createRequire(import.meta.url);
  const font = require.resolve('@expo-google-fonts/eb-garamond/400Regular/EBGaramond_400Regular.ttf');
  writeFileSync(files.docx, toDocx(book));
  writeFileSync(files.page, toHtml(book, font));
  console.log(
    `${countWords(book)} words in ${book.length} chapters; ${cpus().length} cores, Node ${process.version}\n`,
  );
}

/** @typedef {{ name: string, run: () => Promise<number> }} Contender */

/** @param {string | null} browser @returns {Contender[]} */
function contendersWith(browser) {
  const make = (/** @type {string} */ out, /** @type {string[]} */ more) => {
    rmSync(out, { recursive: true, force: true });
    return timed(process.execPath, [command, 'make', files.docx, '--trim', '5.5x8.5in', '--out', out, ...more]);
  };
  /** @type {Contender[]} */
  const ours = [
    { name: 'reglet make, both books', run: () => make(files.out, []) },
    { name: 'reglet make, print only', run: () => make(files.printOnly, ['--edition', 'print']) },
  ];
  if (browser === null) return ours;
  const print = () => printPage({ browser, page: files.page, pdf: files.browserPdf });
  return [...ours, { name: 'browser, print only', run: print }];
}

/** One warm-up each, then `runs` rounds in turn, so that a slow moment of the machine falls on all alike. */
/** @param {readonly Contender[]} contenders @param {number} runs */
async function measure(contenders, runs) {
  /** @type {number[][]} */
  const times = contenders.map(() => []);
  for (let round = -1; round < runs; round += 1) {
    for (const [i, contender] of contenders.entries()) {
      const seconds = await contender.run();
      if (round >= 0) times[i]?.push(seconds);
    }
  }
  return times;
}

/** @param {readonly Contender[]} contenders @param {readonly number[][]} times @param {number} runs */
function reportTimes(contenders, times, runs) {
  const medians = times.map(median);
  const reference = contenders.at(-1)?.name.startsWith('browser') ? (medians.at(-1) ?? null) : null;
  const rows = contenders.map(({ name }, i) => {
    const seconds = medians[i] ?? 0;
    const range = `${Math.min(...(times[i] ?? [])).toFixed(2)} to ${Math.max(...(times[i] ?? [])).toFixed(2)}`;
    return [name, seconds.toFixed(2), range, ...(reference === null ? [] : [(seconds / reference).toFixed(2)])];
  });
  const compared = reference === null ? [] : ['x browser'];
  table([[`whole process, runs: ${runs}`, 'median s', 'range s', ...compared], ...rows]);
}

/** @param {string | null} browser */
async function reportLatency(browser) {
  const ours = await measureLatency(files.docx);
  const reference = browser === null ? null : await editInBrowser({ browser, page: files.page });
  const row = (/** @type {string} */ name, /** @type {number} */ time, /** @type {number | null} */ worst = null) => [
    name,
    time.toFixed(2),
    worst === null ? '' : worst.toFixed(2),
    (time / ours.cold).toFixed(4),
    ...(reference === null ? [] : [(time / reference).toFixed(4)]),
  ];
  table([
    ['pages after a change', 'median ms', '99th', 'x cold', ...(reference === null ? [] : ['x browser'])],
    row('whole book, cold', ours.cold),
    row('a letter, the section in view', ours.section.median, ours.section.p99),
    row('a letter, the whole book', ours.whole.median, ours.whole.p99),
    row('another trim', ours.trim),
    row('the first trim again', ours.back),
    row('another size of type', ours.size),
    ...(reference === null ? [] : [row('running browser: edit and PDF', reference)]),
  ]);
  const { before, after } = ours.heap;
  console.log(`heap before and after 10,000 edits: ${before.toFixed(1)} and ${after.toFixed(1)} MiB`);
}

/** @param {string | null} browser */
function reportQuality(browser) {
  const pdf = readdirSync(files.out, { recursive: true }).find((name) => String(name).endsWith('.pdf'));
  if (pdf === undefined) throw new Error(`no PDF in ${files.out}`);
  const all = [qualityOf(join(files.out, String(pdf))), ...(browser === null ? [] : [qualityOf(files.browserPdf)])];
  const percent = (/** @type {number} */ share) => `${(share * 100).toFixed(1)}%`;
  /** @type {[string, (quality: import('./quality.mjs').Quality) => string][]} */
  const figures = [
    ['pages', (q) => String(q.pages)],
    ['body lines', (q) => String(q.lines)],
    ['measure, points', (q) => q.measure.toFixed(1)],
    ['lines ending in a hyphen', (q) => percent(q.hyphenShare)],
    ['three or more hyphens in a row', (q) => String(q.hyphenRuns)],
    ['word space, mean (x natural)', (q) => q.spaceMean.toFixed(3)],
    ['word space, standard deviation', (q) => q.spaceDeviation.toFixed(3)],
    ['lines wider than 1.5x natural', (q) => percent(q.looseShare)],
    ['widows', (q) => String(q.widows)],
    ['orphans', (q) => String(q.orphans)],
  ];
  const head = ['read from the PDF', 'reglet', ...(browser === null ? [] : ['browser'])];
  table([head, ...figures.map(([name, show]) => [name, ...all.map(show)])]);
}

/** @param {readonly (readonly string[])[]} rows */
function table(rows) {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const line = (/** @type {readonly string[]} */ row) =>
    row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0))).join('  ');
  const [head = [], ...rest] = rows;
  console.log([line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rest.map(line), ''].join('\n'));
}

try {
  await main();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
