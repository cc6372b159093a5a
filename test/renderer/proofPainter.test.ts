/** The proof is the file: a page painted for the screen beside the same page of the PDF, rendered by poppler. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { deflateSync } from 'node:zlib';
import { decode } from 'fast-png';
import type { Browser, Page as Tab } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { applyChange, type Book, replaceText } from '#book';
import { bookOf, Engine, languagesOf, openFile } from '#engine';
import type { Page } from '#page';
import { loadHyphenator } from '#type';
import { OutlineSender } from '../../renderer/worker/outlines.ts';
import { launchChromium } from '../tools/chromium.ts';
import { testLibrary } from '../type/fonts.ts';
import type { Picture, PlainPage, paint, repaint } from './proofPainting.ts';

const DPI = 150;

/** Pixels along the side of the squares that are compared. */
const SQUARE = 4;
const root = resolve(import.meta.dirname, '../..');
mkdirSync(join(root, '.cache'), { recursive: true });
const folder = mkdtempSync(join(root, '.cache/painter-'));

let browser: Browser;
let tab: Tab;
let pages: readonly Page[];
let book: Book;
let engine: Engine;
let outlines: OutlineSender;

beforeAll(async () => {
  const file = openFile(readFileSync(join(root, 'assets/demo/manuscript.docx')), 'manuscript.docx');
  if (!file.ok) throw new Error(file.problem);
  book = bookOf(file.value);
  const library = await testLibrary();
  const hyphenators = new Map();
  for (const language of languagesOf(book)) hyphenators.set(language, await loadHyphenator(language));
  engine = new Engine({ library, hyphenators });
  const print = engine.print(book, 'print');
  ({ pages } = print.madeUp);
  outlines = new OutlineSender(library);
  writeFileSync(join(folder, 'book.pdf'), engine.pdf(book, print, { date: 0, deflate: deflateSync }));
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    build: {
      outDir: folder,
      emptyOutDir: false,
      lib: {
        entry: join(root, 'test/renderer/proofPainting.ts'),
        formats: ['iife'],
        name: 'proof',
        fileName: () => 'p.js',
      },
    },
  });
  browser = await launchChromium();
  tab = await browser.newPage();
  await tab.addScriptTag({ path: join(folder, 'p.js') });
}, 60_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

function plainPage(page: Page): PlainPage {
  const { glyphs, advances, offsets, clusters: _, ...rest } = page;
  return { page: rest, glyphs: [...glyphs], advances: [...advances], offsets: offsets && [...offsets] };
}

async function painted(page: Page): Promise<Picture> {
  const request = {
    page: plainPage(page),
    outlines: new OutlineSender(outlines.library).before([page]),
    scale: DPI / 72,
  };
  return tab.evaluate((given) => {
    const { paint: paintPage } = globalThis as unknown as { paint: typeof paint };
    return paintPage(given.page, given.outlines, given.scale);
  }, request);
}

/** The page of the PDF as poppler paints it, in grey. */
function rendered(page: Page): Picture {
  const number = String(page.index + 1);
  const out = join(folder, 'page');
  const pdf = join(folder, 'book.pdf');
  execFileSync('pdftocairo', ['-png', '-gray', '-singlefile', '-r', String(DPI), '-f', number, '-l', number, pdf, out]);
  const { width, height, data, channels } = decode(readFileSync(`${out}.png`));
  expect(channels).toBe(1);
  return { width, height, pixels: Buffer.from(data as Uint8Array).toString('latin1') };
}

/** Mean of the ink of squares of pixels: two ways of softening edges agree in it, glyphs out of place do not. */
function inkOf({ width, height, pixels }: Picture, square: number): Float64Array {
  const [across, down] = [Math.floor(width / square), Math.floor(height / square)];
  const ink = new Float64Array(across * down);
  for (let y = 0; y < down * square; y++) {
    for (let x = 0; x < across * square; x++) {
      const at = Math.floor(y / square) * across + Math.floor(x / square);
      ink[at] = (ink[at] ?? 0) + (255 - pixels.charCodeAt(y * width + x)) / (square * square);
    }
  }
  return ink;
}

/** How much the pictures differ, as a share of the second one's ink. */
function differenceOf(one: Picture, other: Picture): number {
  const [left, right] = [inkOf(one, SQUARE), inkOf(other, SQUARE)];
  let [sum, ink] = [0, 0];
  for (let at = 0; at < left.length; at++) {
    sum += Math.abs(left[at]! - right[at]!);
    ink += right[at]!;
  }
  return sum / ink;
}

/** The picture moved by whole pixels. */
function moved(picture: Picture, across: number, down: number): Picture {
  const { width, height, pixels } = picture;
  const by = (((down * width + across) % pixels.length) + pixels.length) % pixels.length;
  return { width, height, pixels: pixels.slice(pixels.length - by) + pixels.slice(0, pixels.length - by) };
}

/** A page of each sort: title, contents, chapter opener, running text, and whichever has most kinds of item. */
function samples(): readonly Page[] {
  const opener = pages.find((page) => page.opener && page.glyphs.length > 600 && page.side === 'recto');
  const text = pages.find((page) => page.folio.style === 'arabic' && !page.opener && page.glyphs.length > 1200);
  const drawn = pages.find((page) => page.items.some((item) => item.kind === 'path') && page.glyphs.length > 600);
  const ruled = pages.find((page) => page.items.some((item) => item.kind === 'rule'));
  const title = pages[2];
  return [...new Set([opener, text, drawn, ruled, title].filter((page) => page !== undefined))];
}

/** The pages after some letters were typed at a place of the text. */
function typedAt(page: Page, letters: string): readonly Page[] {
  const run = page.items.filter((item) => item.kind === 'glyphs' && item.at && item.count > 30)[12];
  if (run?.kind !== 'glyphs' || !run.at || page.section === null) throw new Error('the page has too few lines');
  const { block, offset } = run.at;
  const change = replaceText(book, { section: page.section, block, from: offset + 9, to: offset + 9, text: letters });
  const next = change && applyChange(book, change);
  if (!next?.ok) throw new Error('the page could not be changed');
  return engine.print(next.value.book, 'print').madeUp.pages;
}

async function repainted(before: Page, after: Page) {
  const sheets = new OutlineSender(outlines.library).before([before, after]);
  const request = { before: plainPage(before), after: plainPage(after), outlines: sheets, scale: 1.37 };
  return tab.evaluate((given) => {
    const { repaint: paintAgain } = globalThis as unknown as { repaint: typeof repaint };
    return paintAgain(given.before, given.after, given.outlines, given.scale);
  }, request);
}

const BESIDE = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

describe('PagePainter', () => {
  it('paints what the PDF prints, glyph for glyph', async () => {
    const chosen = samples();
    expect(chosen.length).toBeGreaterThanOrEqual(3);
    for (const page of chosen) {
      const [ours, theirs] = [await painted(page), rendered(page)];
      expect([ours.width, ours.height]).toEqual([theirs.width, theirs.height]);
      // Edges are softened in two ways; a picture one pixel beside its place differs twice as much.
      const inPlace = differenceOf(ours, theirs);
      expect(inPlace).toBeLessThan(0.2);
      for (const [across, down] of BESIDE) {
        expect(differenceOf(moved(ours, across, down), theirs)).toBeGreaterThan(inPlace * 1.5);
      }
    }
  });

  it('gives a changed page new ink in its changed lines alone, and it looks as if painted whole', async () => {
    const page = pages.find((each) => each.folio.style === 'arabic' && !each.opener && each.glyphs.length > 1200)!;
    for (const letters of ['e', 'f\u00C9', ' and so at last he went on to say that it was enough']) {
      const after = typedAt(page, letters)[page.index]!;
      const { amended, whole, before } = await repainted(page, after);
      expect(whole.alpha).not.toBe(before.alpha);
      expect(amended.alpha === whole.alpha).toBe(true);
      if (letters === 'e') expect(amended.stamps).toBeLessThan(whole.stamps / 3);
    }
  });
});
