/**
 * Electron's security checklist (Electron documentation, "Security"; items 1 to 17 as published there, 18 to 20 from
 * memory of its later editions), one test an item. DEVELOPERS.md lists item, code and test side by side.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type * as Electron from 'electron';
import { beforeEach, describe, expect, it } from 'vitest';
import { CONTENT_SECURITY_POLICY } from '../../electron/host/policy.ts';
import { isOurs, WINDOW_ADDRESS } from '../../electron/shell/address.ts';
import { isTrusted } from '../../electron/shell/calls.ts';
import { guardContents, guardSession } from '../../electron/shell/guards.ts';
import { securePreferences, windowOptions } from '../../electron/shell/window.ts';
import { DoubleContents, DoubleSession, DoubleWindow, doubles } from './doubles.ts';
import { started } from './started.ts';

const root = resolve(import.meta.dirname, '../..');
const shellFiles = readdirSync(join(root, 'electron/shell')).map((name) => join(root, 'electron/shell', name));

function sourceOf(file: string): string {
  return readFileSync(file, 'utf8')
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/^\s*\/\/.*$/gm, '');
}

const STRANGE = [
  'https://example.com/',
  'http://127.0.0.1/',
  'file:///etc/passwd',
  'data:text/html,hello',
  'javascript:1',
  'reglet://elsewhere/index.html',
  'reglet://window@elsewhere/',
  'reglet://user@window/index.html',
];

describe("Electron's security checklist", () => {
  let contents: DoubleContents;
  let session: DoubleSession;

  beforeEach(() => {
    contents = new DoubleContents();
    session = new DoubleSession();
    guardContents(contents as unknown as Electron.WebContents);
    guardSession(session as unknown as Electron.Session);
  });

  const cancels = (url: string): boolean => {
    let cancelled: boolean | undefined;
    session.handlers['beforeRequest']?.(
      ...([{ url }, (reply: { cancel: boolean }) => (cancelled = reply.cancel)] as never[]),
    );
    if (cancelled === undefined) throw new RangeError('the request was not answered');
    return cancelled;
  };

  it('1: only loads secure content', async () => {
    await started();
    expect(DoubleWindow.made.map((window) => window.address)).toEqual([WINDOW_ADDRESS]);
    for (const address of STRANGE) expect([address, cancels(address)]).toEqual([address, true]);
    expect(cancels('reglet://window/assets/index.js')).toBe(false);
    expect(cancels('blob:reglet://window/2c1d')).toBe(false);
  });

  it('2: has no Node in the page, its frames or workers', () => {
    expect(securePreferences('p')).toMatchObject({
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
    });
  });

  it('3: isolates the context of preload', () => {
    expect(securePreferences('p').contextIsolation).toBe(true);
  });

  it('4: sandboxes every process of a page', async () => {
    const { given } = await started();
    expect(securePreferences('p').sandbox).toBe(true);
    expect(given.app.done).toContain('sandbox');
  });

  it('5: denies every permission, device and download', () => {
    const granted: unknown[] = [];
    const answer = (value: unknown): number => granted.push(value);
    for (const permission of [
      'notifications',
      'media',
      'geolocation',
      'openExternal',
      'clipboard-read',
      'fileSystem',
    ]) {
      session.handlers['permissionRequest']?.(...([null, permission, answer] as never[]));
      granted.push(session.handlers['permissionCheck']?.(...([null, permission] as never[])));
    }
    granted.push(session.handlers['devicePermission']?.(...([{}] as never[])));
    expect(granted).toHaveLength(13);
    expect(new Set(granted)).toEqual(new Set([false]));
    const streams: unknown[] = [];
    session.handlers['displayMedia']?.(...([{}, (value: unknown) => streams.push(value)] as never[]));
    expect(streams).toEqual([{}]);
    let prevented = false;
    session.emit('will-download', { preventDefault: () => (prevented = true) });
    expect(prevented).toBe(true);
  });

  it('6: keeps web security on', () => {
    expect(securePreferences('p').webSecurity).toBe(true);
  });

  it('7: sets a restrictive content security policy on whatever it serves', async () => {
    const { get } = await started();
    const policy = (await get(WINDOW_ADDRESS)).headers.get('content-security-policy') ?? '';
    expect(policy).toBe(CONTENT_SECURITY_POLICY);
    const rules = new Map(
      policy.split(';').map((rule) => [rule.trim().split(' ')[0], rule.trim().split(' ').slice(1)]),
    );
    expect(rules.get('default-src')).toEqual(["'none'"]);
    for (const rule of ['object-src', 'base-uri', 'form-action', 'frame-ancestors']) {
      expect([rule, rules.get(rule) ?? rules.get('default-src')]).toEqual([rule, ["'none'"]]);
    }
    const script = rules.get('script-src') ?? [];
    expect(script).toContain("'self'");
    for (const open of ["'unsafe-inline'", "'unsafe-eval'", '*', 'data:', 'blob:', 'http:', 'https:']) {
      expect(script).not.toContain(open);
    }
    for (const sources of rules.values()) expect(sources).not.toContain('*');
  });

  it('8: does not allow insecure content', () => {
    expect(securePreferences('p').allowRunningInsecureContent).toBe(false);
  });

  it('9 and 10: enables no experimental and no single Blink feature', () => {
    expect(securePreferences('p').experimentalFeatures).toBe(false);
    for (const file of shellFiles) expect(sourceOf(file)).not.toMatch(/enableBlinkFeatures|enable-blink|appendSwitch/);
  });

  it('11 and 12: has no web views, and none can be attached', () => {
    expect(securePreferences('p').webviewTag).toBe(false);
    expect(contents.denies('will-attach-webview')).toBe(true);
  });

  it('13: denies navigation, in frames too', async () => {
    for (const url of STRANGE) {
      expect(contents.denies('will-navigate', { url })).toBe(true);
      expect(contents.denies('will-redirect', { url })).toBe(true);
      expect([url, contents.denies('will-frame-navigate', { url, isMainFrame: false })]).toEqual([url, true]);
    }
    expect(contents.denies('will-frame-navigate', { url: WINDOW_ADDRESS, isMainFrame: true })).toBe(true);
    expect(contents.denies('will-frame-navigate', { url: 'about:srcdoc', isMainFrame: false })).toBe(false);
    const { given } = await started();
    const late = new DoubleContents();
    given.app.emit('web-contents-created', {}, late);
    expect(late.denies('will-navigate', { url: 'https://example.com/' })).toBe(true);
  });

  it('14: opens no windows', () => {
    for (const url of STRANGE) expect(contents.openHandler?.({ url })).toEqual({ action: 'deny' });
  });

  it('15: hands no address from a manuscript to the system', () => {
    for (const file of shellFiles) expect(sourceOf(file)).not.toMatch(/openExternal\(/);
  });

  it('16: uses a current version of Electron', () => {
    const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Record<
      string,
      Record<string, string>
    >;
    const installed = JSON.parse(readFileSync(join(root, 'node_modules/electron/package.json'), 'utf8')) as {
      version: string;
    };
    expect(manifest['devDependencies']?.['electron']).toBe(installed.version);
    expect(Number(installed.version.split('.')[0])).toBeGreaterThanOrEqual(42);
  });

  it('17: answers only the main frame of its own page', async () => {
    const { call } = await started();
    const page = { url: WINDOW_ADDRESS, parent: null };
    await expect(call(page, 'start', {})).resolves.toMatchObject({ open: null });
    const strangers = [
      null,
      ...STRANGE.map((url) => ({ url, parent: null })),
      { url: WINDOW_ADDRESS, parent: page },
      { url: 'about:srcdoc', parent: page },
    ];
    for (const frame of strangers) {
      expect(isTrusted(frame as Electron.WebFrameMain | null)).toBe(false);
      await expect(call(frame, 'start', {})).rejects.toThrow('Refused');
    }
  });

  it('18: serves the window by its own scheme, which cannot leave its folders', async () => {
    const { given, get } = await started();
    expect(given.schemes).toEqual([
      {
        scheme: 'reglet',
        privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true },
      },
    ]);
    expect(isOurs('file:///index.html')).toBe(false);
    expect((await get(WINDOW_ADDRESS)).status).toBe(200);
    for (const path of [
      '../package.json',
      '..%2f..%2fpackage.json',
      '%2e%2e/%2e%2e/package.json',
      '..\\..\\package.json',
      'fonts/../../package.json',
      'fonts/%2e%2e%2f%2e%2e%2fpackage.json',
      '/etc/passwd',
      '//etc/passwd',
      'index.html%00.png',
      'reglet.mjs',
    ]) {
      expect([path, (await get(`reglet://window/${path}`)).status]).toEqual([path, 404]);
    }
  });

  it('19: sets the fuses of the packaged program', () => {
    const config = readFileSync(join(root, 'electron-builder.yml'), 'utf8');
    const fuses = Object.fromEntries(
      [...config.matchAll(/^ {2}(\w+): (true|false)$/gm)].map(([, name, value]) => [name, value === 'true']),
    );
    expect(fuses).toMatchObject({
      runAsNode: false,
      enableCookieEncryption: true,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      grantFileProtocolExtraPrivileges: false,
    });
  });

  it('20: exposes no part of Electron to the page', () => {
    const preload = sourceOf(join(root, 'electron/shell/preload.ts'));
    const exposed = preload.slice(preload.indexOf('exposeInMainWorld'));
    expect(preload.match(/exposeInMainWorld/g)).toHaveLength(1);
    expect([...exposed.matchAll(/^ {2}(\w+):/gm)].map(([, name]) => name)).toEqual(['call', 'listen']);
    // The event object carries the sender and never reaches the page.
    expect(exposed).toContain('(_event: unknown, message: unknown): void => listener(message)');
  });

  it('asks for these in every window it makes', async () => {
    await started();
    const [window] = DoubleWindow.made;
    expect(window?.options).toEqual(windowOptions({ preload: '/program/preload.cjs', place: null, dark: false }));
    expect(doubles().handled.size).toBe(0);
  });
});
