/**
 * The native menu. In: the window's menu as data; out: a template for Electron, with what each platform expects besides.
 * The window itself binds the keys, so that the two menus never both answer one.
 */
import type * as Electron from 'electron';
import { COMMANDS, MENU, type MenuGroup, type MenuItem } from '#host';

type Item = Electron.MenuItemConstructorOptions;

const RULE: Item = { type: 'separator' };

/** The menu that macOS gives the name of the program. */
const OF_PROGRAM: Item = {
  label: 'Reglet',
  submenu: [
    { role: 'about' },
    RULE,
    { role: 'services' },
    RULE,
    { role: 'hide' },
    { role: 'hideOthers' },
    { role: 'unhide' },
    RULE,
    { role: 'quit' },
  ],
};

const OF_WINDOW: Item = { role: 'windowMenu' };

/** @param run tells the window which command was chosen. */
export function menuTemplate(platform: NodeJS.Platform, run: (command: string) => void): Item[] {
  const groups = MENU.map((group) => groupOf(group, run));
  if (platform !== 'darwin') return groups.map((group, at) => (at === 0 ? withQuit(group) : group));
  const help = groups.at(-1);
  return [OF_PROGRAM, ...groups.slice(0, -1), OF_WINDOW, ...(help ? [help] : [])];
}

function groupOf({ text, items }: MenuGroup, run: (command: string) => void): Item & { submenu: Item[] } {
  return { label: text, submenu: items.map((item) => itemOf(item, run)) };
}

function withQuit(group: Item & { submenu: Item[] }): Item {
  return { ...group, submenu: [...group.submenu, RULE, { role: 'quit' }] };
}

function itemOf(item: MenuItem, run: (command: string) => void): Item {
  if (item.kind === 'rule') return RULE;
  if (item.kind === 'role') return { role: item.role };
  const { text, keys } = COMMANDS[item.command];
  const shown = keys === null ? {} : { accelerator: acceleratorOf(keys), registerAccelerator: false };
  return { label: text, ...shown, click: () => run(item.command) };
}

/** `Shift+Mod+ArrowUp` as Electron writes it. */
function acceleratorOf(keys: string): string {
  return keys.replace('Mod', 'CommandOrControl').replace(/Arrow(?=Up|Down|Left|Right)/, '');
}
