/** What a key costs the window: the text and the proof's lines, and nothing that stands around them. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type OpenWindow, openWindow } from './window.ts';

let opened: OpenWindow;
let tab: Page;

beforeAll(async () => {
  opened = await openWindow();
  ({ tab } = opened);
  await tab.addInitScript(countDrawings);
  await tab.reload();
  await tab.getByRole('button', { name: /Look at the demo/ }).click();
  await tab.locator('.ProseMirror p').first().waitFor();
  await tab.getByText(/^[1-9][\d,]* pages$/).waitFor();
  await tab.keyboard.press('Control+Shift+P');
  await tab.locator('.slip canvas').waitFor();
}, 60_000);

afterAll(async () => {
  expect(opened?.faults).toEqual([]);
  await opened?.close();
});

interface Counted {
  /** For each time that React drew: how many components. */
  readonly drawings: number[];
  /** Classes of the elements outside the text that anything was changed in. */
  readonly touched: string[];
}

/** Counts by the hook that React offers to tools: it calls after every drawing with the tree as it now is. */
function countDrawings() {
  const counted: Counted = { drawings: [], touched: [] };
  interface Fiber {
    readonly flags: number;
    readonly type: unknown;
    readonly child: Fiber | null;
    readonly sibling: Fiber | null;
    readonly alternate: Fiber | null;
  }
  /** React's own mark of a component that was called ("PerformedWork", from memory of its sources). */
  const DRAWN = 1;
  const drawn = (fiber: Fiber | null): number => {
    let sum = 0;
    for (let each = fiber; each; each = each.sibling) {
      if (typeof each.type === 'function' && each.flags & DRAWN) sum++;
      if (each.child !== each.alternate?.child) sum += drawn(each.child);
    }
    return sum;
  };
  const hook = {
    supportsFiber: true,
    inject: () => 1,
    onCommitFiberUnmount: () => undefined,
    onPostCommitFiberRoot: () => undefined,
    onCommitFiberRoot: (_: unknown, root: { readonly current: Fiber }) =>
      counted.drawings.push(drawn(root.current.child)),
  };
  Object.assign(globalThis, { counted, __REACT_DEVTOOLS_GLOBAL_HOOK__: hook });
}

/** What was drawn and touched while some work was done. */
async function during(work: () => Promise<void>): Promise<Counted> {
  await tab.evaluate(() => {
    const { counted } = globalThis as unknown as { counted: Counted };
    counted.drawings.length = 0;
    counted.touched.length = 0;
    const watch = new MutationObserver((changes) => {
      for (const { target } of changes) {
        const element = target instanceof Element ? target : target.parentElement;
        if (element && !element.closest('.ProseMirror')) counted.touched.push(element.className);
      }
    });
    watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
    Object.assign(globalThis, { watch });
  });
  await work();
  return tab.evaluate(() => {
    const { counted, watch } = globalThis as unknown as { counted: Counted; watch: MutationObserver };
    watch.disconnect();
    return counted;
  });
}

/** The foot with its counts may follow while one types: its parts, and no row of any list. */
const FOOT = 12;

test('a key draws no part of the window but the text', async () => {
  const typing = async (letters: string): Promise<void> => {
    for (const letter of letters) {
      await tab.keyboard.press(letter);
      await tab.waitForTimeout(40);
    }
  };
  await tab.locator('.ProseMirror p').nth(3).click();
  await typing('ab');
  await tab.waitForTimeout(1500);
  const { drawings, touched } = await during(() => typing('the quick brown'.replaceAll(' ', '')));
  expect(Math.max(0, ...drawings)).toBeLessThanOrEqual(FOOT);
  // A drawing a key would be thirteen; the foot follows five times a second at most.
  expect(drawings.length).toBeLessThanOrEqual(8);
  expect(touched.filter((each) => /order|fore-edge|title|desk|margin|slip/.test(each))).toEqual([]);
  // Things that do change are seen: a section that is chosen draws its row.
  const chosen = await during(() => tab.getByRole('row', { name: /Forty Rounds/ }).click());
  expect(Math.max(0, ...chosen.drawings)).toBeGreaterThan(FOOT);
  expect(chosen.touched.some((each) => /order/.test(each))).toBe(true);
}, 30_000);

test('a place that is shown without the focus comes into view', async () => {
  await tab.getByRole('row', { name: /Correspondence/ }).click();
  await tab.locator('.ProseMirror p').first().click();
  await tab.keyboard.press('Control+f');
  await tab.getByLabel('Find', { exact: true }).fill('and');
  const hit = tab.locator('.ProseMirror .hit.current');
  await hit.waitFor();
  for (let step = 0; step < 25; step++) await tab.keyboard.press('Enter');
  const inView = () =>
    hit.evaluate((element) => {
      const [box, room] = [element.getBoundingClientRect(), element.closest('.copy-scroll')?.getBoundingClientRect()];
      return room !== undefined && box.top >= room.top && box.bottom <= room.bottom;
    });
  await expect.poll(inView).toBe(true);
  expect(await tab.locator('.copy-scroll').evaluate((element) => element.scrollTop)).toBeGreaterThan(0);
}, 30_000);
