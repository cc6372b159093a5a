import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { Scripts } from '../../electron/launch/scripts.ts';

const root = resolve(import.meta.dirname, '../..');
const folders: string[] = [];

afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A folder of scripts. */
function scriptsOf(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'reglet-test-'));
  folders.push(folder);
  for (const [name, source] of Object.entries(files)) {
    const file = join(folder, name);
    mkdirSync(resolve(file, '..'), { recursive: true });
    writeFileSync(file, source);
  }
  return folder;
}

const HOUSE = {
  'house.cjs': "const door = require('./parts/door.cjs'); exports.say = () => door.name + ' ' + __filename;",
  'parts/door.cjs':
    "exports.name = require('node:path').basename('/a/door'); exports.twin = require('../parts/door.cjs');",
};

describe('scripts', () => {
  test('load each other and what Node has, each of them once', () => {
    const folder = scriptsOf(HOUSE);
    const scripts = new Scripts(folder);
    const { say } = scripts.load('house.cjs') as { say: () => string };
    expect(say()).toBe(`door ${join(folder, 'house.cjs')}`);
    const door = scripts.load('parts/door.cjs') as { twin: unknown };
    expect(door.twin).toBe(door);
  });

  test('are taken as V8 kept them', () => {
    const folder = scriptsOf(HOUSE);
    const first = new Scripts(folder);
    first.load('house.cjs');
    expect(first.taken().size).toBe(0);
    first.keep();
    const second = new Scripts(folder);
    expect((second.load('house.cjs') as { say: () => string }).say()).toContain('door');
    expect([...second.taken().values()]).toEqual([true, true]);
  });

  test('are compiled as ever where what is kept is of another script of the same length', () => {
    const folder = scriptsOf(HOUSE);
    const first = new Scripts(folder);
    first.load('house.cjs');
    first.keep();
    const door = join(folder, 'parts/door.cjs');
    writeFileSync(door, readFileSync(door, 'utf8').replace('/a/door', '/a/gate'));
    const second = new Scripts(folder);
    expect((second.load('house.cjs') as { say: () => string }).say()).toContain('gate');
    expect([...second.taken().keys()]).toEqual([join(folder, 'house.cjs')]);
  });

  test('are compiled as ever where V8 refuses what is kept', () => {
    const source = "exports.name = 'never seen before';";
    const folder = scriptsOf({ 'new.cjs': source });
    const digest = createHash('sha256').update(source).digest();
    writeFileSync(join(folder, 'new.cjs.cache'), Buffer.concat([digest, Buffer.alloc(200)]));
    const scripts = new Scripts(folder);
    expect(scripts.load('new.cjs')).toHaveProperty('name', 'never seen before');
    expect([...scripts.taken().values()]).toEqual([false]);
  });

  test('that are not there say which', () => {
    expect(() => new Scripts(scriptsOf({})).load('nowhere.cjs')).toThrow(/nowhere\.cjs/);
  });
});

test('the built command is taken as the build kept it', () => {
  expect(existsSync(join(root, 'dist/command/command.cjs.cache'))).toBe(true);
  // In a process of its own, with the flags that the command sets for itself.
  const look = `
    import { compileForShortRun, commandScripts } from ${JSON.stringify(join(root, 'dist/launch.mjs'))};
    compileForShortRun();
    const scripts = commandScripts();
    scripts.load('command.cjs');
    process.stdout.write(JSON.stringify([...scripts.taken().values()]));`;
  const ran = spawnSync(process.execPath, ['--input-type=module', '-e', look], { encoding: 'utf8' });
  expect(ran.stdout).toBe('[true]');
});
