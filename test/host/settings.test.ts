/** Settings and folders: what the window remembers, and what its file dialogs show. */
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Settings, USUAL_SETTINGS } from '#host';
import { SettingsFile } from '../../electron/host/settings.ts';
import { freshFolder, hosted, value } from './hosting.ts';

async function loaded(text: string | Uint8Array): Promise<Settings> {
  const folder = freshFolder();
  writeFileSync(join(folder, 'settings.json'), text);
  return (await SettingsFile.load(folder)).current;
}

describe('settings', () => {
  it('are as they come with the program until some are set, and outlive it', async () => {
    const { call, appData, host } = await hosted();
    expect((await call('start', {})).settings).toEqual(USUAL_SETTINGS);
    await call('setSettings', { textZoom: 140, panels: { order: 200 } });
    const all = await call('setSettings', { panels: { proof: false } });
    expect(all).toEqual({ ...USUAL_SETTINGS, textZoom: 140, panels: { order: 200, proof: false } });
    await host.close();
    expect((await (await hosted({ appData })).call('start', {})).settings).toEqual(all);
  });

  it('of a broken file are those of the program', async () => {
    for (const text of ['', '{', 'null', '[]', '7', '"a"', new Uint8Array([0xff, 0xfe, 0])]) {
      expect(await loaded(text)).toEqual(USUAL_SETTINGS);
    }
  });

  it('that are wrong cost only themselves', async () => {
    const file = {
      appearance: 'plaid',
      textZoom: 1e9,
      spellCheck: false,
      exportFolder: 7,
      proof: { zoom: 9 },
      panels: { a: 'wide' },
    };
    expect(await loaded(JSON.stringify(file))).toEqual({ ...USUAL_SETTINGS, spellCheck: false });
  });

  it('come out of any JSON', async () => {
    await fc.assert(
      fc.asyncProperty(fc.dictionary(fc.constantFrom(...Object.keys(USUAL_SETTINGS)), fc.jsonValue()), async (json) => {
        const settings = await loaded(JSON.stringify(json));
        expect(Object.keys(settings)).toEqual(Object.keys(USUAL_SETTINGS));
        expect(['system', 'light', 'dark']).toContain(settings.appearance);
        expect(typeof settings.textZoom).toBe('number');
      }),
      { numRuns: 50 },
    );
  });

  it('are one file of JSON that is written whole', async () => {
    const { call, appData, host } = await hosted();
    for (let zoom = 80; zoom <= 200; zoom += 20) await call('setSettings', { textZoom: zoom });
    await host.close();
    expect(JSON.parse(readFileSync(join(appData, 'settings.json'), 'utf8'))).toMatchObject({ textZoom: 200 });
  });
});

describe('a folder', () => {
  it('is listed folders first, then files, without hidden ones and broken links', async () => {
    const { call, folder } = await hosted();
    for (const name of ['beta', 'Alpha']) mkdirSync(join(folder, name));
    for (const name of ['z.docx', 'A.reglet', '.hidden', 'b.txt']) writeFileSync(join(folder, name), 'abc');
    symlinkSync(join(folder, 'nowhere'), join(folder, 'broken'));
    symlinkSync('/dev/zero', join(folder, 'device'));
    const listing = value(await call('listFolder', { path: null }));
    expect(listing.path).toBe(folder);
    expect(listing.entries.map((each) => `${each.kind} ${each.name} ${each.size}`)).toEqual([
      'folder Alpha 0',
      'folder beta 0',
      'file A.reglet 3',
      'file b.txt 3',
      'file z.docx 3',
    ]);
    expect(value(await call('listFolder', { path: join(folder, 'beta', '..', 'Alpha') })).parent).toBe(folder);
    expect(value(await call('listFolder', { path: '/' })).parent).toBeNull();
  });

  it('offers places that are there', async () => {
    const { call, folder } = await hosted();
    const { places } = value(await call('listFolder', { path: '/' }));
    expect(places.map((each) => each.path)).toContain(folder);
    for (const { path } of places) value(await call('listFolder', { path }));
  });
});
