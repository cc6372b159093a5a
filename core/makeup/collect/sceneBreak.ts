/** Collects scene breaks: white inside a page, an ornament at its edges, or an ornament everywhere by design. */
import type { Node } from 'prosemirror-model';
import type { Anchor, Points } from '#base';
import type { Ornament } from '#design';
import type { Paint, Row } from '../flow.ts';
import { fixedItem } from '../flow.ts';
import type { Collector, Column } from './collector.ts';

/** Height of lower-case letters as a share of the size: the optical middle between two lines lies above the middle. */
const X_HEIGHT = 0.4;
/** A break that falls at an edge of a page costs a little: the reader must not be left in doubt. */
const AT_EDGE = 8;

/** A scene break. */
export function addSceneBreak(collector: Collector, node: Node, column: Column): void {
  const { sceneBreak } = collector.design;
  const mark = (node.attrs['mark'] as 'space' | 'ornament' | null) ?? sceneBreak.mark;
  const at: Anchor = { block: String(node.attrs['id']), offset: 0 };
  const paint = (height: number): Paint =>
    ornamentPaint(collector, column, { ornament: sceneBreak.ornament, height, at });
  const height = mark === 'ornament' ? sceneBreak.lines + 1 : sceneBreak.lines;
  const row: Row = {
    kind: 'break',
    height,
    penalty: AT_EDGE,
    paint: mark === 'ornament' ? paint(height) : null,
    line: 0,
    start: null,
    hyphenated: false,
    notes: [],
    edge: { paint: paint(1), height: 2 },
  };
  collector.add(fixedItem(row));
  collector.flush = true;
}

/** An ornament in the middle of the measure and of the white that `height` lines leave between two lines of text. */
export function ornamentPaint(
  collector: Collector,
  column: Column,
  request: {
    readonly ornament: Ornament;
    readonly height: number;
    readonly at: Anchor | null;
    readonly scale?: number;
  },
): Paint {
  const { ornament, at } = request;
  const { size, leading } = collector.design.frame;
  const width = ornament.width * size * (request.scale ?? 1);
  const depth = (width * ornament.viewBox.height) / ornament.viewBox.width;
  // From the baseline above the white to that of the last white line, the text below reaching up by its x-height.
  const middle = (leading * (request.height + 1) - size * X_HEIGHT) / 2 - leading * request.height;
  return {
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
}
