/** Fonts of the computer and marks of one's own, as a person uses them: chosen, seen in both proofs, undone, made into files. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encode } from 'fast-png';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fontTable } from '#type';
import { checkEpub, complaints } from '../tools/epubcheck.ts';
import { fontFile } from '../type/fonts.ts';
import { freshFolder } from './command.ts';
import { accessibilityFaults, keepScreens, type OpenWindow, openWindow, poll } from './window.ts';

let window: OpenWindow;
let tab: Page;

/** A font that says that it may not be embedded: OS/2 fsType 2 (OpenType specification, OS/2). */
function forbidden(font: Uint8Array): Uint8Array {
  const copy = font.slice();
  const table = fontTable(copy, 'OS/2');
  if (!table) throw new RangeError('the font has no OS/2 table');
  new DataView(table.buffer, table.byteOffset).setUint16(8, 2);
  return copy;
}

/** A red disc of 600 by 300 pixels. */
function disc(): Uint8Array {
  const [width, height] = [600, 300];
  const data = new Uint8Array(width * height * 4);
  for (let at = 0; at < width * height; at++) {
    const [x, y] = [at % width, Math.floor(at / width)];
    if (Math.hypot(x - width / 2, y - height / 2) < 140) data.set([200, 20, 20, 255], at * 4);
  }
  return encode({ width, height, data, channels: 4, depth: 8 });
}

beforeAll(async () => {
  const home = freshFolder();
  const fonts = join(home, '.local/share/fonts');
  mkdirSync(fonts, { recursive: true });
  writeFileSync(join(fonts, 'a.ttf'), fontFile('noto-serif/400Regular/NotoSerif_400Regular.ttf'));
  writeFileSync(join(fonts, 'b.ttf'), fontFile('noto-serif/400Regular_Italic/NotoSerif_400Regular_Italic.ttf'));
  writeFileSync(
    join(fonts, 'c.ttf'),
    forbidden(fontFile('noto-serif-hebrew/400Regular/NotoSerifHebrew_400Regular.ttf')),
  );
  writeFileSync(join(home, 'disc.png'), disc());
  writeFileSync(join(home, 'kite.svg'), '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 4L4 0L12 4L4 8Z"/></svg>');
  const line = '<svg xmlns="http://www.w3.org/2000/svg"><path fill="none" stroke="black" d="M0 0L9 9"/></svg>';
  writeFileSync(join(home, 'strokes.svg'), line);
  mkdirSync(join(home, 'Made'));
  window = await openWindow([], home);
  ({ tab } = window);
  await tab.getByRole('button', { name: 'Look at the demo' }).click();
  await tab.getByRole('tab', { name: 'Proof' }).click();
  await tab.getByText(/^of [1-9]\d* pages$/).waitFor();
  await tab.keyboard.press('Control+Shift+G');
  await panel().waitFor();
}, 120_000);

afterAll(async () => {
  await window?.close();
});

const panel = () => tab.getByRole('complementary', { name: 'Design' });
const face = () => panel().getByRole('combobox', { name: 'Face of the text' });
const pages = () => tab.getByText(/^of [1-9]\d* pages$/).textContent();
const ebookFace = () =>
  tab
    .frameLocator('iframe')
    .locator('body')
    .evaluate((body) => getComputedStyle(body).fontFamily);
async function choose(deed: string): Promise<void> {
  await panel().getByRole('button', { name: 'What to do with this design' }).click();
  await tab.getByRole('menuitem', { name: deed }).click();
}

async function choosePicture(name: string): Promise<void> {
  await panel().getByRole('button', { name: 'Choose a picture' }).click();
  await tab.getByRole('row', { name }).dblclick();
}

/** Another design in the panel is folded as it was at first. */
async function openBreaks(): Promise<void> {
  const button = panel().getByRole('button', { name: /^Scene breaks/ });
  if ((await button.getAttribute('aria-expanded')) === 'false') await button.click();
}

/** A list closes when what is below it moves, as it does while the specimens arrive. */
async function openFaces(): Promise<void> {
  const option = tab.getByRole('option', { name: 'EB Garamond' });
  await poll(async () => {
    if (!(await option.isVisible())) await panel().getByRole('button', { name: 'Face of the text' }).click();
    return option.isVisible();
  }).toBe(true);
}

test('a font of the computer is found by typing, shown in its own letters, and seen in both proofs; one step undoes it', async () => {
  const before = await pages();
  await openFaces();
  await keepScreens(tab, 'fonts');
  await face().fill('serif');
  const hebrew = tab.getByRole('option', { name: /Noto Serif Hebrew/ });
  expect(await hebrew.getAttribute('aria-disabled')).toBe('true');
  expect(await hebrew.textContent()).toContain('May not be embedded');
  expect(await accessibilityFaults(tab, '.face-list')).toEqual([]);
  const serif = tab.getByRole('option', { name: /^Noto Serif(?! Hebrew)/ });
  expect(await serif.locator('.face-name').evaluate((name) => getComputedStyle(name).fontFamily)).toContain(
    'Noto Serif',
  );
  await serif.click();
  await poll(pages).not.toBe(before);
  await poll(ebookFace).toContain('Noto Serif');
  await panel().getByText('Lacks bold').waitFor();
  await panel().getByText('Terms that the font names').click();
  await panel()
    .getByText(/SIL Open Font License/)
    .first()
    .waitFor();
  expect(await accessibilityFaults(tab, '.design-panel')).toEqual([]);
  await tab.getByText(/The ebook carries the font “Noto Serif” of this computer/).waitFor();
  await tab.keyboard.press('Escape');
  await tab.keyboard.press('Control+Z');
  await poll(pages).toBe(before);
  await poll(ebookFace).toContain('EB Garamond');
  await tab.keyboard.press('Control+Shift+Z');
  await poll(ebookFace).toContain('Noto Serif');
}, 120_000);

test('a character of a font stands between scenes, then a picture at the height that is chosen', async () => {
  if (!(await panel().isVisible())) await tab.keyboard.press('Control+Shift+G');
  await openBreaks();
  await panel().getByRole('button', { name: 'Choose a character' }).click();
  await keepScreens(tab, 'characters');
  expect(await accessibilityFaults(tab, '[role="dialog"]')).toEqual([]);
  await tab
    .getByRole('option', { name: /^Asterism/ })
    .first()
    .click();
  const own = panel().getByRole('radio', { checked: true });
  await poll(() => own.getAttribute('value')).toBe('own');
  await choosePicture('strokes.svg');
  await tab.getByText(/^“strokes\.svg” can’t stand between scenes as a drawing: it has strokes/).waitFor();
  await choosePicture('kite.svg');
  await panel().getByRole('radio', { name: 'The drawing “kite.svg”' }).waitFor();
  await tab.keyboard.press('Control+Z');
  await panel()
    .getByRole('radio', { name: /^The character/ })
    .waitFor();
  await choosePicture('disc.png');
  await panel().getByRole('radio', { name: 'The picture “disc.png”' }).waitFor();
  await panel()
    .getByText(/It has colour/)
    .waitFor();
  const height = panel().getByRole('slider', { name: 'Height of the picture' });
  await height.focus();
  for (let step = 0; step < 4; step++) await tab.keyboard.press('ArrowRight');
  await poll(() => height.inputValue()).toBe('3');
  await tab.getByText(/The picture for scene breaks, “disc.png”, has colour/).waitFor();
  await keepScreens(tab, 'marks');
}, 120_000);

test('a design file brings its picture along, and one step takes design and picture back', async () => {
  await choose('Save as a design file');
  await tab.getByRole('dialog').getByRole('button', { name: /save/i }).click();
  await tab.getByText(/^Saved as .*\.json\.$/).waitFor();
  const name = readdirSync(window.home).find((each) => each.endsWith('.json')) ?? '';
  expect(JSON.parse(readFileSync(join(window.home, name), 'utf8'))).toMatchObject({ picture: { name: 'disc.png' } });
  const mark = () => panel().locator('.mark-field').getByRole('radio', { checked: true }).getAttribute('value');
  await panel().locator('.mark-tile').nth(3).click();
  await poll(mark).toBe('leaf');
  await choose('Load a design file');
  await tab.getByRole('row', { name }).dblclick();
  await tab.getByText(/^The edition now has /).waitFor();
  await openBreaks();
  await poll(mark).toBe('own');
  const image = panel().locator('.mark-tile img');
  await poll(() => image.evaluate((each) => (each as HTMLImageElement).naturalWidth)).toBe(600);
  await tab.keyboard.press('Control+Z');
  await openBreaks();
  await poll(mark).toBe('leaf');
  await tab.keyboard.press('Control+Z');
  await poll(mark).toBe('own');
}, 120_000);

test('both files carry font and picture, and the checkers have nothing to say', async () => {
  await tab.keyboard.press('Escape');
  await tab.getByRole('tab', { name: 'Press' }).click();
  await tab.getByRole('button', { name: 'Make all editions' }).click();
  await tab.getByRole('row', { name: 'Made' }).dblclick();
  await tab.getByText('Nothing here that can be chosen.').waitFor();
  await tab.getByRole('button', { name: 'Choose this folder' }).click();
  await tab.getByText('2 editions are made.').waitFor({ timeout: 60_000 });
  const folder = join(window.home, 'Made');
  const file = (ending: string): string =>
    join(folder, readdirSync(folder).find((name) => name.endsWith(ending)) ?? '');
  const told = (program: string, ...words: string[]): string => execFileSync(program, words, { encoding: 'utf8' });
  expect(told('qpdf', '--check', file('.pdf'))).toContain('No syntax or stream encoding errors found');
  // Columns: name, type, encoding, emb, sub, uni.
  expect(told('pdffonts', file('.pdf'))).toMatch(/\+NotoSerif\S* .* yes yes yes/);
  expect(told('pdfimages', '-list', file('.pdf'))).toMatch(/600 +300/);
  const epub = new Uint8Array(readFileSync(file('.epub')));
  expect(complaints(await checkEpub(epub))).toEqual([]);
  const entries = unzipSync(epub);
  const names = Object.keys(entries);
  expect(names.filter((name) => name.includes('/fonts/')).some((name) => name.includes('own-noto-serif'))).toBe(true);
  // The titles are still in a font of the program, whose licence travels with it; no other does.
  expect(names.filter((name) => name.endsWith('-OFL.txt'))).toEqual(['EPUB/fonts/EBGaramond-OFL.txt']);
  expect(entries['EPUB/images/scene-break.png']).toEqual(new Uint8Array(readFileSync(join(window.home, 'disc.png'))));
  expect(window.faults).toEqual([]);
}, 180_000);
