/** What the native menu is told: when, how often, and what while a dialog asks. */
import { expect, test } from 'vitest';
import type { MenuState } from '#host';
import { keepMenu, type MenuPage } from '../../renderer/frame/menuState.ts';
import { PlaceStore } from '../../renderer/state/placeStore.ts';
import { Commands } from '../../renderer/ui/commands.ts';

/** A window whose time and dialogs the test holds. */
function page() {
  const heard = new Map<string, () => void>();
  let waiting: (() => void) | null = null;
  const held = { dialog: false };
  const window = {
    setTimeout: (call: () => void) => {
      waiting = call;
      return 1;
    },
    clearTimeout: () => {
      waiting = null;
    },
    document: {
      querySelector: () => (held.dialog ? {} : null),
      addEventListener: (name: string, hear: () => void) => heard.set(name, hear),
    },
  } as unknown as MenuPage;
  const rest = (): void => {
    const call = waiting;
    waiting = null;
    call?.();
  };
  return { window, rest, held, focus: () => heard.get('focusin')?.() };
}

function kept(menu: 'native' | 'page' = 'native') {
  const told: MenuState[] = [];
  const commands = new Commands('mac');
  const place = new PlaceStore();
  const quiet = { subscribe: () => () => undefined };
  const given = page();
  const workbench = {
    host: {
      menuState: async (state: MenuState) => {
        told.push(state);
        throw new Error('gone');
      },
    },
    info: { menu },
    place,
    books: quiet,
    outline: quiet,
    settings: quiet,
    press: quiet,
  } as unknown as Parameters<typeof keepMenu>[0];
  keepMenu(workbench, { commands }, given.window);
  return { ...given, told, commands, place };
}

test('the menu is told once things have come to rest, and only what is new', () => {
  const { told, commands, place, rest } = kept();
  rest();
  expect(told).toEqual([{ disabled: commands.all, on: [] }]);
  commands.lend(() => ({ 'view.proof': { run: () => {}, on: () => place.get().desk === 'proof' } }));
  expect(told).toHaveLength(1);
  rest();
  expect(told[1]?.disabled).not.toContain('view.proof');
  place.goToDesk('press');
  rest();
  expect(told).toHaveLength(2);
  place.goToDesk('proof');
  rest();
  expect(told[2]?.on).toEqual(['view.proof']);
});

test('while a dialog asks, nothing in the menu can be done', () => {
  const { told, commands, rest, held, focus } = kept();
  commands.lend(() => ({ 'view.light': { run: () => {}, on: () => true } }));
  held.dialog = true;
  rest();
  expect(told).toEqual([{ disabled: commands.all, on: ['view.light'] }]);
  held.dialog = false;
  focus();
  rest();
  expect(told[1]?.disabled).not.toContain('view.light');
});

test('a host without a native menu is told nothing', () => {
  const { told, rest, focus } = kept('page');
  focus();
  rest();
  expect(told).toEqual([]);
});
