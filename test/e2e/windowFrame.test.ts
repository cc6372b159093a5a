/** The window around the desks as a person uses it: first page, running order, press, saving, by mouse and by keys. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { demo, freshFolder } from './command.ts';
import { accessibilityFaults, keepScreens, type OpenWindow, openWindow, poll } from './window.ts';

let opened: OpenWindow | null = null;

afterEach(async () => {
  await opened?.close();
  opened = null;
});

async function start(words: readonly string[] = [], home?: string): Promise<OpenWindow> {
  opened = await openWindow(words, home);
  return opened;
}

/** A screen as it should be: no findings of the accessibility checker, in light and dark kept to be looked at. */
async function inspect(tab: Page, name: string): Promise<void> {
  expect(await accessibilityFaults(tab, 'html')).toEqual([]);
  await keepScreens(tab, name);
}

const titles = (tab: Page) => tab.locator('.order-title').allTextContents();

/** Where a title stands before another. */
async function stands(tab: Page, title: string, other: string): Promise<string> {
  const all = await titles(tab);
  return all.indexOf(title) < all.indexOf(other) ? 'before' : 'after';
}

async function openDemo(tab: Page): Promise<void> {
  await tab.getByRole('button', { name: 'Look at the demo' }).click();
  await tab.getByRole('grid', { name: 'Running order' }).waitFor();
  await tab.getByText(/^[1-9]\d* pages$/).waitFor();
}

/** Saves under a name in the folder that the dialog begins in. */
async function saveAs(tab: Page, name: string): Promise<void> {
  await tab.keyboard.press('Control+s');
  await tab.getByLabel('Name').fill(name);
  await tab.getByRole('button', { name: 'Save', exact: true }).click();
  await tab.getByText(/All changes kept, saved/).waitFor();
}

test('the first page, the desks and their dialogs can be used by everyone', async () => {
  const { tab, faults } = await start();
  await tab.getByRole('heading', { name: 'Reglet' }).waitFor();
  await inspect(tab, 'first-page');
  await openDemo(tab);
  await inspect(tab, 'copy');
  await tab.getByRole('button', { name: 'Add', exact: true }).click();
  await inspect(tab, 'add-section');
  await tab.keyboard.press('Escape');
  await tab.getByRole('tab', { name: 'Press' }).click();
  await tab.getByRole('heading', { name: 'Press', exact: true }).waitFor();
  await inspect(tab, 'press');
  await tab.getByRole('button', { name: 'Settings…' }).first().click();
  await inspect(tab, 'edition');
  await tab.keyboard.press('Escape');
  await tab.getByRole('button', { name: 'Book details' }).click();
  await inspect(tab, 'details');
  await tab.keyboard.press('Escape');
  await tab.keyboard.press('Control+k');
  await tab.getByPlaceholder('Find a command').fill('settings');
  await inspect(tab, 'commands');
  await tab.keyboard.press('Enter');
  await tab.getByText('Interface text').waitFor();
  await inspect(tab, 'settings');
  await tab.getByText('150%').click();
  await tab.getByText('Higher').click();
  await tab.getByRole('button', { name: 'Done' }).click();
  await inspect(tab, 'press-large');
  expect(faults).toEqual([]);
}, 120_000);

test('a newcomer’s job by mouse: order, title, details, save, both files, and the book again from the first page', async () => {
  const { tab, home, faults } = await start();
  mkdirSync(join(home, 'Made'));
  await openDemo(tab);
  await tab.getByRole('row', { name: /Rule One/ }).dragTo(tab.getByRole('row', { name: /Prologue/ }), {
    targetPosition: { x: 60, y: 4 },
  });
  await poll(() => stands(tab, 'Rule One', 'Prologue')).toBe('before');
  await tab.keyboard.press('Control+z');
  await poll(() => stands(tab, 'Rule One', 'Prologue')).toBe('after');

  await tab.getByRole('row', { name: /Correspondence/ }).hover();
  await tab.getByRole('button', { name: 'What to do with 6 Correspondence' }).click();
  await tab.getByRole('menuitem', { name: /Title, kind/ }).click();
  await tab.getByLabel('Title of the section').fill('Letters Home');
  await tab.getByRole('button', { name: 'Done' }).click();
  await poll(() => titles(tab)).toContain('Letters Home');

  await tab.getByRole('tab', { name: 'Press' }).click();
  await tab.getByRole('button', { name: 'Book details' }).click();
  await tab.getByLabel('Title', { exact: true }).fill('High Water');
  await tab.getByLabel('Year').fill('2026');
  await tab.getByText('The line will read: Copyright © 2026').waitFor();
  await tab.keyboard.press('Escape');
  await tab.getByRole('heading', { name: 'High Water' }).waitFor();

  await tab.getByRole('button', { name: 'Settings…' }).first().click();
  await tab.getByLabel('ISBN').fill('9780306406158');
  await tab.getByText(/one of the digits is mistyped/).waitFor();
  expect(await tab.getByRole('button', { name: 'Done' }).isDisabled()).toBe(true);
  await tab.getByLabel('ISBN').fill('9780306406157');
  await tab.getByRole('button', { name: 'Done' }).click();
  await tab.getByText('978-0-306-40615-7').waitFor();

  await saveAs(tab, 'high-water');
  expect(existsSync(join(home, 'high-water.reglet'))).toBe(true);

  await tab.getByRole('button', { name: 'Make all editions' }).click();
  await tab.getByRole('row', { name: 'Made' }).dblclick();
  await tab.getByText('Nothing here that can be chosen.').waitFor();
  await tab.getByRole('button', { name: 'Choose this folder' }).click();
  await tab.getByText('2 editions are made.').waitFor({ timeout: 60_000 });
  expect(
    readdirSync(join(home, 'Made'))
      .map((name) => name.replace(/.*\./, ''))
      .sort(),
  ).toEqual(['epub', 'pdf']);
  expect(await tab.locator('.made-file').count()).toBe(2);
  await inspect(tab, 'press-made');

  await tab.keyboard.press('Control+w');
  await tab
    .getByRole('button', { name: /High Water/ })
    .first()
    .click();
  await poll(() => titles(tab)).toContain('Letters Home');
  expect(faults).toEqual([]);
}, 180_000);

test('the same by keys alone: no mouse from the first page to the files', async () => {
  const { tab, home, faults } = await start();
  await tab.getByRole('button', { name: 'Bring a manuscript' }).waitFor();
  await poll(() => tab.evaluate(() => document.activeElement?.textContent ?? '')).toContain('Bring a manuscript');
  await tab.keyboard.press('Tab');
  await tab.keyboard.press('Tab');
  await tab.keyboard.press('Enter');
  await tab.getByText(/^[1-9]\d* pages$/).waitFor();

  await focusPanel(tab, 'grid');
  await tab.keyboard.press('Home');
  for (let step = 0; step < 6; step++) await tab.keyboard.press('ArrowDown');
  await poll(() => tab.locator('.order-item[data-selected]').textContent()).toContain('Prologue');
  await tab.keyboard.press('Alt+ArrowUp');
  await poll(() => stands(tab, 'Prologue', 'Contents')).toBe('before');
  await tab.keyboard.press('Control+z');
  await poll(() => stands(tab, 'Prologue', 'Contents')).toBe('after');

  await tab.keyboard.press('Shift+ArrowDown');
  await poll(() => tab.locator('.order-item[data-selected]').count()).toBe(2);
  await tab.keyboard.press('Alt+ArrowUp');
  await poll(() => stands(tab, 'The Nought', 'Contents')).toBe('before');
  await tab.keyboard.press('Control+z');
  await poll(() => stands(tab, 'The Nought', 'Contents')).toBe('after');

  await tab.keyboard.press('Control+k');
  await tab.keyboard.type('add section');
  await tab.keyboard.press('Enter');
  await tab.getByPlaceholder('Find a kind').waitFor();
  await tab.keyboard.type('colophon');
  await tab.keyboard.press('Enter');
  await poll(() => titles(tab)).toContain('Colophon');

  await tab.keyboard.press('Control+3');
  await tab.getByRole('heading', { name: 'Press', exact: true }).waitFor();
  await tab.keyboard.press('Control+s');
  await poll(() => tab.getByLabel('Name').evaluate((field) => field === document.activeElement)).toBe(true);
  await tab.keyboard.press('Enter');
  await tab.getByText(/All changes kept, saved/).waitFor();
  await tab.keyboard.press('Control+Shift+e');
  await tab.getByRole('button', { name: 'Choose this folder' }).waitFor();
  await focusOn(tab, 'Choose this folder');
  await tab.keyboard.press('Enter');
  await tab.getByText('2 editions are made.').waitFor({ timeout: 60_000 });
  expect(readdirSync(home).filter((name) => /\.(pdf|epub|reglet)$/.test(name))).toHaveLength(3);
  expect(faults).toEqual([]);
}, 180_000);

/** Goes from panel to panel until the focus is in an element of a role. */
async function focusPanel(tab: Page, role: string): Promise<void> {
  for (let step = 0; step < 8; step++) {
    await tab.keyboard.press('F6');
    const inside = await tab.evaluate((wanted) => document.activeElement?.closest(`[role="${wanted}"]`) !== null, role);
    if (inside) return;
  }
  throw new RangeError(`F6 never comes to a ${role}`);
}

/** Goes on with Tab until a control of a name has the focus. */
async function focusOn(tab: Page, name: string): Promise<void> {
  for (let step = 0; step < 30; step++) {
    await tab.keyboard.press('Tab');
    if ((await tab.evaluate(() => document.activeElement?.textContent)) === name) return;
  }
  throw new RangeError(`Tab never comes to “${name}”`);
}

test('a file that another program changed is not written over unasked', async () => {
  const { tab, home } = await start();
  await openDemo(tab);
  await saveAs(tab, 'theirs');
  await retitle(tab, 'Mine');
  await tab.keyboard.press('Control+Shift+s');
  await tab.getByLabel('Name').fill('book');
  await tab.getByRole('button', { name: 'Save', exact: true }).click();
  const file = join(home, 'book.reglet');
  await poll(() => existsSync(file)).toBe(true);
  const theirs = readFileSync(join(home, 'theirs.reglet'));
  await tab.getByText(/All changes kept, saved [^,]*$/).waitFor();
  writeFileSync(file, theirs);
  await tab.getByRole('alertdialog', { name: 'The file was changed outside' }).waitFor();
  await inspect(tab, 'changed-outside');
  await tab.keyboard.press('Escape');
  await retitle(tab, 'Mine again');
  await tab.keyboard.press('Control+s');
  await tab.getByRole('button', { name: 'Keep mine' }).waitFor();
  expect(readFileSync(file).equals(theirs)).toBe(true);
  await tab.getByRole('button', { name: 'Keep mine' }).click();
  await poll(() => readFileSync(file).equals(theirs)).toBe(false);

  await tab.getByText(/All changes kept, saved [^,]*$/).waitFor();
  writeFileSync(file, theirs);
  await tab.getByRole('button', { name: 'Take theirs' }).click();
  await tab.getByRole('heading', { name: 'Low Water at Hether' }).first().waitFor();
}, 120_000);

/** Gives the book another title by the details. */
async function retitle(tab: Page, title: string): Promise<void> {
  await tab.keyboard.press('Control+Shift+d');
  await tab.getByLabel('Title', { exact: true }).fill(title);
  await tab.keyboard.press('Escape');
  await tab.getByRole('heading', { name: title }).first().waitFor();
}

test('work that was not saved is offered again by the next start', async () => {
  const home = freshFolder();
  const { tab } = await start([], home);
  await openDemo(tab);
  await saveAs(tab, 'book');
  await retitle(tab, 'Not Saved');
  await tab.getByText(/changed since/).waitFor();
  await opened?.close();

  const again = await start([], home);
  await again.tab.getByRole('heading', { name: 'Work that was not saved' }).waitFor();
  await inspect(again.tab, 'first-page-unsaved');
  await again.tab.getByRole('button', { name: 'Open it' }).click();
  await again.tab.getByRole('heading', { name: 'Not Saved' }).waitFor();
}, 120_000);

test('a manuscript named on the command line is brought in', async () => {
  const { tab } = await start([demo]);
  await tab.getByRole('heading', { name: 'Low Water at Hether' }).waitFor({ timeout: 20_000 });
}, 60_000);

test('a dropped section comes back by the news, and an earlier state opens beside the file', async () => {
  const { tab, faults } = await start();
  await openDemo(tab);
  await saveAs(tab, 'book');
  await tab.getByRole('row', { name: /Acknowledgments/ }).click();
  await tab.keyboard.press('Delete');
  await poll(() => titles(tab)).not.toContain('Acknowledgments');
  await tab.getByRole('button', { name: 'Undo' }).click();
  await poll(() => titles(tab)).toContain('Acknowledgments');
  await tab.getByRole('row', { name: /Acknowledgments/ }).click();
  await tab.keyboard.press('Delete');
  // What is safe follows a moment later: "saved" would still be that of the first time.
  await tab.getByText(/changed since$/).waitFor();
  await tab.keyboard.press('Control+s');
  await tab.getByText(/All changes kept, saved [^,]*$/).waitFor();
  await tab.keyboard.press('Control+k');
  await tab.getByPlaceholder('Find a command').fill('earlier states');
  await tab.keyboard.press('Enter');
  await inspect(tab, 'earlier-states');
  await tab.getByRole('button', { name: 'Open', exact: true }).click();
  await poll(() => titles(tab)).toContain('Acknowledgments');
  await tab.getByText('All changes kept, not yet saved').waitFor();
  expect(faults).toEqual([]);
}, 120_000);

test('an export that is cancelled leaves nothing', async () => {
  const { tab, home } = await start();
  await openDemo(tab);
  await tab.keyboard.press('Control+3');
  await tab.getByRole('button', { name: 'Change the folder' }).click();
  await tab.getByRole('button', { name: 'Choose this folder' }).click();
  await tab.getByText(`Files go to ${home}`).waitFor();
  await tab.getByRole('button', { name: 'Make all editions' }).click();
  await tab.getByRole('main').getByRole('button', { name: 'Cancel' }).click();
  await tab.getByText(/Nothing was written/).waitFor();
  expect(readdirSync(home).filter((name) => /\.(pdf|epub)$/.test(name))).toEqual([]);
}, 120_000);

test('closing with changes that the file does not hold asks first', async () => {
  const { tab } = await start();
  await openDemo(tab);
  await saveAs(tab, 'book');
  await retitle(tab, 'Changed');
  await tab.keyboard.press('Control+w');
  await tab.getByRole('alertdialog', { name: 'Save “Changed” before it is closed?' }).waitFor();
  await inspect(tab, 'close-unsaved');
  await tab.getByRole('button', { name: 'Stay here' }).click();
  await tab.getByRole('heading', { name: 'Changed' }).waitFor();
  await tab.keyboard.press('Control+w');
  await tab.getByRole('button', { name: 'Save', exact: true }).click();
  await tab.getByRole('heading', { name: 'Reglet' }).waitFor();
  await tab.getByText('Changed').first().waitFor();
}, 120_000);
