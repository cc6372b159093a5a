import type { Node } from 'prosemirror-model';
import { describe, expect, it } from 'vitest';
import { assetIdOf } from '#base';
import type { Asset } from '#book';
import { type ImageItem, needBleed, type Page } from '#page';
import { book, caption, chapter, figure, p } from '../builders/book.ts';
import { linesOf, madeUp, runsOf } from './laws.ts';
import { lines, short } from './text.ts';

describe('figures', () => {
  const bytes = new Uint8Array([1, 2, 3]);
  const picture: Asset = {
    id: assetIdOf(bytes),
    bytes,
    mediaType: 'image/png',
    name: 'x.png',
    pixels: { width: 1200, height: 900 },
  };
  const assets = new Map([[picture.id, picture]]);
  const drawing = (attributes = {}) => figure(picture.id, { alt: 'A weir', ...attributes }, caption('The weir in May'));

  it('are scaled to the measure, stand on whole lines, and keep their caption', () => {
    const { pages } = madeUp(book(chapter('One', p(lines(9, 'a')), drawing(), p(lines(9, 'b')))), { assets });
    const page = pages.find((each) => each.items.some((one) => one.kind === 'image'))!;
    const image = page.items.find((one) => one.kind === 'image')!;
    expect(image).toMatchObject({ alt: 'A weir' });
    expect(image.width).toBeCloseTo(288); // 1200 pixels at 300 to the inch
    expect(image.height).toBeCloseTo(216);
    expect(linesOf(page)).toContain('The weir in May');
  });

  it('let the text after them fill a page that they do not fit on', () => {
    const text = book(chapter('One', p(lines(14, 'a')), drawing(), p(lines(30, 'b')), p(lines(9, 'c'))));
    const { pages } = madeUp(text, { assets });
    expect(linesOf(pages[0]!).map(short)).toContain('b5');
    expect(linesOf(pages[1]!)[1]).toBe('[picture]');
    expect(short(linesOf(pages[1]!)[3]!)).toMatch(/^b(8|9|10)$/);
  });

  it('leave their caption where the picture is missing', () => {
    const { pages } = madeUp(book(chapter('One', p(lines(4)), drawing())));
    expect(linesOf(pages[0]!)).toContain('The weir in May');
  });

  it('shrink to the height of a page', () => {
    const tall = { ...picture, pixels: { width: 900, height: 4000 } };
    const { pages, design } = madeUp(book(chapter('One', drawing({ width: 1 }))), {
      assets: new Map([[tall.id, tall]]),
    });
    const image = pages.flatMap((each) => each.items).find((one) => one.kind === 'image')!;
    expect(image.height).toBeLessThan(design.frame.lines * design.frame.leading);
    expect(image.width / image.height).toBeCloseTo(900 / 4000);
  });
});

describe('plates', () => {
  const shapes = { tall: { width: 1000, height: 1800 }, wide: { width: 1800, height: 1000 } };
  const made = (shape: keyof typeof shapes, before: number, ...content: readonly Node[]) => {
    const asset: Asset = {
      id: 'e'.repeat(64),
      bytes: new Uint8Array(),
      mediaType: 'image/png',
      name: 'x.png',
      pixels: shapes[shape],
    };
    const plate = figure(asset.id, { alt: 'The flood', place: 'bleed' }, ...content);
    const text = book(chapter('One', p(lines(before, 'a')), plate, p(lines(60, 'b'))));
    const { pages } = madeUp(text, { assets: new Map([[asset.id, asset]]) });
    const page = pages.find((each) => each.items.some((one) => one.kind === 'image'))!;
    return { page, image: page.items.find((one): one is ImageItem => one.kind === 'image')!, pages };
  };

  it.each([
    ['tall', 23],
    ['wide', 59],
  ] as const)('run over the edges of a page of their own, cut evenly, without head and folio (%s)', (shape, before) => {
    const { page, image } = made(shape, before);
    expect(page.items).toHaveLength(1);
    // FACTS P-04: an eighth of an inch beyond the trim, and nothing at the spine.
    const left = page.side === 'recto' ? 0 : -9;
    expect(image.clip).toEqual({ x: left, y: -9, width: 405, height: 630 });
    expect(image.width / image.height).toBeCloseTo(shapes[shape].width / shapes[shape].height);
    expect(image.x).toBeLessThanOrEqual(left + 1e-6);
    expect(image.y).toBeLessThanOrEqual(-9 + 1e-6);
    expect(image.x + image.width).toBeGreaterThanOrEqual(left + 405 - 1e-6);
    expect(image.y + image.height).toBeGreaterThanOrEqual(621 - 1e-6);
    expect(page.folio.printed).toBe(false);
    expect(needBleed([page])).toBe(true);
  });

  it('let the text go on to the page before them', () => {
    const { page, pages } = made('tall', 10);
    expect(lastLine(pages[page.index - 1]!)).toMatch(/^b\d/);
    expect(needBleed(pages.filter((each) => each !== page))).toBe(false);
  });

  it('leave room for their caption at the foot', () => {
    const { page, image } = made('tall', 23, caption('The flood of May'));
    const words = runsOf(page);
    expect(words.map((run) => run.text)).toEqual(['The flood of May']);
    expect(image.clip!.y + image.clip!.height).toBeLessThan(words[0]!.y - 14);
  });

  it('may also stand inside the text block, as large as that allows', () => {
    const asset: Asset = {
      id: 'e'.repeat(64),
      bytes: new Uint8Array(),
      mediaType: 'image/png',
      name: 'x.png',
      pixels: shapes.wide,
    };
    const plate = figure(asset.id, { alt: 'The flood', place: 'page' }, caption('The flood'));
    const text = book(chapter('One', p(lines(9, 'a')), plate, p(lines(60, 'b'))));
    const { pages } = madeUp(text, { assets: new Map([[asset.id, asset]]) });
    const page = pages.find((each) => each.items.some((one) => one.kind === 'image'))!;
    expect(page.items.find((one) => one.kind === 'image')).toMatchObject({ width: 300 });
    expect(runsOf(page).map((run) => run.text)).toEqual(['The flood']);
  });
});

/** The last line of text on a page, in short. */
function lastLine(page: Page): string {
  return short(runsOf(page).at(-1)!.text);
}
