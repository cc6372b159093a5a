/** The design panel as a person uses it: specimens, choices, figures by keys, one undo a run, a file saved and loaded. */
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

test('a figure changed by keys makes a design of the book, is followed by the proof and undone at once', async () => {
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
  writeFileSync(join(window.home, 'wide.json'), JSON.stringify({ ...kept, text: { ...kept.text, size: 'large' } }));
  expect(window.faults).toEqual([]);
}, 60_000);
