/** What a face says of itself: its terms, how wide it runs, and what a library knows of a family. */
import { describe, expect, it } from 'vitest';
import { builtInDesigns } from '#design';
import { faceId, fontTable, loadFontLibrary, meanWidth, readFontTables } from '#type';
import { fontFile, fontModules, textFiles } from './fonts.ts';

const view = (font: Uint8Array, tag: string): DataView => {
  const table = fontTable(font, tag);
  if (!table) throw new RangeError(`no ${tag}`);
  return new DataView(table.buffer, table.byteOffset, table.byteLength);
};

const widthOf = (font: Uint8Array): number | null =>
  meanWidth({
    cmap: view(font, 'cmap'),
    hhea: view(font, 'hhea'),
    hmtx: view(font, 'hmtx'),
    head: view(font, 'head'),
  });

describe('the mean width of a character', () => {
  it.each([
    ['EB Garamond', 'eb-garamond/400Regular/EBGaramond_400Regular.ttf'],
    ['Literata', 'literata/400Regular/Literata_400Regular.ttf'],
    ['Alegreya', 'alegreya/400Regular/Alegreya_400Regular.ttf'],
  ])('of %s is what its design was drawn for', (family, path) => {
    const design = builtInDesigns.find(({ text }) => text.family === family);
    expect(Math.abs((widthOf(fontFile(path)) ?? 0) - (design?.text.character ?? 0))).toBeLessThan(0.01);
  });

  it('is unknown for a face without the letters of English', () => {
    expect(widthOf(fontFile('noto-emoji/400Regular/NotoEmoji_400Regular.ttf'))).toBeNull();
  });
});

describe('the terms of a font', () => {
  it('are those of its names 13 and 14', () => {
    const read = readFontTables(fontFile('eb-garamond/400Regular/EBGaramond_400Regular.ttf'));
    if (!read.ok) throw new RangeError(read.problem);
    expect(read.value.licence).toMatch(/^This Font Software is licensed under the SIL Open Font License/);
    expect(read.value.licenceAddress).toMatch(/^https?:\/\//);
  });

  it('are known to the library, with whether the family is installed', async () => {
    const own = textFiles.map((file) => ({ ...file, family: 'Own', installed: true }));
    const library = await loadFontLibrary([...textFiles, ...own], fontModules());
    expect(library.about('EB Garamond')).toMatchObject({ installed: false, embedding: 'installable' });
    expect(library.about('Own')).toMatchObject({ installed: true });
    expect(library.about('Own')?.licence).toContain('Open Font License');
    expect(library.about('Nowhere')).toBeNull();
  });
});

describe('the id of a face', () => {
  it('is plain and differs wherever families differ in letters beyond English', () => {
    const id = (family: string): string => faceId({ family, weight: 400, italic: true });
    expect(id('EB Garamond')).toBe('eb-garamond-400-italic');
    expect(new Set(['源ノ明朝', '源ノ角', 'Été', 'Ete'].map(id)).size).toBe(4);
    expect(id('源ノ明朝')).toMatch(/^[a-z0-9-]+$/);
  });
});
