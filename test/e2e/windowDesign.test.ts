/** The design panel as a person uses it: specimens, choices, figures by keys, one undo a drag, a file saved and loaded. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { accessibilityFaults, keepScreens, type OpenWindow, openWindow, poll, proofTheDemo } from './window.ts';

let window: OpenWindow;
let tab: Page;

beforeAll(async () => {
  window = await openWindow();
  ({ tab } = window);
  await proofTheDemo(tab);
}, 120_000);

afterAll(async () => {
  await window?.close();
});

const panel = () => tab.getByRole('complementary', { name: 'Design' });
const size = () => panel().getByRole('slider', { name: 'Size', exact: true });

async function choose(deed: string | RegExp): Promise<void> {
  await panel().getByRole('button', { name: 'What to do with this design' }).click();
  await tab.getByRole('menuitem', { name: deed }).click();
}

/** Writes a file into the person's home and chooses it. */
async function load(name: string, text: string): Promise<void> {
  writeFileSync(join(window.home, name), text);
  await choose('Load a design file');
  await tab.getByRole('row', { name }).dblclick();
}

/** Pixels of each canvas that are as dark as its type: darker than `limit`, lighter than `edges` around pages. */
async function ink(canvases = '.design-specimens canvas', limit = 160, edges = -1): Promise<readonly number[]> {
  return tab.locator(canvases).evaluateAll(
    (all, [lightest = 0, darkest = 0]) =>
      all.map((each) => {
        const { width, height } = each as HTMLCanvasElement;
        const data = (each as HTMLCanvasElement).getContext('2d')?.getImageData(0, 0, width, height).data ?? [];
        let dark = 0;
        for (let at = 0; at < data.length; at += 4) {
          const red = data[at] ?? 255;
          if ((data[at + 3] ?? 0) > 200 && red < lightest && red > darkest) dark++;
        }
        return dark;
      }),
    [limit, edges],
  );
}

test('the panel opens by its keys from a desk and shows each design with type of the book', async () => {
  await tab.keyboard.press('Control+Shift+G');
  await panel().waitFor();
  await poll(async () => (await ink()).filter((each) => each > 500).length).toBe(3);
  expect(new Set(await ink()).size).toBe(3);
  expect(await accessibilityFaults(tab, '.design-panel')).toEqual([]);
  await keepScreens(tab, 'design');
}, 60_000);

test('a figure changed by keys makes a design of the book, is followed by the proof and undone step by step', async () => {
  const pages = () => tab.getByText(/^of [1-9]\d* pages$/).textContent();
  const before = await pages();
  const was = await size().inputValue();
  await size().focus();
  for (let step = 0; step < 8; step++) await tab.keyboard.press('ArrowRight');
  await poll(() => size().inputValue()).toBe(String(Number(was) + 2));
  await poll(pages).not.toBe(before);
  await poll(() => panel().getByRole('radio').count()).toBe(4);
  await expect(panel().getByRole('radio', { checked: true }).getAttribute('value')).resolves.toMatch(/^design-/);
  for (let step = 0; step < 8; step++) await tab.keyboard.press('Control+Z');
  await poll(() => size().inputValue()).toBe(was);
  await poll(() => panel().getByRole('radio').count()).toBe(3);
}, 60_000);

test('a slider that is dragged is undone at once', async () => {
  const leading = panel().getByRole('slider', { name: 'Leading', exact: true });
  const was = await leading.inputValue();
  await leading.scrollIntoViewIfNeeded();
  const box = await panel()
    .locator('.design-slider', { hasText: 'Leading' })
    .first()
    .locator('.design-thumb')
    .boundingBox();
  if (!box) throw new Error('the slider is not in view');
  await tab.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await tab.mouse.down();
  for (let step = 1; step <= 6; step++) await tab.mouse.move(box.x + step * 10, box.y + box.height / 2);
  await tab.mouse.up();
  await poll(() => leading.inputValue()).not.toBe(was);
  await tab.keyboard.press('Control+Z');
  await poll(() => leading.inputValue()).toBe(was);
  await poll(() => panel().getByRole('radio').count()).toBe(3);
}, 60_000);

test('the strip of leaves is never bare while a design is dragged', async () => {
  // Type is grey at that size, lighter than the edges of the leaves.
  const type = async (): Promise<number> => (await ink('.leaf-strip canvas', 230, 150))[0] ?? 0;
  await poll(type).toBeGreaterThan(1000);
  const atRest = await type();
  await size().focus();
  const seen: number[] = [];
  for (let step = 0; step < 12; step++) {
    await tab.keyboard.press('ArrowRight');
    seen.push(await type());
  }
  expect(Math.min(...seen)).toBeGreaterThan(atRest / 4);
  for (let step = 0; step < 12; step++) await tab.keyboard.press('Control+Z');
  await poll(() => panel().getByRole('radio').count()).toBe(3);
}, 60_000);

test('a setting is found by a word, its figure typed, what can not be refused, and set back', async () => {
  const find = panel().getByRole('searchbox', { name: 'Find a setting' });
  await find.fill('turnover');
  const turnover = panel().getByRole('textbox', { name: 'Turnover, figure' });
  await expect(turnover.inputValue()).resolves.toBe('3');
  await turnover.fill('40');
  await turnover.press('Enter');
  await panel().getByText('From 0 to 6 em.').waitFor();
  await turnover.fill('4,5');
  await turnover.press('Enter');
  await panel().getByRole('button', { name: '1 setting differs from Quoin' }).click();
  await panel().getByText('4.5 em instead of 3 em').waitFor();
  expect(await accessibilityFaults(tab, '.design-panel')).toEqual([]);
  await panel().getByRole('button', { name: 'Turnover: back to 3 em' }).first().click();
  await panel().getByText('Nothing differs from Quoin.').waitFor();
  await poll(() => turnover.inputValue()).toBe('3');
  await find.fill('no such thing');
  await panel()
    .getByText(/^No setting has “no such thing”/)
    .waitFor();
  await panel().getByRole('button', { name: 'Show all settings' }).click();
  for (let step = 0; step < 2; step++) await tab.keyboard.press('Control+Z');
  await poll(() => panel().getByRole('radio').count()).toBe(3);
}, 60_000);

test('a group is shown on a page of the book, or on one that says it is invented', async () => {
  await panel().getByRole('button', { name: 'Part titles' }).click();
  await panel().getByRole('img', { name: 'Part titles: a page of your book' }).waitFor();
  await poll(async () => (await ink('.design-shown canvas'))[0] ?? 0).toBeGreaterThan(50);
  await panel().getByRole('button', { name: 'Subheads' }).click();
  await panel().getByRole('img', { name: 'Subheads: an invented page' }).waitFor();
  await poll(async () => (await ink('.design-shown canvas'))[0] ?? 0).toBeGreaterThan(200);
  await panel()
    .getByText(/^Invented/)
    .waitFor();
  expect(await accessibilityFaults(tab, '.design-panel')).toEqual([]);
  await keepScreens(tab, 'design-groups');
  await panel().getByRole('button', { name: 'Text', exact: true }).click();
}, 60_000);

test('the settings of the edition are reached from the panel: a trim in millimetres, a page count, paper, notes', async () => {
  await panel().getByRole('button', { name: 'Settings…' }).click();
  const dialog = tab.getByRole('dialog');
  const choosePart = async (part: RegExp, option: string): Promise<void> => {
    await dialog.getByRole('button', { name: part }).click();
    await tab.getByRole('option', { name: option }).click();
  };
  await choosePart(/Trim/, 'Size of your own');
  await dialog.getByRole('textbox', { name: /^Width/ }).fill('135 mm');
  await dialog.getByRole('textbox', { name: /^Height/ }).fill('2100 mm');
  await dialog.getByText('Between 3 and 17 inches (76 and 432 mm).').waitFor();
  await dialog.getByRole('textbox', { name: /^Height/ }).fill('210 mm');
  await choosePart(/Page count/, 'Exactly so many');
  await dialog.getByRole('textbox', { name: 'Pages' }).fill('70');
  await choosePart(/Paper/, 'Bulky book, 55 lb');
  await choosePart(/Notes stand/, 'after each chapter');
  await dialog.getByRole('button', { name: 'Done' }).click();
  await panel()
    .getByText(/^5\.31 × 8\.27 in; Bulky book, 55 lb; notes after each chapter$/)
    .waitFor();
  await tab.getByText('of 70 pages').waitFor();
  await tab.keyboard.press('Control+Z');
  await panel()
    .getByText(/^Digest, 5\.5 × 8\.5 in/)
    .waitFor();
}, 60_000);

test('a copy is kept, set back and dropped', async () => {
  await choose(/own$/);
  const name = panel().getByRole('textbox', { name: 'Name of the design' });
  await poll(() => name.inputValue()).toBe('Quoin, adjusted');
  await name.fill('Series');
  await name.press('Tab');
  await poll(() => panel().getByRole('radio', { name: 'Series' }).count()).toBe(1);
  await choose('Drop from the book');
  await tab.getByText('“Series” dropped; its editions have Quoin again.').waitFor();
  await poll(() => panel().getByRole('radio').count()).toBe(3);
}, 60_000);

test('another design is taken up with the arrow keys', async () => {
  await panel().getByRole('radio', { checked: true }).focus();
  await tab.keyboard.press('ArrowDown');
  await poll(() => panel().getByRole('radio', { checked: true }).getAttribute('value')).toBe('tympan');
}, 60_000);

test('a design goes into a file and comes back from it; what is none is refused in one sentence', async () => {
  await choose('Save as a design file');
  await tab.getByRole('dialog').getByRole('button', { name: /save/i }).click();
  await tab.getByText('Saved as Tympan.json.').waitFor();
  const file = join(window.home, 'Tympan.json');
  const kept = JSON.parse(readFileSync(file, 'utf8'));
  expect(kept).toMatchObject({ regletDesign: 1, name: 'Tympan' });
  await load('Tympan.json', JSON.stringify({ ...kept, name: 'Mine', text: { ...kept.text, size: 10.5 } }));
  await tab.getByText('The edition now has Mine.').waitFor();
  await poll(() => size().inputValue()).toBe('10.5');
  await load('Tympan.json', JSON.stringify({ ...kept, text: { ...kept.text, size: 'large' } }));
  await tab.getByText(/^“Tympan\.json” can't be used as a design: text\.size/).waitFor();
  expect(window.faults).toEqual([]);
}, 60_000);
