/** Collects scene breaks: white inside a page, an ornament at its edges, or an ornament everywhere by design. */
import type { Node } from 'prosemirror-model';
import type { Anchor, Points } from '#base';
import type { Ornament } from '#design';
import type { Paint, Row } from '../flow.ts';
import type { Collector, Column } from './collector.ts';

/** Height of lower-case letters as a share of the size. */
const X_HEIGHT = 0.4;
/** A break that falls at an edge of a page costs a little: the reader must not be left in doubt. */
const AT_EDGE = 8;

/** Lines that a break takes at an edge of a page: its ornament, and a white line towards the text. */
const EDGE_LINES = 2;

/** A scene break. White that waits before it is part of it. */
export function addSceneBreak(collector: Collector, node: Node, column: Column): void {
  const { sceneBreak } = collector.design;
  const mark = (node.attrs['mark'] as 'space' | 'ornament' | null) ?? sceneBreak.mark;
  const at: Anchor = { block: String(node.attrs['id']), offset: 0 };
  const paint = (rise: number): Paint => ornamentPaint(collector, column, { ornament: sceneBreak.ornament, rise, at });
  const own = mark === 'ornament' ? sceneBreak.lines + 1 : sceneBreak.lines;
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
    edge: { head: paint(EDGE_LINES - 1), foot: paint(0), height: EDGE_LINES },
  };
  collector.addAiry(row);
  collector.flush = true;
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
const paints = new WeakMap<Ornament, Map<string, Paint>>();

/** An ornament in the middle of the measure, at the middle height of the lower-case letters of its line. */
export function ornamentPaint(collector: Collector, column: Column, request: OrnamentRequest): Paint {
  const { ornament, at } = request;
  const { size, leading } = collector.design.frame;
  const width = ornament.width * size * (request.scale ?? 1);
  const depth = (width * ornament.viewBox.height) / ornament.viewBox.width;
  const middle = -request.rise * leading - (size * X_HEIGHT) / 2;
  const known = paints.get(ornament) ?? new Map<string, Paint>();
  paints.set(ornament, known);
  const key = `${width} ${middle} ${column.left} ${column.measure} ${at?.block} ${at?.offset}`;
  const paint: Paint = known.get(key) ?? {
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
  };
  if (known.size >= MOST_PAINTS) known.clear();
  known.set(key, paint);
  return paint;
}
