/** Keys as the platform writes them, and whether a key event is one. In: "Shift+Mod+E"; out: "⇧⌘E" or "Ctrl+Shift+E". */

export type KeyPlatform = 'mac' | 'windows' | 'linux';

const MAC: Readonly<Record<string, string>> = {
  Mod: '⌘',
  Shift: '⇧',
  Alt: '⌥',
  ArrowUp: '↑',
  ArrowDown: '↓',
  Enter: '↩',
};
const ELSEWHERE: Readonly<Record<string, string>> = { Mod: 'Ctrl', ArrowUp: 'Up', ArrowDown: 'Down' };
const MAC_ORDER = ['Alt', 'Shift', 'Mod'];
const ELSEWHERE_ORDER = ['Mod', 'Alt', 'Shift'];

/** How the keys are shown in menus. */
export function keysText(keys: string, platform: KeyPlatform): string {
  const parts = keys.split('+').filter((part) => part !== '');
  const key = keys.endsWith('+') ? '+' : parts.pop()!;
  const isMac = platform === 'mac';
  const held = (isMac ? MAC_ORDER : ELSEWHERE_ORDER).filter((each) => parts.includes(each));
  const names = isMac ? MAC : ELSEWHERE;
  return [...held, key].map((each) => names[each] ?? each).join(isMac ? '' : '+');
}

/** What a key event says of itself. */
export interface KeyPress {
  readonly key: string;
  /** The key's place on the board, which Alt and Shift leave alone. */
  readonly code: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

const CODES: Readonly<Record<string, string>> = {
  '[': 'BracketLeft',
  ']': 'BracketRight',
  '=': 'Equal',
  '-': 'Minus',
  '.': 'Period',
  ',': 'Comma',
};

export function matchesKeys(press: KeyPress, keys: string, platform: KeyPlatform): boolean {
  const parts = keys.split('+');
  const key = parts.pop() ?? '';
  const mod = platform === 'mac' ? press.metaKey : press.ctrlKey;
  const other = platform === 'mac' ? press.ctrlKey : press.metaKey;
  if (other || mod !== parts.includes('Mod') || press.altKey !== parts.includes('Alt')) return false;
  return press.shiftKey === parts.includes('Shift') && isKey(press, key);
}

/** By the letter where there is one; by place where Alt or Shift turn it into another character. */
function isKey({ key, code }: KeyPress, wanted: string): boolean {
  if (key.toLowerCase() === wanted.toLowerCase()) return true;
  if (/^[A-Z]$/.test(wanted)) return code === `Key${wanted}` && !/^[a-z]$/i.test(key);
  if (/^\d$/.test(wanted)) return code === `Digit${wanted}`;
  return CODES[wanted] === code;
}
