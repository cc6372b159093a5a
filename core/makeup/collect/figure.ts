/** Collects figures: scaled to the measure and the page, on whole lines of the grid, their captions kept with them. */
import type { Node } from 'prosemirror-model';
import { FIGURE_CAPITALS, figureSize } from '#design';
import { FORBIDDEN, fixedItem, type Paint, type Row, solidRow, spaceRow } from '../flow.ts';
import { balanced } from './balance.ts';
import type { Collector, Column, Picture } from './collector.ts';
import { rowsOf, withPenalty } from './rows.ts';

/** From this share of the page's lines on, a figure with its caption has a page of its own. */
const OWN_PAGE = 0.75;
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
  const width = node.attrs['width'] as number | null;
  const size = figureSize(
    picture.pixels,
    { place: place === 'page' ? 'page' : null, width },
    collector.design.frame,
    column.measure,
  );
  const height = Math.max(1, Math.ceil((size.height - em * FIGURE_CAPITALS) / leading - 0.01) + 1);
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
          y: y - (height - 1) * leading - em * FIGURE_CAPITALS,
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
