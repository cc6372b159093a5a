/** The design panel as a person uses it: specimens, choices, figures by keys, one undo a drag, a file saved and loaded. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { accessibilityFaults, keepScreens, type OpenWindow, openWindow } from './window.ts';

let window: OpenWindow;
let tab: Page;

beforeAll(async () => {
  window = await openWindow();
  ({ tab } = window);
  await tab.getByRole('button', { name: 'Look at the demo' }).click();
  await tab.getByRole('tab', { name: 'Proof' }).click();
  await tab.getByText(/^of [1-9]\d* pages$/).waitFor();
}, 120_000);

afterAll(async () => {
  await window?.close();
});

const panel = () => tab.getByRole('complementary', { name: 'Design' });
const size = () => panel().getByRole('slider', { name: 'Size', exact: true });

/** Writes a file into the person's home and chooses it. */
async function load(name: string, text: string): Promise<void> {
  writeFileSync(join(window.home, name), text);
  await panel().getByRole('button', { name: 'Load a design file' }).click();
  await tab.getByRole('row', { name }).dblclick();
}

function poll<Value>(look: () => Value | Promise<Value>) {
  return expect.poll(look, { timeout: 10_000 });
}

/** Dark pixels of each specimen, those of the type. */
async function ink(): Promise<readonly number[]> {
  return panel()
    .locator('canvas')
    .evaluateAll((canvases) =>
      canvases.map((each) => {
        const { width, height } = each as HTMLCanvasElement;
        const data = (each as HTMLCanvasElement).getContext('2d')?.getImageData(0, 0, width, height).data ?? [];
        let dark = 0;
        for (let at = 0; at < data.length; at += 4) if ((data[at + 3] ?? 0) > 200 && (data[at] ?? 255) < 160) dark++;
        return dark;
      }),
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

test('another design is taken up with the arrow keys', async () => {
  await panel().getByRole('radio', { checked: true }).focus();
  await tab.keyboard.press('ArrowDown');
  await poll(() => panel().getByRole('radio', { checked: true }).getAttribute('value')).toBe('tympan');
}, 60_000);

test('a design goes into a file and comes back from it; what is none is refused in one sentence', async () => {
  await panel().getByRole('button', { name: 'Save as a design file' }).click();
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
