/** Collects figures: scaled to the measure and the page, on whole lines of the grid, their captions kept with them. */
import type { Node } from 'prosemirror-model';
import type { Size } from '#base';
import { FORBIDDEN, fixedItem, type Paint, type Row, solidRow, spaceRow } from '../flow.ts';
import { balanced } from './balance.ts';
import type { Collector, Column, Picture } from './collector.ts';
import { rowsOf, withPenalty } from './rows.ts';

/** A picture without a wish of its own is printed at 300 pixels to the inch... */
const FINE = 300;
/** ...or larger, down to this many, where it would be less than `LEAST_SHARE` of the measure. */
const COARSE = 150;
const LEAST_SHARE = 0.6;
/** Lines that a page keeps free beside the tallest figure. */
const ROOM_FOR_CAPTION = 3;
/** From this share of the page's lines on, a figure with its caption has a page of its own. */
const OWN_PAGE = 0.75;
/** Height of capitals: the picture's head stands at the height of a line's capitals. */
const CAPITALS = 0.65;

/** A figure with its caption. */
export function addFigure(collector: Collector, node: Node, column: Column): void {
  const asset = String(node.attrs['asset']);
  const picture = collector.picture(asset);
  if (!picture) {
    addCaptionAlone(collector, node, column);
    return;
  }
  const place = node.attrs['place'] as 'page' | 'bleed' | null;
  const captions = node.firstChild ? captionRows(collector, node.firstChild, column) : [];
  if (place === 'bleed' && addPlate(collector, node, picture, captions)) return;
  const { leading, size: em, lines } = collector.design.frame;
  const room = { width: column.measure, height: (lines - ROOM_FOR_CAPTION - 1) * leading + em * CAPITALS };
  const wish = place === 'page' ? 1 : (node.attrs['width'] as number | null);
  const size = sizeOf(picture.pixels, wish, room);
  const height = Math.max(1, Math.ceil((size.height - em * CAPITALS) / leading - 0.01) + 1);
  const block = String(node.attrs['id']);
  collector.white(1);
  const figure = solidRow({
    height,
    penalty: captions.length > 0 ? FORBIDDEN : 0,
    start: { block, offset: 0 },
    paint: {
      place: (_line, x, y, page) =>
        page.add({
          kind: 'image',
          asset,
          alt: node.attrs['decorative'] ? '' : String(node.attrs['alt']),
          at: { block, offset: 0 },
          x: x + column.left + (column.measure - size.width) / 2,
          y: y - (height - 1) * leading - em * CAPITALS,
          ...size,
        }),
    },
  });
  const rows = onOwnPage([figure, ...captions], lines, place === null ? OWN_PAGE : 0);
  collector.add({ ...fixedItem(...rows), floats: true });
  collector.white(1);
}

/** White between a plate and its caption, in lines. */
const BELOW_PLATE = 1;

/** A picture to the edges of its page, with its caption in what is left at the foot; false where that holds no picture. */
function addPlate(collector: Collector, node: Node, { pixels }: Picture, captions: readonly Row[]): boolean {
  const { lines } = collector.design.frame;
  const below = captions.reduce((sum, row) => sum + row.height, captions.length > 0 ? BELOW_PLATE : 0);
  if (!pixels || below > lines / 3 || captions.some((row) => row.notes.length > 0)) return false;
  const at = { block: String(node.attrs['id']), offset: 0 };
  const alt = node.attrs['decorative'] ? '' : String(node.attrs['alt']);
  const plate = { asset: String(node.attrs['asset']), alt, at, shape: pixels, toFoot: below === 0 };
  const row = solidRow({
    height: lines - below,
    penalty: below > 0 ? FORBIDDEN : 0,
    start: at,
    paint: unpainted(),
    plate,
  });
  const rows = below > 0 ? [row, spaceRow(BELOW_PLATE, true), ...captions] : [row];
  collector.add({ ...fixedItem(...rows), floats: true });
  return true;
}

/** A plate is painted with its page. Its own paint is what tells it from others. */
function unpainted(): Paint {
  return { place: () => undefined };
}

/** The rows of a figure of some height, with white above and below that makes them as high as the page; others as they are. */
function onOwnPage(rows: readonly Row[], lines: number, from: number): readonly Row[] {
  const used = rows.reduce((sum, row) => sum + row.height, 0);
  const noted = rows.some((row) => row.notes.length > 0);
  if (used < lines * from || used >= lines || noted) return rows;
  // The optical middle lies a little above the other one.
  const above = Math.floor((lines - used) * 0.4);
  const head = above > 0 ? [spaceRow(above, true)] : [];
  const foot = { ...spaceRow(lines - used - above, true), penalty: 0 };
  return [...head, ...rows.map((row) => withPenalty(row, FORBIDDEN)), foot];
}

/** The text of a figure whose picture is not there. */
function addCaptionAlone(collector: Collector, node: Node, column: Column): void {
  if (!node.firstChild) return;
  collector.white(1);
  collector.addRows(captionRows(collector, node.firstChild, column));
  collector.white(1);
}

function captionRows(collector: Collector, node: Node, column: Column): ReturnType<typeof rowsOf> {
  const { shop, design } = collector;
  const text = shop.spans.of({ node, look: design.caption, numberOf: collector.numberOf });
  if (text.spans.length === 0) return [];
  const inset = column.measure * 0.08;
  const align = design.caption.align === 'justify' ? 'center' : design.caption.align;
  const { broken, left } = balanced(shop, text, shop.ragged(design.caption, column.measure - 2 * inset, align));
  return rowsOf(collector.watch(broken), { orphans: 99, left: column.left + inset + left });
}

/** The printed size: the wish or the picture's own, never beyond the room. */
function sizeOf(
  pixels: { readonly width: number; readonly height: number } | null,
  wish: number | null,
  room: Size,
): Size {
  const shape = pixels ?? { width: 3, height: 2 };
  const wanted = wish === null ? ownWidth(pixels, room.width) : Math.min(1, Math.max(0.05, wish)) * room.width;
  const scale = Math.min(Math.min(wanted, room.width) / shape.width, room.height / shape.height);
  return { width: shape.width * scale, height: shape.height * scale };
}

function ownWidth(pixels: { readonly width: number } | null, measure: number): number {
  if (!pixels) return measure * LEAST_SHARE;
  const fine = (pixels.width / FINE) * 72;
  const coarse = (pixels.width / COARSE) * 72;
  return Math.max(fine, Math.min(coarse, measure * LEAST_SHARE));
}
