/** The program as it is started: without a window it prints its address and serves until it is stopped. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { newBook } from '#book';
import { type CallName, type CallReplies, type CallRequest, callPath, decode, encode, WIRE_TYPE } from '#host';
import { writeProject } from '#project';
import { readFontTables } from '#type';
import { findBrowser } from '../../electron/start/browser.ts';
import { appDataFolder } from '../../electron/start/places.ts';
import { parseStart } from '../../electron/start/request.ts';
import { freshFolder, hosted, PROGRAM, value } from './hosting.ts';

const START = join(PROGRAM, 'start.mjs');
const running: ChildProcess[] = [];

afterEach(() => {
  for (const child of running.splice(0)) child.kill('SIGKILL');
});

/** Starts the program as a person would. */
function started(words: readonly string[], data: string, environment: Readonly<Record<string, string>> = {}) {
  const child = spawn(process.execPath, [START, ...words], {
    env: { ...process.env, REGLET_DATA: data, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  running.push(child);
  const said = { out: '', err: '' };
  child.stdout.on('data', (data) => (said.out += String(data)));
  child.stderr.on('data', (data) => (said.err += String(data)));
  const ended = new Promise<number | null>((resolve) => child.once('exit', (status) => resolve(status)));
  return { child, said, ended };
}

/** Waits until the condition gives something. */
async function until<T>(condition: () => T | null): Promise<T> {
  for (;;) {
    const found = condition();
    if (found !== null) return found;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

/** A window inside a program that was started: calls as the window makes them. */
async function windowIn(address: string) {
  const { origin } = new URL(address);
  const entered = await fetch(address, { redirect: 'manual' });
  const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? '';
  return async <Name extends CallName>(name: Name, request: CallRequest<Name>): Promise<CallReplies[Name]> => {
    const headers = { cookie, origin, 'content-type': WIRE_TYPE };
    const answer = await fetch(`${origin}/${callPath(name)}`, { method: 'POST', headers, body: encode(request) });
    return decode(new Uint8Array(await answer.arrayBuffer())) as CallReplies[Name];
  };
}

async function served(words: readonly string[], data: string) {
  const given = started(['--no-window', ...words], data);
  const address = await until(() => /^(http:.*)\n$/.exec(given.said.out)?.[1] ?? null);
  return { ...given, address, call: await windowIn(address) };
}

const BOOK = writeProject(newBook({ metadata: { title: 'The Weir' }, sections: [] }));

describe('the program without a window', () => {
  it('prints its address alone, serves the window, and stops at a signal', async () => {
    const { call, child, said, ended } = await served([], freshFolder());
    expect(await call('start', {})).toMatchObject({ dialogs: 'page', menu: 'page', open: null });
    child.kill('SIGTERM');
    expect(await ended).toBe(0);
    expect(said.out.trim().split('\n')).toHaveLength(1);
    expect(said.err).toBe('');
  });

  it('opens the file that it is given, once', async () => {
    const folder = freshFolder();
    const path = join(folder, 'weir.reglet');
    writeFileSync(path, BOOK);
    const { call } = await served([path], folder);
    expect((await call('start', {})).open).toBe(path);
    expect((await call('start', {})).open).toBeNull();
  });

  it('keeps what was not saved, however it ends', async () => {
    for (const signal of ['SIGINT', 'SIGKILL'] as const) {
      const data = freshFolder();
      const path = join(data, 'weir.reglet');
      writeFileSync(path, BOOK);
      const first = await served([], data);
      const { session } = value(await first.call('openBook', { source: { path } }));
      const set = { kind: 'setMetadata', set: { title: `Kept after ${signal}` } } as const;
      value(await first.call('change', { session, version: 0, changes: [set] }));
      first.child.kill(signal);
      await first.ended;
      const second = await served([], data);
      const [work] = (await second.call('start', {})).unsaved;
      expect(work).toMatchObject({ path, changes: 1 });
      const again = value(await second.call('recover', { id: work?.id ?? '' }));
      expect(again.book.metadata.title).toBe(`Kept after ${signal}`);
    }
  });

  it('says what is wrong with its command line', () => {
    for (const words of [['--no-such'], ['a.docx', 'b.docx'], ['a.txt']]) {
      const { status, stderr } = spawnSync(process.execPath, [START, ...words], { encoding: 'utf8' });
      expect(status).toBe(2);
      expect(stderr).toMatch(/^reglet: [^\n]+\.\nUsage: /);
    }
  });
});

describe('the program without a place for its data', () => {
  it('says so in one sentence', () => {
    const env = { ...process.env, REGLET_DATA: '/dev/null/reglet' };
    const { status, stdout, stderr } = spawnSync(process.execPath, [START, '--no-window'], { encoding: 'utf8', env });
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(/^reglet: the folder for the program's own data, \/dev\/null\/reglet, [^\n]+\.\n$/);
  });
});

describe('what the window loads', () => {
  it('is there: its page, and every face that the host names', async () => {
    const { address, call } = await served([], freshFolder());
    const { fonts } = await call('start', {});
    const { origin } = new URL(address);
    // Without the window's cookie nobody gets any of it.
    expect((await fetch(`${origin}/index.html`)).status).toBe(403);
    const { host } = await hosted();
    for (const { file } of fonts) {
      const { status, headers, body } = await host.serve(`/fonts/${file}`);
      expect([status, headers['content-type']]).toEqual([200, 'font/ttf']);
      expect(readFontTables(body).ok).toBe(true);
    }
    expect((await host.serve('/wasm/harfbuzz.wasm')).headers['content-type']).toBe('application/wasm');
    const page = await host.serve('/');
    expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
    const scripts = [...new TextDecoder().decode(page.body).matchAll(/(?:src|href)="\.\/([^"]+)"/g)];
    expect(scripts.length).toBeGreaterThan(0);
    for (const [, path] of scripts) expect((await host.serve(`/${path}`)).status).toBe(200);
  });
});

describe('the program with a window', () => {
  it('opens it in a browser that is named, with a profile of its own, says so, and ends with it', async () => {
    const data = freshFolder();
    const browser = join(data, 'browser.sh');
    // Stands in for a browser: notes how it was called, and is closed at once.
    writeFileSync(browser, `#!/bin/sh\nprintf '%s\\n' "$@" > '${join(data, 'called')}'\n`);
    chmodSync(browser, 0o755);
    const { ended, said } = started([], data, { REGLET_BROWSER: browser });
    expect(await ended).toBe(0);
    expect(said.out).toBe('');
    expect(said.err.trim()).toBe(`The window opens in ${browser}.`);
    const called = readFileSync(join(data, 'called'), 'utf8').split('\n');
    expect(called[0]).toMatch(/^--app=http:\/\/127\.0\.0\.1:\d+\/enter\/[\w-]+$/);
    expect(called).toContain(`--user-data-dir=${join(data, 'browser')}`);
  });

  it('prints the address where there is no browser', async () => {
    const { said, child } = started([], freshFolder(), { REGLET_BROWSER: '/nowhere' });
    await until(() => /^http:/.exec(said.out));
    expect(said.err).toContain('nor a browser');
    child.kill('SIGTERM');
  });
});

describe('the places of a computer', () => {
  it('are where each platform keeps them', () => {
    const of = (platform: NodeJS.Platform, environment: NodeJS.ProcessEnv) => appDataFolder({ platform, environment });
    expect(of('linux', { XDG_DATA_HOME: '/data' })).toBe('/data/reglet');
    // A relative path is to be ignored (XDG Base Directory Specification).
    expect(of('linux', { XDG_DATA_HOME: 'data' })).toMatch(/\/\.local\/share\/reglet$/);
    expect(of('darwin', {})).toMatch(/Library\/Application Support\/Reglet$/);
    expect(of('win32', { APPDATA: '/roaming' })).toBe('/roaming/Reglet');
    expect(of('linux', { REGLET_DATA: '/own', XDG_DATA_HOME: '/data' })).toBe('/own');
  });

  it('hold a browser on the path, or the one that is named', () => {
    const folder = freshFolder();
    const machine = { platform: 'linux', environment: { PATH: `${folder}:/nowhere` } } as const;
    expect(findBrowser(machine)).toBeNull();
    writeFileSync(join(folder, 'google-chrome'), '');
    writeFileSync(join(folder, 'chromium'), '');
    expect(findBrowser(machine)).toBe(join(folder, 'chromium'));
    expect(existsSync('/nowhere')).toBe(false);
    expect(findBrowser({ ...machine, environment: { ...machine.environment, REGLET_BROWSER: '/nowhere' } })).toBeNull();
  });
});

describe('the command line of the start', () => {
  it('takes one file and whether to show a window', () => {
    expect(parseStart([], '/home')).toEqual({ window: true, help: false, open: null });
    expect(parseStart(['--no-window', 'a.DOCX'], '/home')).toEqual({
      window: false,
      help: false,
      open: '/home/a.DOCX',
    });
    expect(parseStart(['/b.reglet'], '/home').open).toBe('/b.reglet');
  });
});
