/** What is decided stays decided: remarks of an import, muted findings, what changed since an export, after closing too. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { readProject } from '#project';
import { demo, freshFolder, reglet } from './command.ts';
import { accessibilityFaults, keepScreens, type OpenWindow, openWindow, poll } from './window.ts';

let opened: OpenWindow | null = null;

afterEach(async () => {
  await opened?.close();
  opened = null;
});

/** Opens a file in a home whose exports go to its folder `out`. */
async function start(file: string, home: string): Promise<Page> {
  const data = join(home, '.data');
  mkdirSync(data, { recursive: true });
  mkdirSync(join(home, 'out'), { recursive: true });
  writeFileSync(join(data, 'settings.json'), JSON.stringify({ exportFolder: join(home, 'out') }));
  opened = await openWindow([file], home);
  return opened.tab;
}

const desk = (tab: Page, name: string) => tab.getByRole('tab', { name }).click();
const remarks = (tab: Page) => tab.locator('.remark-card');
const findings = (tab: Page) => tab.getByRole('region', { name: 'Findings' });
const docket = (tab: Page) => tab.getByRole('article', { name: 'Paperback' });
const FINDING = 'The last page is not blank';

async function takeIn(tab: Page): Promise<void> {
  await tab.getByRole('button', { name: 'Take it in' }).click();
  await tab.getByText(/^[1-9]\d* pages$/).waitFor();
}

async function dismissing(tab: Page): Promise<void> {
  await remarks(tab).first().getByText('Taken as “Prologue”', { exact: false }).waitFor();
  expect(await accessibilityFaults(tab, '.copy-room')).toEqual([]);
  await keepScreens(tab, 'remarks');
  await remarks(tab).first().getByRole('button', { name: 'Dismiss this remark' }).click();
  await poll(() => remarks(tab).count()).toBe(0);
  // The hand is in the text again, where undo brings the remark back.
  await tab.keyboard.press('Control+z');
  await poll(() => remarks(tab).count()).toBe(1);
  await tab.getByRole('button', { name: /^Dismiss all \d+$/ }).click();
  await poll(() => remarks(tab).count()).toBe(0);
  await tab.getByText(/^\d+ remarks dismissed\.$/).waitFor();
  await tab.keyboard.press('Control+z');
  await poll(() => remarks(tab).count()).toBe(1);
}

async function muting(tab: Page): Promise<void> {
  await desk(tab, 'Proof');
  const list = findings(tab);
  await list.getByText(FINDING, { exact: false }).waitFor();
  await list.getByRole('button', { name: 'Mute' }).first().click();
  await tab.getByLabel('Why it may stay as it is').fill('Our printer has room.');
  await tab.keyboard.press('Enter');
  await list.getByText('Muted (1)').waitFor();
  await poll(() => list.evaluate((region) => region === document.activeElement)).toBe(true);
  await tab.keyboard.press('Control+z');
  await poll(() => list.getByText('Muted (1)').count()).toBe(0);
  await tab.keyboard.press('Control+Shift+z');
  await list.getByText('Muted (1)').click();
  await list.getByText('Because: Our printer has room.').waitFor();
  await keepScreens(tab, 'muted');
  expect(await accessibilityFaults(tab, '.findings')).toEqual([]);
}

async function making(tab: Page): Promise<void> {
  await desk(tab, 'Press');
  await docket(tab).getByText('Not made yet.').waitFor();
  await tab.getByRole('button', { name: 'Make all editions' }).click();
  await docket(tab).getByText('Nothing has changed since.').waitFor({ timeout: 60_000 });
  await docket(tab)
    .getByText(/pages · no findings, 1 muted/)
    .waitFor();
}

async function correcting(tab: Page): Promise<void> {
  await desk(tab, 'Copy');
  await tab.locator('.ProseMirror p').first().click();
  await tab.keyboard.type('Ink. ');
  await desk(tab, 'Press');
  await docket(tab).getByText('Changed since:').waitFor();
  await docket(tab).getByRole('button', { name: 'Prologue' }).waitFor();
  await keepScreens(tab, 'since');
  expect(await accessibilityFaults(tab, '.press-desk')).toEqual([]);
}

async function turnToChanged(tab: Page): Promise<void> {
  await desk(tab, 'Proof');
  await tab.locator('.spread-room').focus();
  await tab.keyboard.press('Home');
  await tab.keyboard.press('Control+Alt+j');
  await tab.getByText(/^Page 1: 1 of \d+ that changed since the last export\.$/).waitFor();
}

async function saveAs(tab: Page, name: string): Promise<void> {
  await tab.keyboard.press('Control+s');
  await tab.getByLabel('Name').fill(name);
  await tab.getByRole('button', { name: 'Save', exact: true }).click();
  await tab.getByText(/All changes kept, saved/).waitFor();
}

test('the command keeps the remarks of an import too, and says where it can’t write', () => {
  const folder = freshFolder();
  const file = join(folder, 'kept.reglet');
  expect(reglet(['keep', demo, '--to', file]).status).toBe(0);
  const kept = readProject(readFileSync(file));
  const messages = kept.ok ? kept.value.remarks.map((each) => each.message) : [];
  expect(messages).toContain('Taken as a scene break: a blank line between paragraphs.');
  // On Linux a folder below /proc is one that the system calls missing however often it is made.
  const nowhere = process.platform === 'linux' ? '/proc/reglet/out' : join(file, 'out');
  const { status, err } = reglet(['make', file, '--edition', 'ebook', '--out', nowhere]);
  expect(status).toBe(1);
  expect(err).toMatch(/^reglet: \S+out (is not there and can't be made|is not a folder)\.\n$/);
});

test('remarks, muted findings and what changed since an export outlive the window', async () => {
  const home = freshFolder();
  const first = await start(demo, home);
  await takeIn(first);
  await dismissing(first);
  await muting(first);
  await making(first);
  await correcting(first);
  await turnToChanged(first);
  await saveAs(first, 'kept');
  expect(opened?.faults).toEqual([]);
  await opened?.close();

  const file = join(home, 'kept.reglet');
  const again = await start(file, home);
  await again.getByText(/^[1-9]\d* pages$/).waitFor();
  await poll(() => remarks(again).count()).toBe(1);
  await desk(again, 'Proof');
  await findings(again).getByText('Muted (1)').click();
  await findings(again).getByText('Because: Our printer has room.').waitFor();
  await desk(again, 'Press');
  await docket(again).getByText('Changed since:').waitFor();
  await turnToChanged(again);
  await findings(again).getByText('Muted (1)').click();
  await findings(again).getByRole('button', { name: 'Hear it again' }).click();
  await poll(() => findings(again).getByText('Muted', { exact: false }).count()).toBe(0);
  expect(opened?.faults).toEqual([]);

  const checked = reglet(['check', file, '--json']);
  expect([checked.err, checked.status]).toEqual(['', 0]);
  const { muted, findings: open } = JSON.parse(checked.out) as { muted: { reason: string }[]; findings: unknown[] };
  expect(muted).toMatchObject([{ rule: 'pages/last-page', reason: 'Our printer has room.', edition: 'print' }]);
  expect(JSON.stringify(open)).not.toContain(FINDING);
  expect(reglet(['check', file]).out).toMatch(/\n1 more is muted; the book keeps the reason\.\n$/);
}, 180_000);
