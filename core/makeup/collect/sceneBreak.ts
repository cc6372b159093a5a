/** Collects scene breaks: white inside a page, an ornament at its edges, or an ornament everywhere by design. */
import type { Node } from 'prosemirror-model';
import type { Anchor, Points } from '#base';
import { type BreakMark, linesOfMark, type Ornament, type PictureMark } from '#design';
import type { Paint, Row } from '../flow.ts';
import type { Collector, Column } from './collector.ts';

/** Height of lower-case letters as a share of the size. */
const X_HEIGHT = 0.4;
/** A break that falls at an edge of a page costs a little: the reader must not be left in doubt. */
const AT_EDGE = 8;

/** A scene break: more than the white between paragraphs, where there is any. White that waits before it is part of it. */
export function addSceneBreak(collector: Collector, node: Node, column: Column): void {
  const { sceneBreak } = collector.design;
  const mark = (node.attrs['mark'] as 'space' | 'ornament' | null) ?? sceneBreak.mark;
  const at: Anchor = { block: String(node.attrs['id']), offset: 0 };
  const paint = (rise: number): Paint => markPaint(collector, column, { mark: sceneBreak.shown, rise, at });
  const { size, leading } = collector.design.frame;
  const lines = linesOfMark(sceneBreak.shown, leading / size);
  const more = collector.design.paragraphs === 'spaced' ? 1 : 0;
  const own = mark === 'ornament' ? sceneBreak.lines + lines : sceneBreak.lines + more;
  // At an edge of a page stand the mark and a white line towards the text.
  const edge = lines + 1;
  const height = Math.max(own, collector.takeWhite());
  const row: Row = {
    kind: 'break',
    height,
    penalty: AT_EDGE,
    paint: mark === 'ornament' ? paint((height - 1) / 2) : null,
    line: 0,
    start: null,
    hyphenated: false,
    notes: [],
    edge: { head: paint((lines - 1) / 2 + 1), foot: paint((lines - 1) / 2), height: edge },
  };
  collector.addAiry(row);
  collector.flush = true;
}

interface MarkRequest {
  readonly mark: BreakMark;
  /** Lines from the row's last baseline up to the middle line of the mark. */
  readonly rise: number;
  readonly at: Anchor;
}

function markPaint(collector: Collector, column: Column, { mark, ...place }: MarkRequest): Paint {
  return mark.kind === 'drawn'
    ? ornamentPaint(collector, column, { ornament: mark.ornament, ...place })
    : picturePaint(collector, column, { mark, ...place });
}

/** A picture in the middle of the measure, at its height or as wide as the measure. */
function picturePaint(
  collector: Collector,
  column: Column,
  { mark, rise, at }: MarkRequest & { readonly mark: PictureMark },
): Paint {
  const { leading } = collector.design.frame;
  const width = Math.min(mark.height * leading * mark.aspect, column.measure);
  const depth = width / mark.aspect;
  const middle = middleOf(collector, rise);
  return keptPaint(mark, `${width} ${middle} ${column.left} ${column.measure} ${at.block} ${at.offset}`, () => ({
    place: (_line, x, y, page) => {
      page.add({
        kind: 'image',
        asset: mark.asset,
        alt: '',
        at,
        x: x + column.left + (column.measure - width) / 2,
        y: y + middle - depth / 2,
        width,
        height: depth,
        furniture: true,
      });
    },
  }));
}

/** From a row's last baseline to the middle of the lower-case letters, so many lines up. */
function middleOf(collector: Collector, rise: number): Points {
  const { size, leading } = collector.design.frame;
  return -rise * leading - (size * X_HEIGHT) / 2;
}

export interface OrnamentRequest {
  readonly ornament: Ornament;
  /** Lines from the row's last baseline up to the line on which the ornament stands. */
  readonly rise: number;
  readonly at: Anchor | null;
  /** Of its natural size. */
  readonly scale?: number;
}

/** Paints kept for one ornament: a page is known again by them. */
const MOST_PAINTS = 4096;
const paints = new WeakMap<Ornament | PictureMark, Map<string, Paint>>();

function keptPaint(of: Ornament | PictureMark, key: string, made: () => Paint): Paint {
  const known = paints.get(of) ?? new Map<string, Paint>();
  paints.set(of, known);
  const paint = known.get(key) ?? made();
  if (known.size >= MOST_PAINTS) known.clear();
  known.set(key, paint);
  return paint;
}

/** An ornament in the middle of the measure, at the middle height of the lower-case letters of its line. */
export function ornamentPaint(collector: Collector, column: Column, request: OrnamentRequest): Paint {
  const { ornament, at } = request;
  const width = Math.min(ornament.width * collector.design.frame.size * (request.scale ?? 1), column.measure);
  const depth = (width * ornament.viewBox.height) / ornament.viewBox.width;
  const middle = middleOf(collector, request.rise);
  return keptPaint(ornament, `${width} ${middle} ${column.left} ${column.measure} ${at?.block} ${at?.offset}`, () => ({
    place: (_line, x, y, page) => {
      const left: Points = x + column.left + (column.measure - width) / 2;
      page.add({
        kind: 'path',
        x: left,
        y: y + middle - depth / 2,
        width,
        height: depth,
        path: ornament.path,
        viewBox: ornament.viewBox,
        ...(at ? { at } : {}),
      });
    },
  }));
}
