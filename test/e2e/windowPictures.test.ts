/** Pictures in the text: dropped, described, placed, replaced, printed; and what is said of their sharpness at once. */
import { encode } from 'fast-png';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessibilityFaults, keepScreens, type OpenWindow, openWindow, poll } from './window.ts';

let open: OpenWindow;
let tab: Page;

beforeAll(async () => {
  open = await openWindow();
  ({ tab } = open);
  await tab.getByRole('button', { name: 'Look at the demo' }).click();
  await tab.getByText(/^[1-9]\d* pages$/).waitFor();
}, 120_000);

afterAll(() => open?.close());

/** A picture of one grey. */
function picture(width: number, height: number, grey: number): number[] {
  const data = new Uint8Array(width * height).fill(grey);
  return [...encode({ width, height, data, channels: 1, depth: 8 })];
}

/** Drags a file over an element of the text, and lets it go there. */
async function drop(selector: string, at: number, bytes: readonly number[], name: string): Promise<void> {
  await tab
    .locator(selector)
    .nth(at)
    .evaluate(
      (element, given) => {
        const box = element.getBoundingClientRect();
        for (const type of ['dragover', 'drop']) {
          const dataTransfer = new DataTransfer();
          dataTransfer.items.add(new File([new Uint8Array(given.bytes)], given.name, { type: 'image/png' }));
          const [clientX, clientY] = [box.left + 20, box.bottom - 3];
          const init = { dataTransfer, bubbles: true, cancelable: true, clientX, clientY };
          element.dispatchEvent(new DragEvent(type, init));
        }
      },
      { bytes, name },
    );
  await tab.getByRole('dialog', { name: 'Picture' }).waitFor();
}

const dialog = () => tab.getByRole('dialog', { name: 'Picture' });
const figures = () => tab.locator('.copy figure');

describe('a picture', () => {
  it('that is dropped is asked about, and what is too coarse is told at once', async () => {
    await drop('.copy > p', 1, picture(300, 200, 120), 'tide.png');
    await dialog().getByText('tide.png').waitFor();
    await dialog().getByText('300 × 200 pixels').waitFor();
    await dialog()
      .getByText(/Prints at 150 pixels to the inch; below 200/)
      .waitFor();
    await dialog().getByText('As a plate', { exact: true }).click();
    await dialog()
      .getByText(/Prints at 2\d pixels to the inch/)
      .waitFor();
    expect(await accessibilityFaults(tab, 'html')).toEqual([]);
    await keepScreens(tab, 'picture');
  });

  it('is not taken in without words for those who cannot see it', async () => {
    await dialog().getByRole('button', { name: 'Put it in' }).click();
    await dialog().getByText('Describe it, or mark it as decorative.').waitFor();
    await dialog().getByLabel('What it shows, in words').fill('The tide at Hether.');
    await dialog().getByRole('button', { name: 'Put it in' }).click();
    await poll(() => figures().count()).toBe(1);
    const image = figures().locator('img');
    await poll(() => image.evaluate((each) => (each as HTMLImageElement).naturalWidth)).toBe(300);
    expect(await image.getAttribute('alt')).toBe('The tide at Hether.');
    // It stands where it was let go: after the second paragraph.
    const order = await tab.locator('.copy > *').evaluateAll((all) => all.slice(0, 5).map(({ tagName }) => tagName));
    expect(order).toEqual(['H1', 'P', 'P', 'FIGURE', 'P']);
  });

  it('that is dropped on another takes its place, and keeps what was said of it', async () => {
    await drop('.copy figure img', 0, picture(1800, 1200, 60), 'storm.png');
    expect(await dialog().getByLabel('What it shows, in words').inputValue()).toBe('The tide at Hether.');
    await dialog().getByText('In the text', { exact: true }).click();
    await dialog()
      .getByText(/pixels to the inch: sharp\.$/)
      .waitFor();
    await dialog().getByText('On its own page', { exact: true }).click();
    await dialog().getByRole('button', { name: 'Done' }).click();
    await poll(() =>
      figures()
        .locator('img')
        .evaluate((each) => (each as HTMLImageElement).naturalWidth),
    ).toBe(1800);
    expect(await figures().count()).toBe(1);
  });

  it('has its page in the proof, and goes by undo', async () => {
    await tab.keyboard.press('Control+2');
    await tab.locator('.spread-room').focus();
    await tab.keyboard.press('ArrowRight');
    await poll(() => tab.locator('.spread-room').textContent()).toContain('Picture: The tide at Hether.');
    await keepScreens(tab, 'picture-proof');
    await tab.keyboard.press('Control+1');
    await poll(() => figures().count()).toBe(1);
    // Once for the other picture, once for the first: a picture goes together with what it stands in.
    await tab.keyboard.press('Control+z');
    await poll(() =>
      figures()
        .locator('img')
        .evaluate((each) => (each as HTMLImageElement).naturalWidth),
    ).toBe(300);
    await tab.keyboard.press('Control+z');
    await poll(() => figures().count()).toBe(0);
    expect(open.faults).toEqual([]);
  });
});
