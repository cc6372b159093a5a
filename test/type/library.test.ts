/** Which files a library reads, and when. */
import { describe, expect, it } from 'vitest';
import { loadFontLibrary, type UnreadFontFile } from '#type';
import { fontModules, hebrewFile, textFiles } from './fonts.ts';

function unread(family: string, opened: string[]): readonly UnreadFontFile[] {
  return textFiles.map(({ bytes, weight, italic }) => ({
    family,
    weight,
    italic,
    read: () => {
      opened.push(`${family} ${weight}${italic ? ' italic' : ''}`);
      return bytes;
    },
  }));
}

describe('a font library', () => {
  it('reads a family when it is first asked for, each of its files once', async () => {
    const opened: string[] = [];
    const library = await loadFontLibrary([...unread('One', opened), ...unread('Two', opened)], fontModules());
    expect(opened).toEqual([]);
    expect(library.family('Two').italic).toMatchObject({ family: 'Two', weight: 400, italic: true });
    expect(library.family('Two').bold).toBe(library.face('two-700'));
    expect(opened).toEqual(['Two 400', 'Two 400 italic', 'Two 700', 'Two 700 italic']);
  });

  it('takes the nearest cut where a family lacks one', async () => {
    const [regular] = textFiles;
    const family = (await loadFontLibrary([regular!, hebrewFile], fontModules())).family('EB Garamond');
    expect(family.boldItalic).toBe(family.regular);
  });

  it('knows its fallback faces and no family of theirs', async () => {
    const library = await loadFontLibrary([...textFiles, hebrewFile], fontModules());
    expect(library.fallbacks.map((face) => face.family)).toEqual(['Noto Serif Hebrew']);
    expect(() => library.family('Noto Serif Hebrew')).toThrow('"Noto Serif Hebrew" was not loaded');
  });

  it('names a file that is no font', async () => {
    const broken = { family: 'Broken', weight: 400, italic: false, bytes: new Uint8Array(40) };
    await expect(loadFontLibrary([broken], fontModules())).rejects.toThrow('Broken 400');
  });
});
