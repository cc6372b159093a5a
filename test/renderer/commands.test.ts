/** Commands: their keys, the menu that holds them, and who carries them out. */
import { expect, test } from 'vitest';
import { COMMANDS, type CommandId, type CommandText, MENU } from '#host';
import { hasWords } from '../../renderer/frame/commandList.tsx';
import { Commands } from '../../renderer/ui/commands.ts';
import { type KeyPlatform, type KeyPress, keysText, matchesKeys } from '../../renderer/ui/keys.ts';

function press(key: string, some: Partial<KeyPress> = {}): KeyPress {
  return { key, code: '', ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...some };
}

test('every command stands in the menu once, and no keys stand for two', () => {
  const listed = MENU.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'command' ? [item.command] : [])));
  expect([...listed].sort()).toEqual(Object.keys(COMMANDS).sort());
  const keys = Object.values(COMMANDS).flatMap((each) => (each.keys === null ? [] : [each.keys]));
  expect(new Set(keys).size).toBe(keys.length);
});

test('keys are written as the platform writes them', () => {
  expect(keysText('Shift+Mod+E', 'mac')).toBe('⇧⌘E');
  expect(keysText('Shift+Mod+E', 'windows')).toBe('Ctrl+Shift+E');
  expect(keysText('Alt+ArrowUp', 'linux')).toBe('Alt+Up');
  expect(keysText('Alt+ArrowUp', 'mac')).toBe('⌥↑');
});

test('a press is its keys: by letter, or by place where Alt or Shift make another character', () => {
  expect(matchesKeys(press('s', { ctrlKey: true }), 'Mod+S', 'linux')).toBe(true);
  expect(matchesKeys(press('s', { metaKey: true }), 'Mod+S', 'mac')).toBe(true);
  expect(matchesKeys(press('s', { ctrlKey: true }), 'Mod+S', 'mac')).toBe(false);
  expect(matchesKeys(press('S', { ctrlKey: true, shiftKey: true }), 'Mod+S', 'linux')).toBe(false);
  expect(matchesKeys(press('S', { ctrlKey: true, shiftKey: true }), 'Shift+Mod+S', 'linux')).toBe(true);
  const option = press('ñ', { metaKey: true, altKey: true, code: 'KeyN' });
  expect(matchesKeys(option, 'Alt+Mod+N', 'mac')).toBe(true);
  expect(matchesKeys(press('ArrowUp', { altKey: true }), 'Alt+ArrowUp', 'windows')).toBe(true);
  // On a keyboard whose letters stand elsewhere the letter counts, not its place.
  expect(matchesKeys(press('y', { ctrlKey: true, code: 'KeyZ' }), 'Mod+Z', 'linux')).toBe(false);
});

test('every command with keys answers to them on every platform, and to no other', () => {
  for (const platform of ['mac', 'windows', 'linux'] as const satisfies KeyPlatform[]) {
    for (const [id, { keys }] of Object.entries(COMMANDS)) {
      if (keys === null) continue;
      const made = pressOf(keys, platform);
      const answering = Object.entries(COMMANDS).filter(
        ([, each]) => each.keys !== null && matchesKeys(made, each.keys, platform),
      );
      expect(answering.map(([each]) => each)).toEqual([id]);
    }
  }
});

function pressOf(keys: string, platform: KeyPlatform): KeyPress {
  const parts = keys.split('+');
  const key = parts.pop() ?? '';
  const mod = parts.includes('Mod');
  return press(key, {
    ctrlKey: mod && platform !== 'mac',
    metaKey: mod && platform === 'mac',
    altKey: parts.includes('Alt'),
    shiftKey: parts.includes('Shift'),
  });
}

test('whoever lent a deed last carries it out, until it is taken back', () => {
  const commands = new Commands('linux');
  const done: string[] = [];
  const id: CommandId = 'order.split';
  expect(commands.run(id)).toBe(false);
  commands.lend(() => ({ [id]: () => done.push('list') }));
  let able = true;
  const back = commands.lend(() => ({ [id]: { run: () => done.push('editor'), enabled: () => able } }));
  expect(commands.run(id)).toBe(true);
  able = false;
  expect(commands.isEnabled(id)).toBe(false);
  expect(commands.forKeys(press('Enter', { ctrlKey: true, shiftKey: true }))).toBe(null);
  back();
  expect(commands.forKeys(press('Enter', { ctrlKey: true, shiftKey: true }))).toBe(id);
  commands.run(id);
  expect(done).toEqual(['editor', 'list']);
});

test('a command is found by words or their beginnings, in any order', () => {
  expect(hasWords('Save under another name… Book', 'name sav')).toBe(true);
  expect(hasWords('Save under another name… Book', '')).toBe(true);
  expect(hasWords('Save under another name… Book', 'ave')).toBe(false);
});

test('how commands stand is told: what nobody can do, what holds, and that it may have changed', () => {
  const commands = new Commands('linux');
  let told = 0;
  const end = commands.listen(() => told++);
  const given = { grid: false, undo: false };
  const giveBack = commands.lend(() => ({
    'edit.undo': { run: () => {}, enabled: () => given.undo },
    'proof.grid': { run: () => {}, on: () => given.grid },
  }));
  expect(told).toBe(1);
  expect(commands.state).toEqual({ disabled: commands.all.filter((id) => id !== 'proof.grid'), on: [] });
  Object.assign(given, { grid: true, undo: true });
  expect(commands.state.on).toEqual(['proof.grid']);
  expect(commands.state.disabled).not.toContain('edit.undo');
  giveBack();
  expect(told).toBe(2);
  expect(commands.state).toEqual({ disabled: commands.all, on: [] });
  end();
  commands.touch();
  expect(told).toBe(2);
});

test('a command that is one of several stands with them alone, and marks are kept apart by rules', () => {
  for (const { items } of MENU) {
    const blocks = items
      .map((item) => (item.kind === 'command' ? (markOf(item.command) ?? '-') : item.kind === 'rule' ? '|' : '-'))
      .join(' ')
      .split('|');
    for (const block of blocks.filter((each) => each.includes('one'))) expect(block.trim()).toMatch(/^one( one)+$/);
  }
});

function markOf(id: CommandId): string | undefined {
  const { mark }: CommandText = COMMANDS[id];
  return mark;
}
