/** Collects figures: scaled to the measure and the page, on whole lines of the grid, their captions kept with them. */
import type { Node } from 'prosemirror-model';
import type { Size } from '#base';
import { FORBIDDEN, fixedItem, type Row, solidRow, spaceRow } from '../flow.ts';
import { balanced } from './balance.ts';
import type { Collector, Column } from './collector.ts';
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
  const { leading, size: em, lines } = collector.design.frame;
  const room = { width: column.measure, height: (lines - ROOM_FOR_CAPTION - 1) * leading + em * CAPITALS };
  const size = sizeOf(picture.pixels, node.attrs['width'] as number | null, room);
  const height = Math.max(1, Math.ceil((size.height - em * CAPITALS) / leading - 0.01) + 1);
  const block = String(node.attrs['id']);
  const caption = node.firstChild;
  collector.white(1);
  const figure = solidRow({
    height,
    penalty: caption && caption.childCount > 0 ? FORBIDDEN : 0,
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
  const rows = [figure, ...(caption ? captionRows(collector, caption, column) : [])];
  collector.add({ ...fixedItem(...onOwnPage(rows, lines)), floats: true });
  collector.white(1);
}

/** A tall figure's rows, with white above and below that makes them as high as the page; others as they are. */
function onOwnPage(rows: readonly Row[], lines: number): readonly Row[] {
  const used = rows.reduce((sum, row) => sum + row.height, 0);
  const noted = rows.some((row) => row.notes.length > 0);
  if (used < lines * OWN_PAGE || used >= lines || noted) return rows;
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
  const { broken, left } = balanced(shop, text, shop.ragged(design.caption, column.measure - 2 * inset, 'center'));
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
