/** Collects lists: figures or bullets in the indent, items as paragraphs beside them, lists within lists further in. */
import type { Node } from 'prosemirror-model';
import type { Points } from '#base';
import { type FlowItem, lineRow, type Paint, type Row } from '../flow.ts';
import type { Collector, Column } from './collector.ts';
import { once } from './once.ts';
import { Together } from './rows.ts';

/** Marks of unordered items, by depth. */
const BULLETS = ['\u2022', '\u2013'] as const;
/** Between a figure or bullet and its text, in ems. */
const MARKER_GAP = 0.5;

/** Lists within lists are indented no further once their text is this narrow, as a share of the measure. */
const LEAST_MEASURE = 0.4;

type AddBlocks = (collector: Collector, blocks: readonly Node[], column: Column) => void;

/** A list; `addBlocks` adds what its items hold. */
export function addList(collector: Collector, node: Node, column: Column, addBlocks: AddBlocks, depth = 0): void {
  const deep = column.measure < collector.design.frame.measure * LEAST_MEASURE;
  const indent = deep ? 0 : Math.min(collector.design.listIndent, column.measure / 4);
  const inner: Column = { ...column, left: column.left + indent, measure: column.measure - indent };
  const start = collector.items.length;
  collector.leadInWaits = false;
  if (depth === 0) collector.white(1);
  node.children.forEach((item, index) => {
    const from = collector.items.length;
    addItem(collector, item, inner, addBlocks, depth);
    const marker = node.attrs['ordered']
      ? `${Number(node.attrs['start']) + index}.`
      : (BULLETS[depth % 2] ?? BULLETS[0]);
    markFirstRow(collector, from, { marker, inner, block: String(item.attrs['id']) });
  });
  collector.inItem = false;
  if (depth === 0) {
    collector.holdEdges(start);
    collector.white(1);
  }
  collector.flush = false;
}

function addItem(collector: Collector, item: Node, inner: Column, addBlocks: AddBlocks, depth: number): void {
  collector.flush = true;
  collector.inItem = true;
  for (const block of item.children) {
    if (block.type.name === 'list') addList(collector, block, inner, addBlocks, depth + 1);
    else addBlocks(collector, [block], inner);
  }
}

/** Puts the marker before the first row of text that an item added. */
function markFirstRow(
  collector: Collector,
  from: number,
  mark: { readonly marker: string; readonly inner: Column; readonly block: string },
): void {
  for (let index = from; index < collector.items.length; index++) {
    const item = collector.items[index];
    const first = item?.rows[0];
    if (!item || first?.kind !== 'line' || !first.paint) continue;
    const { shop } = collector;
    const marker = shop.line(mark.marker, mark.inner.look, mark.block);
    const x = mark.inner.left - marker.width - mark.inner.look.size * MARKER_GAP;
    collector.items[index] = withMarker(item, first, first.paint, { paint: once(marker), x, y: 0 });
    return;
  }
}

function withMarker(
  item: FlowItem,
  first: Row,
  paint: Paint,
  marker: { readonly paint: Paint; readonly x: Points; readonly y: Points },
): FlowItem {
  const together = new Together([marker, { paint, x: 0, y: 0 }]);
  return {
    rows: [lineRow({ ...first, paint: together }), ...item.rows.slice(1)],
    demerits: item.demerits,
    variants: null,
  };
}
