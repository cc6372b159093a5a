import { beforeAll, describe, expect, test } from 'vitest';
import { type FontFace, fontTable, loadFontLibrary, readFontTables } from '#type';
import { ADVANCE, blockFont } from './blocks.ts';
import { fontModules, testLibrary } from './fonts.ts';

let face: FontFace;

beforeAll(async () => {
  face = (await testLibrary()).family('EB Garamond').regular;
});

/** The subset as a face of its own. */
async function loaded(bytes: Uint8Array): Promise<FontFace> {
  const library = await loadFontLibrary([{ family: 'Subset', weight: 400, italic: false, bytes }], fontModules());
  return library.family('Subset').regular;
}

/** Tags in the table directory of a font file. */
function tables(bytes: Uint8Array): string[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const count = view.getUint16(4);
  return Array.from({ length: count }, (_, i) => String.fromCharCode(...bytes.subarray(12 + i * 16, 16 + i * 16)));
}

describe('subsets for print', () => {
  test('keep ids, advances and outlines of the glyphs asked for, and drop the rest', () => {
    const glyphs = [...face.shape('office', { features: '', language: 'en', direction: 'ltr' }).glyphs];
    const subset = face.subset(glyphs);
    expect(subset.length).toBeLessThan(face.bytes.length / 10);
    for (const table of ['GSUB', 'GPOS', 'GDEF', 'cmap', 'name']) expect(tables(subset)).not.toContain(table);
    for (const table of ['glyf', 'loca', 'head', 'hhea', 'hmtx', 'maxp']) expect(tables(subset)).toContain(table);
  });

  test('the same glyphs give the same bytes', () => {
    expect(face.subset([50, 1, 60])).toEqual(face.subset(new Set([60, 50, 1])));
  });
});

describe('subsets for an ebook', () => {
  test('characters and layout features live on, the licence travels along', async () => {
    const text = 'The weir, 1849: office AVE';
    const subset = face.subsetForText([...text].map((letter) => letter.codePointAt(0)!));
    const small = await loaded(subset);
    for (const features of ['', 'onum', 'smcp']) {
      const setting = { features, language: 'en', direction: 'ltr' } as const;
      expect([...small.shape(text, setting).advances]).toEqual([...face.shape(text, setting).advances]);
    }
    expect(small.has(0x5a)).toBe(false);
    expect(tables(subset)).toContain('name');
    // The name table holds UTF-16; the licence of the face is the SIL Open Font License.
    const utf16 = [...'SIL Open Font License'].flatMap((letter) => [0, letter.charCodeAt(0)]);
    expect(Buffer.from(subset).includes(Buffer.from(utf16))).toBe(true);
  });
});

describe('CFF outlines', () => {
  const setting = { features: '', language: 'en', direction: 'ltr' } as const;

  test('are shaped, drawn and measured', async () => {
    const blocks = await loaded(blockFont());
    expect([blocks.cff, blocks.postScriptName, blocks.xHeight, blocks.capHeight]).toEqual([true, 'Blocks', 300, 500]);
    expect(blocks.shape('A E', setting).width).toBe(3 * ADVANCE);
    expect(blocks.inkOf(blocks.glyphOf(0x43))).toEqual([50, 0, 450, 300]);
    expect(blocks.outline(blocks.glyphOf(0x41))).toBe('M50 0L450 0L450 100L50 100L50 0Z');
  });

  test('subsets keep them', async () => {
    const blocks = await loaded(blockFont());
    const outlines = fontTable(blocks.subset([blocks.glyphOf(0x43)]), 'CFF ')!;
    expect(outlines.length).toBeLessThan(fontTable(blockFont(), 'CFF ')!.length);
    const small = await loaded(blocks.subsetForText([0x43]));
    expect(small.inkOf(small.glyphOf(0x43))).toEqual([50, 0, 450, 300]);
    expect(small.has(0x41)).toBe(false);
  });
});

describe('font files from outside', () => {
  test('are refused with a reason', () => {
    const whole = face.bytes;
    expect(readFontTables(whole).ok).toBe(true);
    expect(readFontTables(new Uint8Array(4))).toMatchObject({ ok: false });
    expect(readFontTables(new TextEncoder().encode('<!DOCTYPE html> no font at all'))).toMatchObject({ ok: false });
    for (const length of [20, 300, 4000, whole.length - 1000]) {
      expect(readFontTables(whole.slice(0, length))).toMatchObject({ ok: false });
    }
  });
});
