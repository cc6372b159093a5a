/**
 * The window on the long novel: how soon after a key the character and the print proof are painted, how soon the book can be
 * edited, and the frames while all pages scroll by. `npm run bench:window`; needs `npm run build` first. Times are wall
 * clock in one browser: read them beside the control, which is the same browser doing nothing.
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { findBrowser } from './browser.mjs';
import { chapters, toDocx } from './novel.mjs';
import { table } from './tables.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
/** The build that is measured: `REGLET_DIST` names another than the project's own. */
const dist = process.env['REGLET_DIST'] ?? join(root, 'dist');
const folder = join(root, '.cache/bench');
const KEYS = 200;
const FRAMES = 300;

/** Milliseconds between two keys: some ten keys a second, not in step with the frames. */
const pause = (/** @type {number} */ key) => 85 + ((key * 37) % 30);

/** The novel as a book that opens without questions. */
function bookFile() {
  mkdirSync(folder, { recursive: true });
  const [docx, book] = [join(folder, 'moby-dick.docx'), join(folder, 'moby-dick.reglet')];
  if (!existsSync(docx)) writeFileSync(docx, toDocx(chapters()));
  rmSync(book, { force: true });
  const kept = spawnSync(process.execPath, [join(dist, 'reglet.mjs'), 'keep', docx, '--to', book]);
  if (kept.status !== 0) throw new Error(`the book could not be made: ${kept.stderr}`);
  return book;
}

/** @param {string} book @param {string} data @returns {Promise<{ address: string, stop: () => void }>} */
function started(book, data) {
  const program = spawn(process.execPath, [join(dist, 'start.mjs'), '--no-window', book], {
    env: { ...process.env, REGLET_DATA: data },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return new Promise((done, fail) => {
    let said = '';
    program.once('exit', (status) => fail(new Error(`the program ended with status ${status}`)));
    program.stdout.on('data', (piece) => {
      said += String(piece);
      if (said.includes('\n')) done({ address: said.trim(), stop: () => program.kill('SIGTERM') });
    });
  });
}

/**
 * Watches what is painted, from outside the program: glyphs are stamped on a sheet of their own, which is then laid on the
 * canvas of the proof. The time of laying down a fresh sheet is that of the repainted proof.
 */
function watchPaint() {
  const watched = { stamped: false, proof: 0 };
  Object.assign(globalThis, { watched });
  const sheet = OffscreenCanvasRenderingContext2D.prototype;
  const stamp = sheet.drawImage;
  sheet.drawImage = function (/** @type {any[]} */ ...given) {
    watched.stamped = true;
    return stamp.apply(this, /** @type {any} */ (given));
  };
  const canvas = CanvasRenderingContext2D.prototype;
  const lay = canvas.drawImage;
  canvas.drawImage = function (/** @type {any[]} */ ...given) {
    const laid = lay.apply(this, /** @type {any} */ (given));
    if (watched.stamped) watched.proof = performance.now();
    watched.stamped = false;
    return laid;
  };
}

/** Types in the middle of the section and waits for text and proof. @param {import('playwright-core').Page} tab */
async function typed(tab) {
  await tab.evaluate(() => {
    const times = { text: /** @type {number[]} */ ([]), proof: /** @type {number[]} */ ([]), key: 0, open: false };
    Object.assign(globalThis, { times });
    const { watched } = /** @type {any} */ (globalThis);
    addEventListener(
      'keydown',
      ({ timeStamp }) => {
        times.key = timeStamp;
        times.open = true;
        // The next frame after the handlers shows the character: its paint begins after the last callback.
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => times.text.push(performance.now() - timeStamp);
          port2.postMessage(null);
        });
      },
      true,
    );
    setInterval(() => {
      if (!times.open || watched.proof < times.key) return;
      times.open = false;
      times.proof.push(watched.proof - times.key);
    }, 4);
  });
  for (let key = 0; key < KEYS; key++) {
    await tab.keyboard.press(key % 6 === 5 ? 'Space' : 'e');
    await tab.waitForTimeout(pause(key));
  }
  await tab.waitForTimeout(1000);
  return tab.evaluate(() => {
    const { text, proof } = /** @type {any} */ (globalThis).times;
    return { text, proof };
  });
}

/** Deeds that many people fear in a long book, each by keys as a person presses them. */
/** @type {readonly (readonly [string, (tab: import('playwright-core').Page) => Promise<void>])[]} */
const DEEDS = [
  ['a key held down', (tab) => repeated(tab, 'e', 60, 33)],
  ['undo held down', (tab) => repeated(tab, 'Control+z', 40, 33)],
  ['paragraphs split and joined', (tab) => alternated(tab, ['Enter', 'Backspace'], 6)],
  ['a section moved down and up', (tab) => alternated(tab, ['Alt+ArrowDown', 'Alt+ArrowUp'], 6)],
  ['from section to section', (tab) => repeated(tab, 'Control+]', 8, 700)],
];

/** @param {import('playwright-core').Page} tab @param {string} key @param {number} times @param {number} wait */
async function repeated(tab, key, times, wait) {
  for (let time = 0; time < times; time++) {
    await tab.keyboard.press(key);
    await tab.waitForTimeout(wait);
  }
}

/** @param {import('playwright-core').Page} tab @param {readonly string[]} keys @param {number} times */
async function alternated(tab, keys, times) {
  for (let time = 0; time < times; time++) for (const key of keys) await repeated(tab, key, 1, 400);
}

/** The main thread's tasks of more than 50 ms, by the browser's own count, while something is done. */
/** @param {import('playwright-core').Page} tab @param {string} name @param {() => Promise<void>} work */
async function longTasks(tab, name, work) {
  await tab.evaluate(() => {
    const tasks = /** @type {number[]} */ ([]);
    const observer = new PerformanceObserver((list) => tasks.push(...list.getEntries().map((each) => each.duration)));
    observer.observe({ entryTypes: ['longtask'] });
    Object.assign(globalThis, { tasks, observer });
  });
  await work();
  await tab.waitForTimeout(800);
  const tasks = await tab.evaluate(() => {
    const { tasks: found, observer } = /** @type {any} */ (globalThis);
    observer.disconnect();
    return /** @type {number[]} */ (found);
  });
  return [name, String(tasks.length), String(Math.max(0, ...tasks))];
}

/** Milliseconds that the main thread has worked so far, by its own clock: what else runs on the machine does not count. */
/** @param {import('playwright-core').CDPSession} session */
async function worked(session) {
  const { metrics } = await session.send('Performance.getMetrics');
  return (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0) * 1000;
}

/** Times between frames while something scrolls by so many pixels each. @param {import('playwright-core').Page} tab */
function frames(tab, step = 0) {
  return tab.evaluate(
    async ({ pixels, count }) => {
      const strip = document.querySelector('.leaf-strip');
      const between = [];
      let last = performance.now();
      for (let frame = 0; frame < count; frame++) {
        if (strip) strip.scrollLeft += pixels;
        await new Promise((drawn) => requestAnimationFrame(drawn));
        between.push(performance.now() - last);
        last = performance.now();
      }
      return between;
    },
    { pixels: step, count: FRAMES },
  );
}

/** @param {string} name @param {readonly number[]} times */
function row(name, times) {
  const sorted = [...times].sort((one, other) => one - other);
  const at = (/** @type {number} */ share) => (sorted[Math.floor(share * (sorted.length - 1))] ?? 0).toFixed(1);
  return [name, String(sorted.length), at(0.5), at(0.99), at(1)];
}

async function main() {
  const browserPath = findBrowser();
  if (browserPath === null) throw new Error('No Chromium at /usr/bin/chromium or in CHROMIUM.');
  const data = mkdtempSync(join(tmpdir(), 'reglet-bench-'));
  const program = await started(bookFile(), data);
  const browser = await chromium.launch({
    executablePath: browserPath,
    args: ['--no-sandbox', '--disable-background-networking'],
  });
  try {
    const tab = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await tab.addInitScript(watchPaint);
    const begun = Date.now();
    await tab.goto(program.address);
    await tab.locator('.ProseMirror p').first().waitFor({ timeout: 60_000 });
    const editable = Date.now() - begun;
    await tab.getByText(/^[1-9][\d,]* pages$/).waitFor({ timeout: 60_000 });
    const paged = Date.now() - begun;
    await tab.keyboard.press('Control+Shift+P');
    await tab.locator('.slip canvas').waitFor();
    await tab.locator('.ProseMirror p').nth(3).click();
    await tab.waitForTimeout(2000);
    const idle = await frames(tab);
    const session = await tab.context().newCDPSession(tab);
    await session.send('Performance.enable', { timeDomain: 'threadTicks' });
    const before = await worked(session);
    /** @type {{ text: readonly number[], proof: readonly number[] }} */
    let painted = { text: [], proof: [] };
    const heavy = [
      await longTasks(tab, 'keys one by one', async () => {
        painted = await typed(tab);
      }),
    ];
    const work = (await worked(session)) - before;
    const { text, proof } = painted;
    for (const [name, deed] of DEEDS) heavy.push(await longTasks(tab, name, () => deed(tab)));
    await tab.getByRole('tab', { name: 'Proof' }).click();
    await tab.waitForTimeout(2000);
    const control = await frames(tab);
    const scrolled = await frames(tab, 220);
    console.log(`Address to editable text ${editable} ms; to all pages ${paged} ms.`);
    console.log(`A key costs the main thread ${(work / KEYS).toFixed(1)} ms in all, lists and painting included.\n`);
    table([
      ['milliseconds', 'times', 'median', '99th', 'most'],
      row('frames, copy desk idle (control)', idle),
      row('key to painted character', text),
      row('key to repainted print proof', proof),
      row('frames, proof desk idle (control)', control),
      row('frames, all pages scrolling by', scrolled),
    ]);
    console.log();
    table([['the main thread, while', 'tasks over 50 ms', 'longest'], ...heavy]);
  } finally {
    await browser.close();
    program.stop();
    rmSync(data, { recursive: true, force: true });
  }
}

await main();
