/**
 * The native menu. In: the window's menu as data; out: a template for Electron, with what each platform expects besides.
 * The window itself binds the keys, so that the two menus never both answer one, and says which commands it can carry out.
 */
import type * as Electron from 'electron';
import { COMMANDS, type CommandId, type CommandText, MENU, type MenuGroup, type MenuItem, type MenuState } from '#host';

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
  const { text, keys, mark } = textOf(item.command);
  const shown = keys === null ? {} : { accelerator: acceleratorOf(keys), registerAccelerator: false };
  const type = mark === undefined ? 'normal' : TYPES[mark];
  // Until the window says what it can do, it can do nothing.
  return { id: item.command, label: text, type, enabled: false, ...shown, click: () => run(item.command) };
}

/** How Electron calls the marks of a command. */
const TYPES = { tick: 'checkbox', one: 'radio' } as const;

function textOf(command: CommandId): CommandText {
  return COMMANDS[command];
}

/** The items of a menu, as far as their state is concerned. */
export interface MarkedMenu {
  getMenuItemById(id: string): { enabled: boolean; checked: boolean } | null;
}

/** What holds while there is no window to carry anything out. */
export const NOTHING_GOES: MenuState = { disabled: Object.keys(COMMANDS) as CommandId[], on: [] };

/** Shows in a menu what the window says of its commands. */
export function markMenu(menu: MarkedMenu, { disabled, on }: MenuState): void {
  const [off, holding] = [new Set<string>(disabled), new Set<string>(on)];
  for (const id of Object.keys(COMMANDS) as CommandId[]) {
    const item = menu.getMenuItemById(id);
    if (!item) continue;
    item.enabled = !off.has(id);
    if (textOf(id).mark !== undefined) item.checked = holding.has(id);
  }
}

/** `Shift+Mod+ArrowUp` as Electron writes it. */
function acceleratorOf(keys: string): string {
  return keys.replace('Mod', 'CommandOrControl').replace(/Arrow(?=Up|Down|Left|Right)/, '');
}
