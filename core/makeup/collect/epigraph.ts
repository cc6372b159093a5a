/**
 * Collects epigraphs. A long one stands in the design's narrower column like any quotation; a short one takes no more room
 * than its lines need, those balanced and ragged, in the middle of the column (at its left edge where the design centres
 * nothing), so that its source stands at their end and not far out in the white.
 */
import type { Node } from 'prosemirror-model';
import { balanced } from './balance.ts';
import type { Collector, Column } from './collector.ts';
import type { Stance } from './forms.ts';
import { raggedLook } from './looks.ts';
import { verseWidth } from './verse.ts';

/** Up to so many lines in all an epigraph is short. */
const MOST_SHORT = 4;
/** Its lines stand as written. */
const SHORT: Stance = { align: 'start', hanging: 0 };

export interface EpigraphSetting {
  readonly column: Column;
  readonly stance: Stance | null;
}

/** Where an epigraph stands in a column that the design narrowed for it, and how. */
export function epigraphSetting(collector: Collector, node: Node, column: Column): EpigraphSetting {
  let count = 0;
  let widest = 0;
  for (const block of node.children) {
    if (block.type.name === 'verse') {
      widest = Math.max(widest, verseWidth(collector, block, column));
      continue;
    }
    if (block.attrs['align'] === 'center') return { column, stance: null };
    const lines = shortLines(collector, block, column);
    if (block.type.name === 'paragraph') count += lines.length;
    widest = Math.max(widest, ...lines);
  }
  if (count > MOST_SHORT || widest >= column.measure) return { column, stance: null };
  const free = collector.design.titlePage.align === 'start' ? 0 : column.measure - widest;
  return { column: { ...column, left: column.left + free / 2, measure: widest }, stance: SHORT };
}

/** Widths of the balanced lines of a text block, with a hair more for rounding. */
function shortLines(collector: Collector, block: Node, column: Column): readonly number[] {
  const { shop, design } = collector;
  const look = raggedLook(block.type.name === 'attribution' ? design.attribution : column.look);
  const text = shop.spans.of({ node: block, look, numberOf: collector.numberOf });
  const { broken } = balanced(shop, text, shop.ragged(look, column.measure, 'start'));
  return broken.lines.map((line) => line.width + 0.01);
}
