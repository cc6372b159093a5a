import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { expect, test } from 'vitest';
import { COVER_SIZE, type CoverRequest, coverAlt, coverSvg } from '#ebook';
import { coverOutline } from '#engine';
import { fitLines } from '../../core/ebook/coverfit.ts';
import { rasterise } from '../../electron/services/cover-image.ts';
import { pngOf } from '../../electron/services/png.ts';
import { METADATA } from '../builders/book.ts';
import { launchChromium } from '../tools/chromium.ts';
import { testLibrary } from '../type/fonts.ts';

const require = createRequire(import.meta.url);
const wasm = async (): Promise<Uint8Array> => readFileSync(require.resolve('@resvg/resvg-wasm/index_bg.wasm'));

const library = await testLibrary();

/** Letters half an em wide, drawn as boxes. */
const boxes: CoverRequest['outline'] = (text) => ({
  path: `M0 0H${text.length * 500}V-660H0Z`,
  width: text.length * 500,
});

/** Left and right end and baseline of each line of type. */
function linesOf(svg: string): readonly { readonly left: number; readonly right: number; readonly baseline: number }[] {
  const parser = new SaxesParser();
  const lines: { left: number; right: number; baseline: number }[] = [];
  parser.on('opentag', ({ attributes }) => {
    const place = /translate\((\S+) (\S+)\) scale\((\S+)\)/.exec(String(attributes['transform'] ?? ''));
    const width = /^M0 0H(\d+)/.exec(String(attributes['d'] ?? ''));
    if (!place || !width) return;
    const left = Number(place[1]);
    lines.push({ left, right: left + Number(width[1]) * Number(place[3]), baseline: Number(place[2]) });
  });
  parser.write(svg).close();
  return lines;
}

test('any title, subtitle and author stand inside the frame, one line under the other', () => {
  const words = fc.array(fc.string({ minLength: 1, maxLength: 14 }), { maxLength: 24 }).map((list) => list.join(' '));
  fc.assert(
    fc.property(words, words, words, (title, subtitle, author) => {
      const lines = linesOf(coverSvg({ title, subtitle, author, outline: boxes }));
      for (const each of lines) {
        expect(each.left).toBeGreaterThan(150);
        expect(each.right).toBeLessThan(COVER_SIZE.width - 150);
      }
      const baselines = lines.map((each) => each.baseline);
      expect([...baselines].sort((a, b) => a - b)).toEqual(baselines);
      expect(Math.max(0, ...baselines)).toBeLessThan(COVER_SIZE.height - 250);
    }),
    { numRuns: 200 },
  );
});

test('lines are broken for the largest type, without lost articles', () => {
  const widthOf = (text: string): number => text.length * 500;
  const limits = { measure: 1220, largest: 400, depth: 1120, leading: 1.04, mostLines: 6 };
  const lines = (title: string): readonly string[] => fitLines(title.split(' '), widthOf, limits).lines;
  expect(lines('Weir')).toEqual(['Weir']);
  expect(lines('The Salt Ledger')).toEqual(['The Salt', 'Ledger']);
  expect(lines('A House of Reeds')).toEqual(['A House', 'of Reeds']);
  expect(fitLines([], widthOf, limits).lines).toEqual([]);
});

// FACTS D-08: portrait, height to width near 1.6, shortest side 1400 pixels at least.
test('the picture has the shape and size that shops ask for, and the same bytes each time', async () => {
  const { title, subtitle } = { title: 'The Salt Ledger', subtitle: 'A Novel in Two Tides' };
  const outline = coverOutline(library.family('EB Garamond'), [], 'en');
  const svg = coverSvg({ title, subtitle, author: 'Ines Verhoeven', outline });
  expect(svg).not.toMatch(/<text|font-family|href/);
  const png = await rasterise(svg, wasm);
  const view = new DataView(png.buffer, png.byteOffset);
  expect([view.getUint32(0), view.getUint32(4)]).toEqual([0x89504e47, 0x0d0a1a0a]);
  // Colour type 2: red, green, blue, no transparency.
  expect([view.getUint8(24), view.getUint8(25)]).toEqual([8, 2]);
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  expect([width, height]).toEqual([1600, 2560]);
  expect(height / width).toBeCloseTo(1.6);
  expect(Buffer.compare(await rasterise(svg, wasm), png)).toBe(0);
});

test('a PNG reads back as it was painted', async () => {
  const rgba = new Uint8Array([
    255, 0, 0, 255, 0, 255, 0, 255, 0, 0, 255, 255, 9, 8, 7, 255, 1, 2, 3, 255, 250, 251, 252, 255,
  ]);
  const png = pngOf({ width: 3, height: 2, rgba });
  const href = `data:image/png;base64,${Buffer.from(png).toString('base64')}`;
  const browser = await launchChromium();
  try {
    const page = await browser.newPage();
    const read = await page.evaluate(async (source) => {
      const image = await createImageBitmap(await (await fetch(source)).blob());
      const canvas = new OffscreenCanvas(image.width, image.height);
      const context = canvas.getContext('2d');
      context?.drawImage(image, 0, 0);
      return [...(context?.getImageData(0, 0, image.width, image.height).data ?? [])];
    }, href);
    expect(read).toEqual([...rgba]);
  } finally {
    await browser.close();
  }
});

test('outlines stand on the baseline, upright, as wide as the shaper says', () => {
  const face = library.family('EB Garamond').regular;
  const outline = coverOutline(library.family('EB Garamond'), [], 'en');
  const { path, width } = outline('H', 'title');
  const ink = face.inkOf(face.glyphOf(0x48));
  expect(Math.min(...numbers(path, 1))).toBeCloseTo((-(ink?.[3] ?? 0) * 1000) / face.unitsPerEm, 0);
  expect(width).toBeCloseTo((face.advanceOf(face.glyphOf(0x48)) * 1000) / face.unitsPerEm, 5);
});

test('characters that the face lacks come from another, in reading order', () => {
  const [hebrew] = library.fallbacks;
  if (!hebrew) throw new RangeError('no fallback face');
  const outline = coverOutline(library.family('EB Garamond'), library.fallbacks, 'he');
  const { path, width } = outline('מים', 'title');
  const advance = [...'מים'].reduce(
    (sum, letter) => sum + hebrew.advanceOf(hebrew.glyphOf(letter.codePointAt(0) ?? 0)),
    0,
  );
  expect(path).not.toBe('');
  expect(width).toBeCloseTo((advance * 1000) / hebrew.unitsPerEm, -1);
});

/** Every second number of path data: 0 for x, 1 for y. */
function numbers(path: string, which: 0 | 1): readonly number[] {
  return (path.match(/-?\d*\.?\d+/g) ?? []).map(Number).filter((_, index) => index % 2 === which);
}

test('the cover says what it is, in the language of the book', () => {
  expect(coverAlt(METADATA)).toBe('Cover of The Salt Ledger by Ines Verhoeven');
  expect(coverAlt({ ...METADATA, language: 'fr-CA' })).toBe('Couverture : The Salt Ledger, de Ines Verhoeven');
  expect(coverAlt({ ...METADATA, contributors: [] })).toBe('Cover of The Salt Ledger');
});
