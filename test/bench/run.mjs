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
import { editInBrowser, LONG_RUN, measureLatency } from './latency.mjs';
import { canMeasureMemory, peakOf } from './memory.mjs';
import { chapters, countWords, toDocx, toHtml } from './novel.mjs';
import { median, qualityOf } from './quality.mjs';
import { percent, table } from './tables.mjs';

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
  const times = (await measure(contenders, runs)).map(median);
  reportTimes(contenders, times, runs);
  if (canMeasureMemory) await reportMemory(contenders);
  reportQuality(browser);
  await reportLatency(browser, { runs, print: browser === null ? null : (times.at(-1) ?? null) });
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

/** @typedef {(program: string, args: readonly string[]) => Promise<number>} Measured what runs a program and measures it */
/** @typedef {{ name: string, run: (measured: Measured) => Promise<number> }} Contender */

/** @param {string | null} browser @returns {Contender[]} */
function contendersWith(browser) {
  const make = (/** @type {Measured} */ measured, /** @type {string} */ out, /** @type {string[]} */ more) => {
    rmSync(out, { recursive: true, force: true });
    return measured(process.execPath, [command, 'make', files.docx, '--trim', '5.5x8.5in', '--out', out, ...more]);
  };
  /** @type {Contender[]} */
  const ours = [
    { name: 'reglet make, both books', run: (measured) => make(measured, files.out, []) },
    { name: 'reglet make, print only', run: (measured) => make(measured, files.printOnly, ['--edition', 'print']) },
  ];
  if (browser === null) return ours;
  const paths = { browser, page: files.page, pdf: files.browserPdf };
  return [...ours, { name: 'browser, print only', run: (measured) => printPage(paths, measured) }];
}

/** One warm-up each, then `runs` rounds in turn, so that a slow moment of the machine falls on all alike. */
/** @param {readonly Contender[]} contenders @param {number} runs */
async function measure(contenders, runs) {
  /** @type {number[][]} */
  const times = contenders.map(() => []);
  for (let round = -1; round < runs; round += 1) {
    for (const [i, contender] of contenders.entries()) {
      const seconds = await contender.run(timed);
      if (round >= 0) times[i]?.push(seconds);
    }
  }
  return times;
}

/** The figure of the browser, which comes last; null without one. */
/** @param {readonly Contender[]} contenders @param {readonly number[]} figures */
function browsers(contenders, figures) {
  return contenders.at(-1)?.name.startsWith('browser') ? (figures.at(-1) ?? null) : null;
}

/** A row of a figure with its share of the browser's. */
/** @param {string} name @param {string} figure @param {number} value @param {number | null} reference */
function compared(name, figure, value, reference) {
  return [name, figure, ...(reference === null ? [] : [(value / reference).toFixed(2)])];
}

/** @param {readonly Contender[]} contenders @param {readonly number[]} medians @param {number} runs */
function reportTimes(contenders, medians, runs) {
  const reference = browsers(contenders, medians);
  const rows = contenders.map(({ name }, i) => {
    const seconds = medians[i] ?? 0;
    return compared(name, seconds.toFixed(2), seconds, reference);
  });
  table([[`whole process, runs: ${runs}`, 'median s', ...(reference === null ? [] : ['x browser'])], ...rows]);
}

/** Once each, apart from the runs that are timed: looking takes time. @param {readonly Contender[]} contenders */
async function reportMemory(contenders) {
  /** @type {number[]} */
  const peaks = [];
  for (const contender of contenders) peaks.push(await contender.run(peakOf));
  const reference = browsers(contenders, peaks);
  const rows = contenders.map(({ name }, i) => compared(name, (peaks[i] ?? 0).toFixed(0), peaks[i] ?? 0, reference));
  table([['memory of all its processes', 'peak MiB', ...(reference === null ? [] : ['x browser'])], ...rows]);
}

/**
 * @param {string | null} browser
 * @param {{ runs: number, print: number | null }} of `print`: seconds that the browser takes for the whole PDF
 */
async function reportLatency(browser, { runs, print }) {
  const ours = await measureLatency({ docx: files.docx, dist: dirname(command), runs });
  const edit = browser === null ? null : await editInBrowser({ browser, page: files.page });
  const cold = ours.cold.set;
  const times = (/** @type {number} */ value) => value.toFixed(4);
  const row = (/** @type {string} */ name, /** @type {number} */ time, /** @type {string} */ share) => [
    name,
    time.toFixed(2),
    share,
  ];
  const layout = (/** @type {string} */ name, /** @type {{ made: number, set: number }} */ { made, set }) => [
    row(`${name}: page ends known`, made, `${times(made / cold)} x cold`),
    row(`${name}: all pages set`, set, `${times(set / cold)} x cold`),
  ];
  const ofEdit = (/** @type {number} */ time) => (edit === null ? '' : `${times(time / edit)} x edit in browser`);
  table([
    ['pages after a change', 'median ms', 'share'],
    row('whole book, cold: page ends known', ours.cold.made, `${times(ours.cold.made / cold)} x cold`),
    row(
      'whole book, cold: all pages set',
      cold,
      print === null ? '' : `${times(cold / 1000 / print)} x print in browser`,
    ),
    row('a letter, the section in view', ours.section.median, ofEdit(ours.section.median)),
    row('the same, 99th percentile', ours.section.p99, ofEdit(ours.section.p99)),
    row('a letter, the whole book', ours.whole.median, ofEdit(ours.whole.median)),
    row('the same, 99th percentile', ours.whole.p99, ofEdit(ours.whole.p99)),
    ...layout('another trim', ours.trim),
    ...layout('the first trim again', ours.back),
    ...layout('another size of type', ours.size),
    ...layout('another leading', ours.leading),
    ...layout('fitted to 600 pages', ours.fit),
    ...(edit === null ? [] : [row('running browser: edit and PDF', edit, '')]),
  ]);
  const { before, after } = ours.heap;
  const count = LONG_RUN.toLocaleString('en');
  console.log(`heap before and after ${count} edits: ${before.toFixed(1)} and ${after.toFixed(1)} MiB`);
}

/** @param {string | null} browser */
function reportQuality(browser) {
  const pdf = readdirSync(files.out, { recursive: true }).find((name) => String(name).endsWith('.pdf'));
  if (pdf === undefined) throw new Error(`no PDF in ${files.out}`);
  const all = [qualityOf(join(files.out, String(pdf))), ...(browser === null ? [] : [qualityOf(files.browserPdf)])];
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
    ['lines tighter than 0.75x natural', (q) => percent(q.tightShare)],
    ['widows', (q) => String(q.widows)],
    ['orphans', (q) => String(q.orphans)],
    ['lines off the grid', (q) => percent(q.offGrid)],
    ['facing pages of unequal depth', (q) => percent(q.unevenShare)],
    ['rectos that end in a hyphen', (q) => percent(q.turnShare)],
    ['last lines of one short word', (q) => percent(q.runtShare, 2)],
  ];
  const head = ['read from the PDF', 'reglet', ...(browser === null ? [] : ['browser'])];
  table([head, ...figures.map(([name, show]) => [name, ...all.map(show)])]);
}

try {
  await main();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
