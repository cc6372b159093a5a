/** A book with an error is made only by one who knows of it: here its font is on no computer. */
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { furnish, newBook } from '#book';
import { writeProject } from '#project';
import { book, chapter, p } from '../builders/book.ts';
import { freshFolder } from './command.ts';
import { accessibilityFaults, keepScreens, type OpenWindow, openWindow, poll } from './window.ts';

let opened: OpenWindow | null = null;

afterEach(async () => {
  await opened?.close();
  opened = null;
});

function inALostFont(): Uint8Array {
  // Long enough for a printer: fewer pages would be an error of their own.
  const chapters = Array.from({ length: 30 }, (_, at) =>
    chapter(`Night ${at + 1}`, p('The lamp burned low. '.repeat(20))),
  );
  const sections = [...book(...chapters).children];
  const whole = furnish(newBook({ metadata: { title: 'Night Rain' }, sections }));
  return writeProject({
    ...whole,
    designs: [{ id: 'lost', settings: { text: { family: 'Quayside' } } }],
    editions: whole.editions.map((edition) => ({ ...edition, design: 'lost' })),
  });
}

test('errors are told before files are made, and the author decides', async () => {
  const home = freshFolder();
  const out = join(home, 'out');
  for (const folder of [out, join(home, '.data')]) mkdirSync(folder);
  writeFileSync(join(home, '.data', 'settings.json'), JSON.stringify({ exportFolder: out }));
  writeFileSync(join(home, 'night.reglet'), inALostFont());
  opened = await openWindow([join(home, 'night.reglet')], home);
  const { tab } = opened;
  await tab.getByRole('tab', { name: 'Press' }).click();
  // At once, before anything can have been found: the making waits for it.
  const question = tab.getByRole('alertdialog', { name: 'There is an error to mend' });
  await tab.getByRole('button', { name: 'Make all editions' }).click();
  await question.getByText(/“Quayside” is not on this computer.*EB Garamond stands in for it/).waitFor();
  expect(await accessibilityFaults(tab, '[role=alertdialog]')).toEqual([]);
  await keepScreens(tab, 'errors');
  await tab.keyboard.press('Enter');
  await poll(() => question.count()).toBe(0);
  expect(readdirSync(out)).toEqual([]);

  await tab.getByRole('button', { name: 'Make all editions' }).click();
  await question.getByRole('button', { name: 'Make it all the same' }).click();
  await expect.poll(() => readdirSync(out).length, { timeout: 60_000 }).toBe(2);
}, 120_000);
