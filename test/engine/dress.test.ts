/** Fonts and marks that are or are not there: what stands in for them, what the author is told, what is printed. */
import { describe, expect, it } from 'vitest';
import type { EditionId } from '#base';
import type { Asset, Book, Json } from '#book';
import { resolveForEbook } from '#design';
import { type EbookParts, Engine } from '#engine';
import { preflight } from '#preflight';
import { type FontFile, fontTable, loadFontLibrary } from '#type';
import { book, bookValue, chapter, EBOOK, em, PRINT, p, sceneBreak } from '../builders/book.ts';
import { fontFile, fontModules, textFiles } from '../type/fonts.ts';

const PICTURE: Asset = {
  id: 'a'.repeat(64),
  bytes: new Uint8Array([1]),
  mediaType: 'image/png',
  name: 'anchor.png',
  pixels: { width: 600, height: 200 },
};

/** A book of two scenes whose editions follow one design of its own. */
function scenes(settings: { readonly [name: string]: Json }, assets: readonly Asset[] = []): Book {
  const text = book(chapter('One', p('A first scene. '.repeat(60)), sceneBreak(), p('Another ', em('scene'), '.')));
  return bookValue(text, {
    designs: [{ id: 'own', settings }],
    editions: [
      { ...PRINT, design: 'own' },
      { ...EBOOK, design: 'own' },
    ],
    assets: new Map(assets.map((each) => [each.id, each])),
  });
}

const own: readonly FontFile[] = textFiles.map((file) => ({ ...file, family: 'Quayside', installed: true }));

async function engine(more: readonly FontFile[] = []): Promise<Engine> {
  const symbols: FontFile = {
    family: 'Noto Sans Symbols 2',
    weight: 400,
    italic: false,
    fallback: true,
    bytes: fontFile('noto-sans-symbols-2/400Regular/NotoSansSymbols2_400Regular.ttf'),
  };
  const library = await loadFontLibrary([...textFiles, symbols, ...more], fontModules());
  return new Engine({ library, hyphenators: new Map() });
}

const EBOOK_PARTS: EbookParts = {
  cover: { bytes: new Uint8Array([1]), mediaType: 'image/png', width: 1, height: 1, alt: '' },
  pageStarts: [],
  printIsbn: null,
  modified: 0,
  fontLicences: [],
};

/** The font with other licence bits: OS/2 fsType is at offset 8 of its table (OpenType specification, OS/2). */
function withLicence(font: Uint8Array, fsType: number): Uint8Array {
  const copy = Uint8Array.from(font);
  const table = fontTable(copy, 'OS/2');
  if (!table) throw new RangeError('the font has no OS/2 table');
  new DataView(table.buffer, table.byteOffset).setUint16(8, fsType);
  return copy;
}

function told(maker: Engine, value: Book, id: EditionId): readonly string[] {
  const edition = value.editions.find((each) => each.id === id);
  if (!edition) throw new RangeError(id);
  return maker.told(value, edition).map(({ rule, severity }) => `${rule} ${severity}`);
}

const inFamily = (family: string) => scenes({ base: 'quoin', text: { family }, display: { family } });
const withMark = (mark: Json, assets: readonly Asset[] = []) =>
  scenes({ base: 'quoin', sceneBreak: { mark: 'ornament', own: mark } }, assets);

describe('a font that is not on this computer', () => {
  it('is told with what stands in for it, even where the other font of the design is there', async () => {
    const value = scenes({ base: 'quoin', text: { family: 'Quayside' }, display: { family: 'Breakwater' } });
    const maker = await engine(own);
    const { display } = maker.settingsOf(value, 'print');
    expect(display.family).toBe('EB Garamond');
    const { findings } = maker.print(value, 'print').madeUp;
    expect(findings.find(({ rule }) => rule === 'fonts/missing')?.message).toMatch(
      /“Breakwater” is not .* EB Garamond stands in for it\.$/,
    );
  });

  it('has one that travels with the program in its place, is told of once, and the book is laid out', async () => {
    const maker = await engine();
    const value = inFamily('Quayside');
    expect(maker.settingsOf(value, 'print')).toMatchObject({
      text: { family: 'EB Garamond' },
      display: { family: 'EB Garamond' },
    });
    const { madeUp } = maker.print(value, 'print');
    expect(madeUp.findings.filter(({ rule }) => rule === 'fonts/missing')).toEqual([
      expect.objectContaining({
        severity: 'error',
        message: expect.stringMatching(/“Quayside” is not on this computer.*EB Garamond stands in for it\.$/),
      }),
    ]);
    expect(madeUp.pages[0]?.items.some((item) => item.kind === 'glyphs' && item.face.startsWith('eb-garamond'))).toBe(
      true,
    );
  });

  it('is set as soon as it is there, with nothing to tell of print', async () => {
    const maker = await engine(own);
    const value = inFamily('Quayside');
    expect(maker.settingsOf(value, 'print').text.family).toBe('Quayside');
    expect(told(maker, value, 'print')).toEqual([]);
    const { madeUp } = maker.print(value, 'print');
    const faces = madeUp.pages.flatMap(({ items }) =>
      items.flatMap((item) => (item.kind === 'glyphs' ? item.face : [])),
    );
    expect(new Set(faces)).toEqual(new Set(['own-quayside-400', 'own-quayside-400-italic']));
  });

  it('is the same settings each time, so that nothing is laid out again', async () => {
    const maker = await engine();
    const value = inFamily('Quayside');
    expect(maker.settingsOf(value, 'print')).toBe(maker.settingsOf(value, 'print'));
  });
});

describe('a font of this computer without all cuts', () => {
  it('is told of where the book asks for what it does not have', async () => {
    const [regular] = own;
    if (!regular) throw new RangeError('no font');
    // The tag of its small capitals is changed to one that nothing asks for (OpenType specification, "GSUB").
    const bytes = Uint8Array.from(regular.bytes);
    const tag = [...'smcp'].map((letter) => letter.charCodeAt(0));
    for (let at = 0; at < bytes.length - 4; at++) {
      if (tag.every((byte, place) => bytes[at + place] === byte)) bytes[at] = 'x'.charCodeAt(0);
    }
    const maker = await engine([{ ...regular, bytes }]);
    const value = inFamily('Quayside');
    expect(told(maker, value, 'print')).toEqual(['fonts/no-italic warning', 'fonts/no-small-capitals note']);
    expect(told(maker, value, 'ebook')).toEqual(['fonts/licence note']);
    expect(told(await engine(own), value, 'print')).toEqual([]);
    expect(told(maker, inFamily('EB Garamond'), 'print')).toEqual([]);
  });
});

describe('an ebook in a font of this computer', () => {
  it('tells of the licence that this takes, with the font’s own terms', async () => {
    const maker = await engine(own);
    const value = inFamily('Quayside');
    const edition = value.editions[1];
    if (!edition) throw new RangeError('no ebook');
    expect(maker.told(value, edition)).toEqual([
      expect.objectContaining({
        rule: 'fonts/licence',
        severity: 'note',
        message: expect.stringMatching(/“Quayside”.*permit embedding in ebooks\. The font says: “This Font Software/),
      }),
    ]);
    expect(told(maker, inFamily('EB Garamond'), 'ebook')).toEqual([]);
  });

  it('carries the font whole where its bits forbid subsets', async () => {
    const files = own.map((file) => ({ ...file, bytes: withLicence(file.bytes, 0x0100) }));
    const entries = (await engine(files)).ebook(inFamily('Quayside'), 'ebook', EBOOK_PARTS);
    const regular = entries.find(({ path }) => path.endsWith('own-quayside-400.ttf'));
    expect(regular?.bytes.length).toBe(files[0]?.bytes.length);
    const cut = (await engine(own)).ebook(inFamily('Quayside'), 'ebook', EBOOK_PARTS);
    const smaller = cut.find(({ path }) => path.endsWith('own-quayside-400.ttf'));
    expect(smaller?.bytes.length).toBeLessThan((files[0]?.bytes.length ?? 0) / 4);
  });

  it('carries the family of its titles too where that is another', async () => {
    const maker = await engine(own);
    const value = scenes({ base: 'quoin', display: { family: 'Quayside' } });
    const entries = maker.ebook(value, 'ebook', EBOOK_PARTS);
    const fonts = entries.filter(({ path }) => path.includes('/fonts/')).map(({ path }) => path);
    expect(fonts.some((path) => path.includes('own-quayside-400'))).toBe(true);
    expect(fonts.some((path) => path.includes('eb-garamond-400.'))).toBe(true);
  });
});

describe('a mark between scenes of the author’s own', () => {
  it('is a character of a font, as an outline in both media', async () => {
    const maker = await engine();
    const value = withMark({ kind: 'glyph', family: 'Noto Sans Symbols 2', character: '❦', size: 1.5 });
    const shown = maker.settingsOf(value, 'print').breakMark;
    if (shown?.kind !== 'drawn') throw new RangeError('not drawn');
    const { path, viewBox, width, id } = shown.ornament;
    expect(id).toBe('glyph-2766');
    const figures = (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
    expect(figures.length).toBeGreaterThan(20);
    // The ink lies in its box, which is as wide as it is said to be.
    figures.forEach((figure, at) => {
      expect(figure).toBeGreaterThanOrEqual(-1);
      expect(figure).toBeLessThanOrEqual((at % 2 === 0 ? viewBox.width : viewBox.height) + 1);
    });
    expect(width).toBeGreaterThan(0.5);
    const { madeUp } = maker.print(value, 'print');
    expect(
      madeUp.pages.flatMap(({ items }) => items).filter((item) => item.kind === 'path' && item.path === path),
    ).toHaveLength(1);
    expect(resolveForEbook(maker.settingsOf(value, 'ebook')).sceneBreak.shown).toEqual(shown);
    expect(told(maker, value, 'print')).toEqual([]);
  });

  it('is a picture at its height in lines, in the middle of the measure, on the grid', async () => {
    const maker = await engine();
    const mark = { kind: 'picture', asset: PICTURE.id, height: 2, colour: false };
    const { madeUp, view } = maker.print(withMark(mark, [PICTURE]), 'print');
    const { leading, inner, measure } = madeUp.design.frame;
    const images = madeUp.pages.flatMap(({ items }) => items.filter((item) => item.kind === 'image'));
    expect(images).toHaveLength(1);
    expect(images[0]?.height).toBeCloseTo(2 * leading, 6);
    expect(images[0]?.width).toBeCloseTo(6 * leading, 6);
    expect((images[0]?.x ?? 0) + (images[0]?.width ?? 0) / 2).toBeCloseTo(inner + measure / 2, 3);
    expect(images[0]).toMatchObject({ alt: '', furniture: true });
    // 600 pixels over 84 points are 514 to the inch.
    const found = preflight({ book: withMark(mark, [PICTURE]), view, pages: madeUp.pages });
    expect(found.filter(({ rule }) => rule === 'images/resolution')).toEqual([]);
  });

  it('is a drawing at its height in lines, with room for it, as an outline in both media', async () => {
    const maker = await engine();
    const viewBox = { width: 1000, height: 500 };
    const path = 'M0 0L1000 0L1000 500L0 500Z';
    const value = withMark({ kind: 'drawing', name: 'quay.svg', path, viewBox, height: 3 });
    const { madeUp } = maker.print(value, 'print');
    const { leading } = madeUp.design.frame;
    const drawn = madeUp.pages.flatMap(({ items }) => items.filter((item) => item.kind === 'path'));
    expect(drawn).toHaveLength(1);
    expect(drawn[0]?.height).toBeCloseTo(3 * leading, 6);
    expect(drawn[0]?.width).toBeCloseTo(6 * leading, 6);
    // No line of text stands beside it.
    const [from = 0, to = 0] = [drawn[0]?.y, (drawn[0]?.y ?? 0) + (drawn[0]?.height ?? 0)];
    const page = madeUp.pages.find(({ items }) => items.some((item) => item === drawn[0]));
    const baselines = page?.items.flatMap((item) => (item.kind === 'glyphs' && !item.furniture ? [item.y] : [])) ?? [];
    expect(baselines.filter((y) => y > from && y < to)).toEqual([]);
    const shown = resolveForEbook(maker.settingsOf(value, 'ebook')).sceneBreak.shown;
    expect(shown).toMatchObject({ kind: 'drawn', ornament: { path, name: 'quay.svg' } });
    expect(told(maker, value, 'print')).toEqual([]);
  });

  it('that prints too coarsely or in colour is told of once', async () => {
    const maker = await engine();
    const coarse = { ...PICTURE, pixels: { width: 90, height: 30 } };
    const mark = { kind: 'picture', asset: PICTURE.id, height: 2, colour: true };
    const value = withMark(mark, [coarse]);
    const { madeUp, view } = maker.print(value, 'print');
    const found = preflight({ book: value, view, pages: madeUp.pages });
    expect(found.filter(({ rule }) => rule === 'images/resolution')).toEqual([
      expect.objectContaining({
        severity: 'error',
        message: expect.stringContaining('for scene breaks, “anchor.png”,'),
      }),
    ]);
    expect(told(maker, value, 'print')).toEqual(['images/break-colour warning']);
    expect(told(maker, value, 'ebook')).toEqual([]);
    const [print] = value.editions;
    if (print?.kind !== 'print') throw new RangeError('no print edition');
    expect(maker.told(value, { ...print, paper: 'colour' })).toEqual([]);
  });

  it('that is not there has the drawn ornament in its place', async () => {
    const maker = await engine();
    for (const mark of [
      { kind: 'picture', asset: PICTURE.id, height: 2, colour: true },
      { kind: 'glyph', family: 'Nowhere', character: '❦', size: 1 },
      { kind: 'glyph', family: 'EB Garamond', character: '漢', size: 1 },
    ]) {
      const value = withMark(mark);
      expect(maker.settingsOf(value, 'print').breakMark).toBeUndefined();
      expect(told(maker, value, 'print')).toEqual(['fonts/break-mark warning']);
      const { madeUp } = maker.print(value, 'print');
      expect(madeUp.pages.flatMap(({ items }) => items).filter((item) => item.kind === 'path')).toHaveLength(1);
    }
  });
});
