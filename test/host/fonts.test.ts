/** Fonts installed on the computer: found, named, with what their licence bits allow; broken files are passed over. */
import { copyFileSync, mkdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fontTable, readFontTables } from '#type';
import { InstalledFonts } from '../../electron/host/fonts/installedFonts.ts';
import { root } from '../e2e/command.ts';
import { fontFile, fontModules } from '../type/fonts.ts';
import { freshFolder, hosted } from './hosting.ts';

const GARAMOND = join(root, 'node_modules/@expo-google-fonts/eb-garamond');
const REGULAR = new Uint8Array(readFileSync(join(GARAMOND, '400Regular/EBGaramond_400Regular.ttf')));
const ITALIC = new Uint8Array(readFileSync(join(GARAMOND, '400Regular_Italic/EBGaramond_400Regular_Italic.ttf')));

/** The font with other licence bits: OS/2 fsType is at offset 8 of its table (OpenType specification, OS/2). */
function withLicence(bytes: Uint8Array, fsType: number): Uint8Array {
  const copy = bytes.slice();
  const table = fontTable(copy, 'OS/2');
  if (!table) throw new RangeError('the font has no OS/2 table');
  new DataView(table.buffer, table.byteOffset).setUint16(8, fsType);
  return copy;
}

/** Fonts as a collection: a header, then each font with its table offsets moved (OpenType specification, TTC header). */
function collection(fonts: readonly Uint8Array[]): Uint8Array {
  const head = 12 + fonts.length * 4;
  const out = new Uint8Array(head + fonts.reduce((sum, font) => sum + ((font.length + 3) & ~3), 0));
  const view = new DataView(out.buffer);
  view.setUint32(0, 0x74746366);
  view.setUint32(4, 0x00010000);
  view.setUint32(8, fonts.length);
  let at = head;
  fonts.forEach((font, index) => {
    out.set(font, at);
    view.setUint32(12 + index * 4, at);
    for (let table = 0; table < view.getUint16(at + 4); table++) {
      const record = at + 12 + table * 16 + 8;
      view.setUint32(record, view.getUint32(record) + at);
    }
    at += (font.length + 3) & ~3;
  });
  return out;
}

/** The font with one more table (OpenType specification, "Table Directory"). */
function withTable(font: Uint8Array, tag: string, table: Uint8Array): Uint8Array {
  const count = new DataView(font.buffer, font.byteOffset).getUint16(4);
  const head = 12 + count * 16;
  const body = (font.length + 16 + 3) & ~3;
  const out = new Uint8Array(body + table.length);
  const view = new DataView(out.buffer);
  out.set(font.subarray(0, head));
  out.set(font.subarray(head), head + 16);
  view.setUint16(4, count + 1);
  for (let at = 0; at < count; at++) view.setUint32(12 + at * 16 + 8, view.getUint32(12 + at * 16 + 8) + 16);
  out.set(new TextEncoder().encode(tag), head);
  view.setUint32(head + 8, body);
  view.setUint32(head + 12, table.length);
  out.set(table, body);
  return out;
}

/** An `fvar` table with these axes: least, usual, most. */
function axes(all: Readonly<Record<string, readonly [number, number, number]>>): Uint8Array {
  const entries = Object.entries(all);
  const out = new Uint8Array(16 + entries.length * 20);
  const view = new DataView(out.buffer);
  for (const [place, value] of [1, 0, 16, 2, entries.length, 20, 0, 4 + entries.length * 4].entries()) {
    view.setUint16(place * 2, value);
  }
  entries.forEach(([tag, values], at) => {
    out.set(new TextEncoder().encode(tag), 16 + at * 20);
    for (const [index, value] of values.entries()) view.setInt32(20 + at * 20 + index * 4, value * 65536);
  });
  return out;
}

const cutter = () => fontModules().subsetter;

function installed(files: Readonly<Record<string, Uint8Array>>) {
  const folder = freshFolder();
  for (const [name, bytes] of Object.entries(files)) writeFileSync(join(folder, name), bytes);
  return { folder, fonts: new InstalledFonts([folder], freshFolder(), cutter) };
}

describe('installed fonts', () => {
  it('are families with their faces, whatever the files are called', async () => {
    const { fonts } = installed({ 'b.TTF': REGULAR, 'a.otf': ITALIC, 'note.txt': REGULAR });
    const families = await fonts.families();
    expect(families.map(({ family, usable }) => [family, usable])).toEqual([['EB Garamond', true]]);
    expect(families[0]?.faces.map(({ weight, italic }) => [weight, italic])).toEqual([
      [400, false],
      [400, true],
    ]);
  });

  it('are found in folders within folders, and in none that is missing', async () => {
    const folder = freshFolder();
    mkdirSync(join(folder, 'truetype/garamond'), { recursive: true });
    writeFileSync(join(folder, 'truetype/garamond/x.ttf'), REGULAR);
    const fonts = new InstalledFonts([join(folder, 'nowhere'), folder], freshFolder());
    expect(await fonts.families()).toHaveLength(1);
  });

  it('out of a collection are font files of their own', async () => {
    const { fonts } = installed({ 'both.ttc': collection([REGULAR, ITALIC]) });
    const faces = (await fonts.families())[0]?.faces ?? [];
    expect(faces).toHaveLength(2);
    for (const [at, whole] of [REGULAR, ITALIC].entries()) {
      const bytes = await fonts.bytes(faces[at]?.id ?? '');
      const read = readFontTables(bytes ?? new Uint8Array(0));
      const expected = readFontTables(whole);
      if (!read.ok || !expected.ok) throw new RangeError('not a font');
      expect({ ...read.value, bytes: null }).toEqual({ ...expected.value, bytes: null });
      expect(fontTable(bytes ?? whole, 'glyf')).toEqual(fontTable(whole, 'glyf'));
    }
  });

  it('tell what they have for a book, how wide they run, and their own terms', async () => {
    const [family] = await installed({ 'x.ttf': REGULAR }).fonts.families();
    expect(family).toMatchObject({ lacks: ['italic', 'bold'], character: 0.379 });
    expect(family?.licence).toMatch(/^This Font Software is licensed under the SIL Open Font License/);
    expect(family?.licenceAddress).toMatch(/^https?:\/\//);
    const symbols = fontFile('noto-emoji/400Regular/NotoEmoji_400Regular.ttf');
    const [other] = await installed({ 'x.ttf': symbols }).fonts.families();
    expect(other).toMatchObject({ lacks: ['italic', 'bold', 'smallCapitals', 'oldStyle'], character: null });
  });

  it('that vary are cut to the weights and slopes of a book', async () => {
    const varying = withTable(REGULAR, 'fvar', axes({ wght: [300, 400, 600], slnt: [-10, 0, 0] }));
    const { fonts } = installed({ 'x.ttf': varying });
    const [family] = await fonts.families();
    const cuts = [
      [400, false],
      [400, true],
      [600, false],
      [600, true],
    ];
    expect(family?.faces.map(({ weight, italic }) => [weight, italic])).toEqual(cuts);
    expect(family).toMatchObject({ usable: true, lacks: [] });
    for (const { id } of family?.faces ?? []) {
      const bytes = await fonts.bytes(id);
      const read = readFontTables(bytes ?? new Uint8Array(0));
      expect(read.ok && read.value.glyphCount).toBeGreaterThan(3000);
      expect(bytes && fontTable(bytes, 'fvar')).toBeNull();
    }
  });

  it('that are there twice are one face', async () => {
    const { fonts } = installed({ 'a.ttf': REGULAR, 'b.ttf': REGULAR, 'c.ttf': ITALIC });
    expect((await fonts.families())[0]?.faces).toHaveLength(2);
    expect(await fonts.family('EB Garamond')).toHaveLength(2);
  });

  it('are served by the id of a face, and by nothing else', async () => {
    const folder = freshFolder();
    writeFileSync(join(folder, 'x.ttf'), REGULAR);
    const { call, host } = await hosted({ fontFolders: [folder] });
    const id = (await call('installedFonts', {}))[0]?.faces[0]?.id ?? '';
    expect(id).toMatch(/^[0-9a-f]{32}$/);
    expect((await host.serve(`/installed/${id}`)).body).toEqual(REGULAR);
    for (const other of ['x.ttf', '..', `${id}0`, '__proto__']) {
      expect((await host.serve(`/installed/${other}`)).status).toBe(404);
    }
  });

  it('are read again only when their file changes', async () => {
    const folder = freshFolder();
    const appData = freshFolder();
    const path = join(folder, 'x.ttf');
    writeFileSync(path, REGULAR);
    utimesSync(path, 1_000, 1_000);
    expect((await new InstalledFonts([folder], appData).families())[0]?.usable).toBe(true);
    // Another licence with the same size and time goes unseen: the file was not read.
    writeFileSync(path, withLicence(REGULAR, 2));
    utimesSync(path, 1_000, 1_000);
    expect((await new InstalledFonts([folder], appData).families())[0]?.usable).toBe(true);
    utimesSync(path, 1_000, 2_000);
    expect((await new InstalledFonts([folder], appData).families())[0]?.usable).toBe(false);
  });
});

describe('the licence of a font', () => {
  /** FACTS D-15: fsType 0 installable, 2 restricted, 4 preview and print, 8 editable, 0x0100 no subsets, 0x0200 bitmaps. */
  const CASES = [
    [0, 'installable', true, true],
    [2, 'restricted', true, false],
    [4, 'preview', true, true],
    [8, 'editable', true, true],
    [0x0100, 'installable', false, true],
    [0x0200, 'bitmapOnly', true, false],
    [0x0108, 'editable', false, true],
  ] as const;

  it.each(CASES)('with fsType %i is %s', async (fsType, embedding, maySubset, usable) => {
    const { fonts } = installed({ 'x.ttf': withLicence(REGULAR, fsType) });
    const [family] = await fonts.families();
    expect(family?.faces[0]).toMatchObject({ embedding, maySubset });
    expect(family?.usable).toBe(usable);
    expect(family?.permission).toMatch(/^The font [^\n]+\.$/);
    expect(await fonts.family('EB Garamond')).toHaveLength(usable ? 1 : 0);
  });

  it('of its strictest face speaks for a family', async () => {
    const { fonts } = installed({ 'x.ttf': REGULAR, 'y.ttf': withLicence(ITALIC, 2) });
    const [family] = await fonts.families();
    expect(family?.permission).toContain('may not be embedded');
    expect((await fonts.family('EB Garamond')).map((face) => face.italic)).toEqual([false]);
  });
});

describe('a broken font', () => {
  it('is passed over, and the others are there', async () => {
    const folder = freshFolder();
    copyFileSync(join(GARAMOND, '400Regular/EBGaramond_400Regular.ttf'), join(folder, 'good.ttf'));
    const damage = fc.record({
      cut: fc.integer({ min: 0, max: REGULAR.length }),
      flips: fc.array(fc.record({ at: fc.integer({ min: 0, max: 2_000 }), to: fc.integer({ min: 0, max: 255 }) })),
    });
    await fc.assert(
      fc.asyncProperty(
        damage,
        fc.constantFrom(REGULAR, collection([REGULAR, ITALIC])),
        async ({ cut, flips }, font) => {
          const bytes = font.slice(0, cut);
          for (const { at, to } of flips) if (at < bytes.length) bytes[at] = to;
          writeFileSync(join(folder, 'bad.ttc'), bytes);
          const fonts = new InstalledFonts([folder], freshFolder());
          const families = await fonts.families();
          expect(families.map(({ family }) => family)).toContain('EB Garamond');
          for (const face of families.flatMap((each) => each.faces)) await fonts.bytes(face.id);
        },
      ),
      { numRuns: 30 },
    );
  });
});
