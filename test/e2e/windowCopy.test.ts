/** The copy desk as a writer uses it: typing and its helps, notes, finding and replacing, undo; and a manuscript looked through. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { docx, p } from '../builders/docx.ts';
import { freshFolder } from './command.ts';
import { accessibilityFaults, keepScreens, type OpenWindow, openWindow } from './window.ts';

const WAIT = { timeout: 20_000 };

const text = (tab: Page) => tab.locator('.copy');

/** The blocks of the text, as they read. */
const blocks = (tab: Page) => tab.locator('.copy > *').allInnerTexts();

async function axeFindsNothing(tab: Page): Promise<void> {
  expect(await accessibilityFaults(tab, 'html')).toEqual([]);
}

describe('the text', () => {
  let open: OpenWindow;
  let tab: Page;

  beforeAll(async () => {
    open = await openWindow();
    tab = open.tab;
    await tab.getByRole('button', { name: 'Look at the demo' }).click();
    await text(tab).waitFor();
    await tab.getByText(/^[1-9]\d* pages$/).waitFor();
  }, 120_000);

  afterAll(() => open.close());

  it('is written with the marks that its language sets', async () => {
    await text(tab).locator('p').nth(2).click();
    await tab.keyboard.press('End');
    await tab.keyboard.type(' He said "it\'s here"--now...');
    await expect.poll(() => blocks(tab), WAIT).toContainEqual(expect.stringMatching(/He said “it’s here”—now…$/));
  });

  it('takes paragraphs, italics and a scene break by keys', async () => {
    await tab.keyboard.press('Enter');
    await tab.keyboard.type('A new paragraph, ');
    await tab.keyboard.press('Control+i');
    await tab.keyboard.type('slanted');
    await tab.keyboard.press('Control+i');
    await tab.keyboard.press('Control+Enter');
    await tab.keyboard.type('After the break');
    await expect.poll(() => text(tab).locator('em').allInnerTexts(), WAIT).toContain('slanted');
    await expect.poll(() => text(tab).getByRole('separator').count(), WAIT).toBe(1);
  });

  it('has its notes in the margin, level with their lines, written in place', async () => {
    await tab.keyboard.press('Control+Alt+n');
    await tab.keyboard.type('A note "here".');
    const note = tab.getByRole('textbox', { name: 'Text of note 1' });
    await expect.poll(() => note.textContent(), WAIT).toBe('A note “here”.');
    const [card, mark] = [await note.boundingBox(), await text(tab).locator('.note-mark').boundingBox()];
    expect(Math.abs((card?.y ?? 0) - (mark?.y ?? 1000))).toBeLessThan(24);
    await axeFindsNothing(tab);
    await keepScreens(tab, 'copy-note');
    await tab.keyboard.press('Escape');
  });

  it('counts its notes anew when one comes before another', async () => {
    await text(tab).locator('p').first().click();
    await tab.keyboard.press('End');
    await tab.keyboard.press('Control+Alt+n');
    await tab.keyboard.type('Before it.');
    await expect.poll(() => text(tab).locator('.note-mark').allTextContents(), WAIT).toEqual(['1', '2']);
    await expect
      .poll(() => tab.getByRole('textbox', { name: 'Text of note 2' }).textContent(), WAIT)
      .toBe('A note “here”.');
    await tab.keyboard.press('Escape');
    await tab.keyboard.press('Delete');
    await expect.poll(() => text(tab).locator('.note-mark').allTextContents(), WAIT).toEqual(['1']);
  });

  it('takes all of it back, and does it again', async () => {
    const after = await blocks(tab);
    for (let step = 0; step < 20; step++) await tab.keyboard.press('Control+z');
    await expect.poll(async () => (await blocks(tab)).join('\n'), WAIT).not.toContain('A new paragraph');
    expect(await text(tab).locator('.note-mark').count()).toBe(0);
    for (let step = 0; step < 20; step++) await tab.keyboard.press('Control+Shift+z');
    await expect.poll(() => blocks(tab), WAIT).toEqual(after);
  });

  it('is looked through as a whole, and replaced in one undo', async () => {
    await tab.keyboard.press('Control+Shift+f');
    await tab.getByLabel('Find', { exact: true }).fill('porpoise');
    const places = tab.getByRole('list', { name: 'Places' }).getByRole('listitem');
    await expect.poll(() => places.count(), WAIT).toBe(4);
    await tab.getByLabel('Replace with').fill('seal');
    await expect.poll(() => places.first().textContent(), WAIT).toContain('seal');
    await axeFindsNothing(tab);
    await keepScreens(tab, 'copy-find');
    await tab.getByRole('button', { name: 'Replace all 4' }).click();
    await expect.poll(() => text(tab).textContent(), WAIT).toContain('a dead seal');
    await tab.getByLabel('Find', { exact: true }).press('Escape');
    await tab.keyboard.press('Control+z');
    await expect.poll(() => text(tab).textContent(), WAIT).toContain('a dead porpoise');
  });

  it('gives up a pattern that would never end', async () => {
    await tab.keyboard.press('Control+f');
    await tab.getByText('Pattern', { exact: true }).click();
    await tab.getByLabel('Find', { exact: true }).fill('(.*.*)*\\d\\d\\d$');
    await tab.getByText(/takes too long/).waitFor(WAIT);
    await tab.getByLabel('Find', { exact: true }).press('Escape');
  });

  it('cleans what is pasted to what a book knows', async () => {
    await text(tab).locator('p').first().click();
    await tab.keyboard.press('Home');
    await tab.evaluate(() => {
      const data = new DataTransfer();
      const html =
        '<!--x--><p class="Mso" style="color:red;mso-x:y">Pasted <b style="font-weight:normal">plain</b> and <i>slanted</i><o:p></o:p></p><p>&nbsp;</p><script>alert(1)</script><p><img src="https://example.com/x.png">Next.</p>';
      data.setData('text/html', html);
      document.activeElement?.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    });
    await expect.poll(() => text(tab).textContent(), WAIT).toContain('Pasted plain and slanted');
    const html = await text(tab).innerHTML();
    expect(html).not.toMatch(/color|mso|<script|example\.com|<b>/i);
    expect(html).toContain('<em>slanted</em>');
  });

  it('never failed on the way', () => {
    expect(open.faults).toEqual([]);
  });
});

describe('a manuscript', () => {
  it('is looked through, mended and taken in', { timeout: 180_000 }, async () => {
    const home = freshFolder();
    const path = join(home, 'harbour.docx');
    const chapter = (title: string) => [
      p(title, { style: 'Heading1' }),
      p('The  lamp was "lit" -- nobody came.'),
      p('Second Start'),
      p('The ferry lay on the far bank.'),
    ];
    writeFileSync(path, docx([...chapter('Chapter One'), ...chapter('Chapter Two'), ...chapter('Chapter Three')]));
    const open = await openWindow([path], home);
    try {
      const { tab } = open;
      await tab.getByRole('heading', { name: /What was understood of “harbour/ }).waitFor(WAIT);
      const pairs = tab.locator('.understood');
      const before = await pairs.count();
      await axeFindsNothing(tab);
      await keepScreens(tab, 'import-review');
      await pairs
        .filter({ hasText: 'Join with the next' })
        .last()
        .getByRole('button', { name: 'Join with the next' })
        .click();
      await expect.poll(() => pairs.count(), WAIT).toBe(before - 1);
      await tab.getByText(/Straight quotation marks/).click();
      await tab.getByRole('button', { name: 'Read it again' }).click();
      await expect.poll(() => pairs.count(), WAIT).toBe(before);
      await tab.getByRole('button', { name: 'Take it in' }).click();
      await text(tab).waitFor(WAIT);
      await expect.poll(() => text(tab).textContent(), WAIT).toContain('was "lit"');
      expect(open.faults).toEqual([]);
    } finally {
      await open.close();
    }
  });
});
