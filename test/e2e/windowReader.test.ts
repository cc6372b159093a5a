/**
 * A newcomer's whole job by ear: from the manuscript to the files with the keyboard and what a screen reader is given. Each
 * screen is held to WCAG 2.2 (4.1.2, 4.1.3, 2.4.3, 2.5.8) and the ARIA Authoring Practices, which the helper names.
 */
import { mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demo } from './command.ts';
import { focusOf, saidIn, treeFaults, treeOf } from './reader.ts';
import { keepScreens, type OpenWindow, openWindow, poll } from './window.ts';

let open: OpenWindow;
let tab: Page;

beforeAll(async () => {
  open = await openWindow([demo]);
  ({ tab } = open);
}, 120_000);

afterAll(() => open?.close());

async function namesOf(role: string): Promise<readonly string[]> {
  return (await treeOf(tab)).filter((each) => each.role === role).map(({ name }) => name);
}

describe('bringing a manuscript in', () => {
  it('says that it was read, and puts the focus on what was understood', async () => {
    await poll(() => saidIn(tab)).toMatch(/“manuscript.docx” was read: \d+ sections\. Look it through/);
    await poll(() => focusOf(tab)).toMatch(/^heading What was understood of “manuscript.docx”/);
    expect(await treeFaults(tab)).toEqual([]);
  });

  it('says that it was taken in, and puts the cursor into the text', async () => {
    await tab.getByRole('button', { name: 'Take it in' }).focus();
    await tab.keyboard.press('Enter');
    await poll(() => saidIn(tab)).toMatch(/^Taken in: \d+ sections\./);
    await poll(() => focusOf(tab)).toBe('textbox Text of Prologue');
    await tab.getByText(/^[1-9]\d* pages$/).waitFor();
  });
});

describe('the copy desk', () => {
  it('is parted by landmarks, and its parts say what they are', async () => {
    expect(await treeFaults(tab)).toEqual([]);
    const tree = await treeOf(tab);
    const landmarks = tree.filter(({ role }) => ['banner', 'navigation', 'main', 'contentinfo'].includes(role));
    expect(landmarks.map(({ role }) => role)).toEqual(['banner', 'navigation', 'main', 'contentinfo']);
    expect(tree.find(({ role }) => role === 'grid')?.states['multiselectable']).toBe(true);
    // WAI-ARIA 1.2: several lines of text have to say so.
    expect(tree.find(({ role }) => role === 'textbox')?.states['multiline']).toBe(true);
  });

  it('reads headings of the text as headings and its breaks as separators', async () => {
    await tab.keyboard.press('Control+]');
    await tab.keyboard.press('Control+]');
    await poll(() => focusOf(tab)).toBe('textbox Text of 1 The Nought');
    const inText = (await treeOf(tab)).filter(({ parents }) => parents.includes('textbox'));
    expect(inText.filter(({ role }) => role === 'heading').map(({ name }) => name)).toEqual(['The Nought']);
    expect(inText.find(({ role }) => role === 'heading')?.states['level']).toBe(1);
    expect(inText.some(({ role, name }) => role === 'separator' && name === 'Scene break')).toBe(true);
  });

  it('reads blocks whose kind shows in their look by what they are', async () => {
    await tab.getByRole('row', { name: /Correspondence/ }).click();
    await poll(() => tab.locator('.copy').getAttribute('aria-label')).toContain('Correspondence');
    const groups = (await treeOf(tab)).filter(({ role, parents }) => role === 'group' && parents.includes('textbox'));
    expect(new Set(groups.map(({ name }) => name))).toEqual(new Set(['Letter']));
    await tab.getByRole('row', { name: /The Nought/ }).click();
  });

  it('gives each row its page, and the rows their places', async () => {
    await poll(() => namesOf('row')).toContain('Prologue, page 1');
    const places = await tab
      .getByRole('row')
      .evaluateAll((rows) => rows.map((row) => Number(row.getAttribute('aria-rowindex'))));
    expect(places.slice(0, 3)).toEqual([1, 2, 3]);
  });

  it('has the fore-edge as a list, the section in view chosen', async () => {
    const options = (await treeOf(tab)).filter(({ role }) => role === 'option');
    expect(options.filter(({ states }) => states['selected'] === true).map(({ name }) => name)).toEqual([
      '1 The Nought, 4 pages',
    ]);
    expect(options.length).toBeGreaterThan(20);
  });

  it('says where a section was moved to, that it was undone, and what was dropped', async () => {
    const row = tab.getByRole('row', { name: /^Acknowledgments/ });
    await row.click();
    await tab.keyboard.press('Alt+ArrowUp');
    await poll(() => saidIn(tab)).toMatch(/^Acknowledgments moved to place \d+ of 23\.$/);
    expect(await focusOf(tab)).toMatch(/^row Acknowledgments/);
    await tab.keyboard.press('Control+z');
    await poll(() => saidIn(tab)).toBe('Undone.');
    await tab.keyboard.press('Delete');
    // 4.1.3: news is an alert, which is read at once.
    await poll(() => namesOf('alert')).toHaveLength(1);
    await poll(() => focusOf(tab)).toMatch(/^row /);
    await tab.keyboard.press('Control+z');
  });

  it('asks in a dialog that holds the focus and gives it back', async () => {
    const add = tab.getByRole('button', { name: 'Add', exact: true });
    await add.focus();
    await tab.keyboard.press('Enter');
    await poll(() => focusOf(tab)).toBe('searchbox Find a kind');
    expect(await treeFaults(tab)).toEqual([]);
    const dialog = (await treeOf(tab)).find(({ role }) => role === 'dialog');
    expect(dialog?.name).toBe('Add a section');
    expect(await namesOf('textbox')).toEqual([]);
    await tab.keyboard.press('Escape');
    await poll(() => focusOf(tab)).toBe('button Add');
  });

  it('says in menus what holds', async () => {
    await tab.getByRole('button', { name: 'Menu', exact: true }).focus();
    await tab.keyboard.press('Enter');
    await tab.getByRole('menuitem', { name: 'View' }).press('ArrowRight');
    await poll(() => namesOf('menuitemradio')).toContain('Copy Ctrl+1');
    const marked = (await treeOf(tab)).filter(({ states }) => states['checked'] === 'true').map(({ name }) => name);
    expect(marked).toEqual(['Copy Ctrl+1', 'Light or dark as the system']);
    expect(await treeFaults(tab)).toEqual([]);
    await tab.keyboard.press('Escape');
    await tab.keyboard.press('Escape');
  });
});

describe('the proof desk', () => {
  it('takes the keyboard to the pages and says which they are', async () => {
    await tab.keyboard.press('Control+2');
    await poll(() => focusOf(tab)).toMatch(/^group Pages? /);
    await tab.getByLabel('Folio', { exact: true }).fill('1');
    await tab.keyboard.press('Enter');
    await tab.locator('.spread-room').focus();
    await poll(() => focusOf(tab)).toBe('group Pages viii and 1');
    await tab.keyboard.press('ArrowRight');
    await poll(() => saidIn(tab)).toBe('Pages 2 and 3');
    expect(await treeFaults(tab)).toEqual([]);
  });

  it('reads the pages out as text, headings as headings', async () => {
    await tab.keyboard.press('ArrowLeft');
    await poll(() => namesOf('heading')).toContain('Prologue');
    const pages = (await treeOf(tab)).filter(({ role, name }) => role === 'region' && /^Page /.test(name));
    expect(pages.map(({ name }) => name)).toEqual(['Page viii', 'Page 1']);
    const read = (await treeOf(tab)).filter(({ role }) => role === 'StaticText').map(({ name }) => name);
    expect(read.some((text) => text.startsWith('The boy had been sent for lamp oil'))).toBe(true);
    // Chromium names what is drawn; nothing of it may stand in the tree without words.
    expect(await namesOf('Canvas')).toEqual([]);
  });

  it('has switches that say whether they are on, and keys for them that say the same', async () => {
    const grid = async () => (await treeOf(tab)).find(({ name }) => name === 'Baseline grid')?.states['pressed'];
    expect(await grid()).toBe('false');
    await tab.keyboard.press('g');
    await poll(() => saidIn(tab)).toBe('Baseline grid: shown.');
    expect(await grid()).toBe('true');
    await tab.keyboard.press('g');
  });

  it('says which screen of the ebook is shown when it is turned, and how large the pages are', async () => {
    await tab.getByRole('button', { name: 'Next screen' }).focus();
    await tab.keyboard.press('Enter');
    await poll(() => saidIn(tab)).toMatch(/^Screen 2 of \d+$/);
    await tab.locator('.spread-room').focus();
    await tab.keyboard.press('+');
    await poll(() => saidIn(tab)).toMatch(/^Size of the pages: \d+ %$/);
    await tab.keyboard.press('0');
  });

  it('has all pages as one slider with words for its value', async () => {
    const strip = tab.getByRole('slider', { name: 'All pages' });
    await strip.focus();
    await tab.keyboard.press('End');
    await poll(() => strip.getAttribute('aria-valuetext')).toMatch(/^Page \S+/);
    expect(Number(await strip.getAttribute('aria-valuenow'))).toBe(Number(await strip.getAttribute('aria-valuemax')));
  });
});

describe('the press desk', () => {
  it('says what each docket is and what was found', async () => {
    await tab.keyboard.press('Control+3');
    await poll(() => focusOf(tab)).toBe('tabpanel Press');
    await poll(() => namesOf('article')).toEqual(['Paperback', 'Ebook']);
    await poll(() => tab.getByText('Not checked yet.').count()).toBe(0);
    expect(await treeFaults(tab)).toEqual([]);
  });

  it('still knows what was found when its reader comes back from another section', async () => {
    await tab.keyboard.press('Control+1');
    await poll(() => focusOf(tab)).toMatch(/^textbox Text of/);
    const before = await focusOf(tab);
    await tab.keyboard.press('Control+[');
    await poll(() => focusOf(tab)).not.toBe(before);
    await tab.keyboard.press('Control+3');
    await poll(() => tab.getByText('Not checked yet.').count()).toBe(0);
  });

  it('checks an edition that nobody has looked at, and loses no focus when it is dropped', async () => {
    await tab.keyboard.press('Control+k');
    await tab.keyboard.type('add print edition');
    await tab.keyboard.press('Enter');
    const second = tab.getByRole('article').nth(2);
    await poll(() => second.getByText(/Nothing else was found|Nothing stands/).count()).toBe(1);
    await poll(() => second.getByText(/^\d+$/).count()).toBeGreaterThan(0);
    const menu = second.getByRole('button', { name: /^What to do with/ });
    await menu.focus();
    await tab.keyboard.press('Enter');
    await tab.getByRole('menuitem', { name: 'Drop' }).press('Enter');
    await poll(() => tab.getByRole('article').count()).toBe(2);
    await poll(() => focusOf(tab)).toBe('tabpanel Press');
  });

  it('says that the book is saved, and that the files are made', async () => {
    mkdirSync(join(open.home, 'Made'));
    await tab.keyboard.press('Control+s');
    await poll(() => focusOf(tab)).toBe('textbox Name');
    expect(await treeFaults(tab)).toEqual([]);
    await tab.keyboard.press('Enter');
    await poll(() => saidIn(tab)).toBe('Saved.');
    await tab.keyboard.press('Control+Shift+e');
    await tab.getByRole('row', { name: 'Made' }).waitFor();
    await tab.getByRole('button', { name: 'Choose this folder' }).press('Enter');
    await expect.poll(() => tab.getByText('2 editions are made.').count(), { timeout: 60_000 }).toBe(1);
    expect((await namesOf('alert')).length).toBeGreaterThan(0);
    expect(readdirSync(open.home).filter((name) => /\.(pdf|epub)$/.test(name))).toHaveLength(2);
  }, 120_000);
});

describe('for eyes and hands', () => {
  const DESKS = ['Control+1', 'Control+2', 'Control+3'];

  it('every control can be hit by a finger: 24 pixels (WCAG 2.2, 2.5.8)', async () => {
    for (const desk of DESKS) {
      await tab.keyboard.press(desk);
      await tab.waitForTimeout(500);
      expect(await smallTargets()).toEqual([]);
    }
  });

  it('text of twice the size loses nothing, nor does a small window (1.4.4, 1.4.10)', async () => {
    for (let step = 0; step < 5; step++) await tab.keyboard.press('Control+=');
    for (const [width, height] of [
      [1280, 800],
      [1024, 700],
      [760, 520],
    ] as const) {
      await tab.setViewportSize({ width, height });
      for (const [at, desk] of DESKS.entries()) {
        await tab.keyboard.press(desk);
        await tab.waitForTimeout(600);
        expect([desk, width, await lostText()]).toEqual([desk, width, []]);
        await keepScreens(tab, `large-text-${at}-${width}`);
      }
    }
    for (let step = 0; step < 5; step++) await tab.keyboard.press('Control+-');
    await tab.setViewportSize({ width: 1440, height: 900 });
  });

  it('what has the focus is never hidden by what stays in view (2.4.11)', async () => {
    await tab.keyboard.press('Control+2');
    await tab.keyboard.press('Control+Shift+g');
    await tab.locator('.design-panel').waitFor();
    const hidden: string[] = [];
    for (const key of [...Array(30).fill('Tab'), ...Array(30).fill('Shift+Tab')]) {
      await tab.keyboard.press(key);
      const covered = await tab.evaluate(() => {
        const head = document.querySelector('.design-panel > .drawer-head')?.getBoundingClientRect();
        const focused = document.activeElement;
        const target = (focused?.closest('label') ?? focused)?.getBoundingClientRect();
        const inPanel = focused?.closest('.design-body') !== null && focused !== null;
        return inPanel && head && target && target.bottom <= head.bottom
          ? (focused.textContent ?? focused.tagName)
          : null;
      });
      if (covered !== null) hidden.push(`${key}: ${covered}`);
    }
    expect(hidden).toEqual([]);
    await tab.keyboard.press('Control+Shift+g');
  });

  it('what is chosen can be told in forced colours (1.4.1, 1.4.11; CSS Color Adjustment 1)', async () => {
    await tab.emulateMedia({ forcedColors: 'active' });
    await tab.keyboard.press('Control+2');
    await tab.locator('.spread-room').waitFor();
    const looks = await tab.evaluate(() => {
      const look = (selector: string) => {
        const found = document.querySelector(selector);
        const style = found && getComputedStyle(found);
        return style ? [style.backgroundColor, style.borderTopColor, style.outlineColor].join(' ') : 'none';
      };
      return {
        tab: getComputedStyle(document.querySelector('.desk-tab[aria-selected="true"]')!, '::after').backgroundColor,
        ground: getComputedStyle(document.body).backgroundColor,
        pressed: look('.proof-bar .button[data-selected]'),
        plain: look('.overlays .button:not([data-selected])'),
        radio: look('.choice-row .choice[data-selected]'),
        other: look('.choice-row .choice:not([data-selected])'),
      };
    });
    expect(looks.pressed).not.toBe(looks.plain);
    expect(looks.radio).not.toBe(looks.other);
    expect(looks.tab).not.toBe(looks.ground);
    await keepScreens(tab, 'forced-colours');
    await tab.emulateMedia({ forcedColors: 'none' });
  });

  it('nothing moves where the system asks for rest (2.3.3)', async () => {
    const moving = await tab.evaluate(() =>
      [...document.querySelectorAll('*')]
        .filter((each) => {
          const { animationName, transitionDuration } = getComputedStyle(each);
          return (
            animationName !== 'none' || transitionDuration.split(',').some((time) => Number.parseFloat(time) > 0.01)
          );
        })
        .map((each) => each.className),
    );
    expect(moving).toEqual([]);
  });

  it('ended without a fault', () => {
    expect(open.faults).toEqual([]);
  });
});

/** Controls in view whose box is smaller; a label counts with its control. */
function smallTargets(): Promise<readonly string[]> {
  return tab.evaluate(() =>
    [...document.querySelectorAll('button, [role="tab"], [role="radio"], input, summary')].flatMap((each) => {
      const target = each.closest('label') ?? each;
      const { width, height } = target.getBoundingClientRect();
      const isShown = width > 1 && height > 1 && getComputedStyle(each).visibility !== 'hidden';
      // Marks inside a line of text are the exception that 2.5.8 makes itself.
      const isInline = each.closest('.copy') !== null;
      const name = `${each.className} ${each.getAttribute('aria-label') ?? each.textContent}`;
      return isShown && !isInline && (width < 24 || height < 24) ? [`${name} ${width} x ${height}`] : [];
    }),
  );
}

/** Text that is cut off, or that stands where nobody can scroll to. */
function lostText(): Promise<readonly string[]> {
  return tab.evaluate(() => {
    const scrolls = (element: Element, axis: 'overflowX' | 'overflowY'): boolean => {
      for (let at = element.parentElement; at; at = at.parentElement) {
        if (/auto|scroll/.test(getComputedStyle(at)[axis])) return true;
      }
      return false;
    };
    return [...document.querySelectorAll('body *')].flatMap((each) => {
      const hasText = [...each.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
      if (!hasText || each.closest('.unseen, .fore-edge, [aria-hidden="true"]')) return [];
      const box = each.getBoundingClientRect();
      if (box.width < 2 || box.height < 2) return [];
      const isCut = getComputedStyle(each).overflowX !== 'visible' && each.scrollWidth > each.clientWidth + 1;
      const isWide = (box.right > innerWidth + 1 || box.left < -1) && !scrolls(each, 'overflowX');
      const isLow = box.bottom > innerHeight + 1 && !scrolls(each, 'overflowY');
      // The title of the book is shortened in the head and whole in the details.
      const isTitle = each.classList.contains('book-title');
      return (isCut && !isTitle) || isWide || isLow ? [`${each.className}: ${each.textContent?.slice(0, 40)}`] : [];
    });
  });
}
