/** The proof desk as a person uses it: spread, strip, ebook screen, findings, slip, by mouse and by keys. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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

/** Pixels of a canvas that are darker than a grey; small print is grey from afar. */
async function inkIn(selector: string, grey = 80): Promise<number> {
  return tab.locator(selector).evaluate((canvas, darkest) => {
    const { width, height } = canvas as HTMLCanvasElement;
    const context = (canvas as HTMLCanvasElement).getContext('2d');
    const { data } = context?.getImageData(0, 0, Math.max(1, width), Math.max(1, height)) ?? { data: [] };
    let dark = 0;
    for (let at = 0; at < data.length; at += 4) if ((data[at + 3] ?? 0) > 200 && (data[at] ?? 255) < darkest) dark++;
    return dark;
  }, grey);
}

/** What a canvas shows, once it has come to rest. */
async function pictureOf(selector: string): Promise<string> {
  const look = () => tab.locator(selector).evaluate((canvas) => (canvas as HTMLCanvasElement).toDataURL());
  for (let before = await look(); ; ) {
    await tab.waitForTimeout(150);
    const now = await look();
    if (now === before) return now;
    before = now;
  }
}

const SPREAD = '.spread-table canvas';

const folio = () => tab.getByLabel('Folio', { exact: true }).inputValue();
const screens = async () =>
  /(\d+) of (\d+)/.exec((await tab.locator('.ebook-foot').textContent()) ?? '')?.slice(1) ?? [];
const ebookText = () => tab.frameLocator('.ebook-screen iframe').locator('body').textContent();

async function goTo(wanted: string): Promise<void> {
  await tab.getByLabel('Folio', { exact: true }).fill(wanted);
  await tab.keyboard.press('Enter');
  await poll(folio).toBe(wanted);
}

describe('the print proof', () => {
  it('opens at the story, and turns by keys and by folio', async () => {
    await poll(() => inkIn('.spread-table canvas')).toBeGreaterThan(1000);
    expect(await folio()).toBe('1');
    await tab.locator('.spread-room').focus();
    await tab.keyboard.press('ArrowRight');
    await poll(folio).toBe('2');
    await tab.keyboard.press('Home');
    await poll(folio).toBe('i');
    await tab.keyboard.press('End');
    await poll(async () => Number(await folio())).toBeGreaterThan(40);
    await goTo('9');
  });

  it('says when there is no such folio, and stays', async () => {
    await tab.getByLabel('Folio', { exact: true }).fill('4000');
    await tab.keyboard.press('Enter');
    await tab.getByText('No page has the folio “4000”.').waitFor();
    expect(await folio()).toBe('9');
    await tab.getByRole('button', { name: 'Put away' }).click();
    await poll(() => tab.locator('.toast').count()).toBe(0);
  });

  it('shows guides by one key each', async () => {
    await tab.locator('.spread-room').focus();
    const plain = await pictureOf(SPREAD);
    for (const key of ['t', 'm', 'g']) {
      await tab.keyboard.press(key);
      await poll(() => pictureOf(SPREAD)).not.toBe(plain);
      await tab.keyboard.press(key);
      await poll(() => pictureOf(SPREAD)).toBe(plain);
    }
  });

  it('has a switch for each guide that says whether it is on', async () => {
    const grid = tab.getByRole('button', { name: 'Baseline grid' });
    const plain = await pictureOf(SPREAD);
    await grid.click();
    expect(await grid.getAttribute('aria-pressed')).toBe('true');
    await poll(() => pictureOf(SPREAD)).not.toBe(plain);
    await grid.click();
    await poll(() => pictureOf(SPREAD)).toBe(plain);
  });

  it('is shown in any size: by menu, keys, wheel, and the same after a new start', async () => {
    const size = tab.getByRole('button', { name: /^Size of the pages/ });
    await size.click();
    await tab.getByRole('menuitemradio', { name: /Printed size/ }).click();
    await poll(() => size.textContent()).toBe('100 %');
    await tab.getByRole('button', { name: 'Larger pages' }).click();
    await poll(() => size.textContent()).toBe('125 %');
    const box = await tab.locator('.spread-room').boundingBox();
    if (!box) throw new Error('no spread');
    await tab.mouse.move(box.x + box.width * 0.7, box.y + box.height / 2);
    await tab.keyboard.down('Control');
    await tab.mouse.wheel(0, -100);
    await tab.keyboard.up('Control');
    await poll(() => size.textContent()).toBe('159 %');
    // The page around the proof was not zoomed by it.
    expect(await tab.evaluate(() => devicePixelRatio)).toBe(1);
    await tab.keyboard.press('Control+9');
    await poll(() => size.textContent()).toMatch(/^Full width, \d+ %$/);
    await tab.waitForTimeout(600);
    await tab.reload();
    await tab.getByRole('button', { name: 'Look at the demo' }).click();
    await tab.getByRole('tab', { name: 'Proof' }).click();
    await poll(() => size.textContent()).toMatch(/^Full width/);
    await tab.keyboard.press('Control+0');
    await poll(() => size.textContent()).toMatch(/^Whole spread/);
  });

  it('is read out page by page', async () => {
    await goTo('1');
    const reading = tab.locator('.spread-room .unseen');
    await poll(() => reading.textContent()).toContain('The boy had been sent for lamp oil');
  });
});

describe('the ebook proof', () => {
  it('shows the exported text in the book’s own face, in a frame that runs no script', async () => {
    expect(await ebookText()).toContain('sent for lamp oil');
    expect(await tab.locator('.ebook-screen iframe').getAttribute('sandbox')).toBe('allow-same-origin');
    const faces = await tab.locator('.ebook-screen iframe').evaluate(async (frame) => {
      const own = (frame as HTMLIFrameElement).contentDocument;
      await own?.fonts.ready;
      return [...(own?.fonts ?? [])]
        .filter(({ status }) => status === 'loaded')
        .map(({ family }) => family.replaceAll('"', ''));
    });
    expect(faces).toContain('EB Garamond');
  });

  it('has more screens the larger the text, and turns them by keys into the next section', async () => {
    const before = Number((await screens())[1]);
    for (let step = 0; step < 5; step++) await tab.getByRole('button', { name: 'Larger text' }).click();
    await poll(async () => Number((await screens())[1])).toBeGreaterThan(before);
    const [, last] = await screens();
    await tab.locator('.ebook-surface').focus();
    for (let screen = 0; screen < Number(last); screen++) {
      await tab.keyboard.press('ArrowRight');
      await tab.waitForTimeout(60);
    }
    await poll(ebookText).toContain('The Table');
    // Back over the edge: the last screen of the section before.
    await tab.keyboard.press('ArrowLeft');
    await poll(ebookText).toContain('sent for lamp oil');
    await poll(screens).toEqual([last, last]);
    for (let step = 0; step < 5; step++) await tab.getByRole('button', { name: 'Smaller text' }).click();
  });

  it('keeps to the words of the print proof while both are kept together, and only then', async () => {
    await goTo('9');
    await poll(ebookText).toContain('Forty Rounds of Cheese');
    await tab.getByRole('button', { name: 'Keep together' }).click();
    await goTo('1');
    await tab.waitForTimeout(300);
    expect(await ebookText()).toContain('Forty Rounds of Cheese');
    await tab.getByRole('button', { name: 'Keep together' }).click();
  });

  it('leads from a click in either proof to the line in both', async () => {
    await goTo('9');
    await poll(ebookText).toContain('Forty Rounds of Cheese');
    const mark = tab.locator('.ebook-mark');
    const box = await tab.locator('.spread-room').boundingBox();
    if (!box) throw new Error('no spread');
    await tab.mouse.click(box.x + box.width * 0.7, box.y + box.height * 0.62);
    await poll(() => mark.count()).toBe(1);
    const first = await mark.boundingBox();
    const unmarked = await pictureOf(SPREAD);
    const screen = await tab.locator('.ebook-surface').boundingBox();
    if (!screen) throw new Error('no screen');
    await tab.mouse.click(screen.x + screen.width / 2, screen.y + screen.height * 0.8);
    await poll(async () => (await mark.boundingBox())?.y).not.toBe(first?.y);
    await poll(() => pictureOf(SPREAD)).not.toBe(unmarked);
  });
});

describe('the leaf strip', () => {
  it('is one slider that turns the spread', async () => {
    const strip = tab.getByRole('slider', { name: 'All pages' });
    await strip.focus();
    await tab.keyboard.press('Home');
    await poll(folio).toBe('i');
    await tab.keyboard.press('PageDown');
    await poll(() => strip.getAttribute('aria-valuenow')).toBe('16');
    await poll(() => inkIn('.leaf-track canvas', 210)).toBeGreaterThan(200);
  });
});

describe('findings', () => {
  it('come with what mends them, and can be muted with a reason', async () => {
    const list = tab.getByRole('region', { name: 'Findings' });
    const remark = list.getByText('The last page is not blank', { exact: false });
    await remark.waitFor();
    await list.getByRole('button', { name: 'Mute' }).click();
    await tab.getByLabel('Why it may stay as it is').fill('Our printer has room.');
    await tab.getByRole('dialog').getByRole('button', { name: 'Mute' }).click();
    await list.getByText('Muted (1)').click();
    await list.getByText('Because: Our printer has room.').waitFor();
    await list.getByRole('button', { name: 'Hear it again' }).click();
    await poll(() => list.getByText('Muted', { exact: false }).count()).toBe(0);
  });
});

describe('the desk', () => {
  it('is free of what axe-core finds', async () => {
    await goTo('9');
    await keepScreens(tab, 'proof');
    expect(await accessibilityFaults(tab, '.proof-desk')).toEqual([]);
  });

  it('follows typing on the slip beside the text', async () => {
    await tab.getByRole('tab', { name: 'Copy' }).click();
    await tab.keyboard.press('Control+Shift+P');
    await poll(() => inkIn('.slip canvas')).toBeGreaterThan(100);
    await tab.locator('.ProseMirror p').first().click();
    await tab.waitForTimeout(500);
    const before = await pictureOf('.slip canvas');
    await tab.keyboard.type('Ink and more ink.');
    await poll(() => pictureOf('.slip canvas')).not.toBe(before);
    await keepScreens(tab, 'slip');
    expect(await accessibilityFaults(tab, '.slip')).toEqual([]);
  });

  it('never failed on the way', () => {
    expect(window.faults).toEqual([]);
  });
});
