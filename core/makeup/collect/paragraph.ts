/** Collects paragraphs, subheads and attributions. */
import type { Node } from 'prosemirror-model';
import { flatText } from '#book';
import { leadInLength } from '#design';
import type { ParagraphShape, StyledText } from '#paragraph';
import { type FlowItem, FORBIDDEN, type Row, rowCount, type TextLines } from '../flow.ts';
import type { LeadIn } from '../spans.ts';
import type { ParagraphPlace } from '../workshop.ts';
import { balanced } from './balance.ts';
import type { Collector, Column } from './collector.ts';
import { addDropCap } from './dropCap.ts';
import { leadInFor } from './leadIn.ts';
import { raggedLook } from './looks.ts';
import { ParagraphLines, type RowRules, rowsOf, withPenalty } from './rows.ts';
import { type VariantRequest, variantsOf } from './variants.ts';

/** A paragraph of running text. */
export function addParagraph(collector: Collector, node: Node, column: Column): void {
  const align = node.attrs['align'] as 'start' | 'center' | 'end' | null;
  const { stance } = collector;
  if (align !== null) addAligned(collector, node, column, { align, hanging: 0 });
  else if (stance) addAligned(collector, node, column, stance);
  else addRunning(collector, node, column);
}

function addRunning(collector: Collector, node: Node, column: Column): void {
  if (collector.centred !== null) collector.white(1);
  collector.centred = null;
  const length = collector.leadInWaits ? leadInOf(node) : 0;
  const { kind } = collector.design.leadIn;
  collector.leadInWaits = false;
  partBySpace(collector);
  if (length > 0 && kind === 'dropCap' && addDropCap(collector, node, column)) {
    collector.flush = false;
    return;
  }
  const { look, measure, left } = column;
  const shape = collector.shop.running(look, measure, indentOf(collector));
  collector.nextIndent = null;
  const leadIn = length > 0 ? leadInFor(collector, { node, look, shape, length }) : null;
  const running: Running = { node, leadIn, look, left, shape };
  const item = (running.leadIn ? null : collector.shop.paragraph(node, running)) ?? runningItem(collector, running);
  collector.add(rowCount(item) === 1 && collector.flush ? loneLine(item, collector.belowHeading) : item);
  collector.flush = false;
  collector.belowHeading = false;
}

/** Where paragraphs are told apart by white, each has a line of it before it, save below a subhead and at an item's head. */
function partBySpace(collector: Collector): void {
  const { design, belowHeading, inItem } = collector;
  collector.inItem = false;
  if (design.paragraphs === 'spaced' && !belowHeading && !inItem) collector.white(1);
}

function indentOf({ nextIndent, flush, design }: Collector): number {
  if (nextIndent !== null) return nextIndent;
  const stands = design.paragraphs === 'spaced' || (flush && design.flushFirst);
  return stands ? 0 : design.indent;
}

const leadIns = new WeakMap<Node, number>();

/** Characters that the section's lead-in covers. */
function leadInOf(node: Node): number {
  const length = leadIns.get(node) ?? leadInLength(flatText(node));
  leadIns.set(node, length);
  return length;
}

interface Running extends ParagraphPlace {
  readonly node: Node;
  readonly leadIn: LeadIn | null;
}

/** The item of a paragraph, kept for the next time where nothing but the node and its place went into it. */
function runningItem(collector: Collector, running: Running): FlowItem {
  const { shop } = collector;
  const { node, leadIn, look, shape, left } = running;
  const text = shop.spans.of({ node, look, numberOf: collector.numberOf, leadIn });
  const reports = collector.missing.length + collector.overfull.length;
  const item = paragraphItem(collector, text, shape, { left });
  const reported = collector.missing.length + collector.overfull.length > reports;
  const plain = !leadIn && !reported && item.lines !== undefined;
  if (plain) shop.keepParagraph(node, running, item);
  return item;
}

/** Cost of a page end after a scene's first line where that is a whole paragraph. */
const LONE_FIRST_LINE = 40;

/** One line below a heading does not hold it (FACTS T-15: two lines); below a scene break it is a poor beginning. */
function loneLine(item: FlowItem, belowHeading: boolean): FlowItem {
  const penalty = belowHeading ? FORBIDDEN : LONE_FIRST_LINE;
  return { ...item, rows: item.rows.map((row) => withPenalty(row, penalty)) };
}

/** A paragraph's rows, and the other lengths that it can be set to: the very same under the same rules. */
export function paragraphItem(
  collector: Collector,
  text: StyledText,
  shape: ParagraphShape,
  rules: RowRules,
): FlowItem {
  const broken = collector.watch(collector.shop.break(text, shape));
  const { kept } = broken;
  if (kept instanceof ParagraphItem && kept.isUnder(rules)) return kept;
  const item = new ParagraphItem({ setter: collector.shop.setter, text, shape, broken, rules });
  broken.kept = item;
  return item;
}

/** A paragraph at its best, whose rows are made when they are asked for. */
class ParagraphItem implements FlowItem {
  readonly demerits: number;
  readonly variants: FlowItem['variants'];
  private readonly kept: ParagraphLines;
  private readonly plain: TextLines | undefined;

  constructor(private readonly request: VariantRequest) {
    const { broken, rules } = request;
    this.demerits = broken.demerits;
    this.variants = variantsOf(request);
    this.kept = new ParagraphLines(broken, rules);
    this.plain = this.kept.plain;
  }

  isUnder(rules: RowRules): boolean {
    return this.kept.isUnder(rules);
  }

  /** See `ParagraphSetter.keepLists`. */
  keepLists(): boolean {
    const { setter, text, shape } = this.request;
    return setter.keepLists(text, shape);
  }

  get rows(): readonly Row[] {
    return this.kept.rows;
  }

  /** No property of its own: a copy of the item with other rows has none. */
  get lines(): TextLines | undefined {
    return this.plain;
  }
}

/** Keeps where the lines of a paragraph may end, for other measures; false for anything else, and where it has been done. */
export function keepLists(item: FlowItem): boolean {
  return item instanceof ParagraphItem && item.keepLists();
}

/** Cost of a page end inside a centred paragraph: a sign or a telegram wants to be seen whole. */
const INSIDE_CENTRED = 250;

/** A paragraph whose alignment the manuscript asks for: ragged, without indent; centred ones stand apart. */
function addAligned(
  collector: Collector,
  node: Node,
  column: Column,
  { align, hanging }: { readonly align: 'start' | 'center' | 'end'; readonly hanging: number },
): void {
  const { shop } = collector;
  const text = shop.spans.of({ node, look: raggedLook(column.look), numberOf: collector.numberOf });
  const shape = { ...shop.ragged(column.look, column.measure, align), indentRest: hanging * column.look.size };
  const { broken, left } =
    align === 'center' ? balanced(shop, text, shape) : { broken: shop.break(text, shape), left: 0 };
  if ((align === 'center') !== (collector.centred !== null)) collector.white(1);
  const inside = align === 'center' ? INSIDE_CENTRED : 0;
  collector.addRows(rowsOf(collector.watch(broken), { inside, left: column.left + left }));
  collector.centred = align === 'center' ? broken.lines.reduce((most, { width }) => Math.max(most, width), 0) : null;
  // In a letter the salutation follows the date; in running text a new paragraph does.
  collector.flush = column.left > 0;
}

/** A subhead: white above, bound to the text below, never divided. */
export function addHeading(collector: Collector, node: Node, column: Column): void {
  const level = Math.min(3, Math.max(1, Number(node.attrs['level']))) - 1;
  const look = collector.design.subheads[level as 0 | 1 | 2];
  const { shop } = collector;
  const text = shop.spans.of({ node, look, numberOf: collector.numberOf });
  const align = look.align === 'justify' ? 'start' : look.align;
  const { broken, left } = balanced(shop, text, shop.ragged(look, column.measure, align));
  collector.watch(broken);
  const { above, below } = collector.design.subheadSpace;
  collector.white(level === 0 ? above : Math.max(1, above - 1));
  const height = Math.round(look.leading / collector.design.frame.leading);
  const rows = rowsOf(broken, { height, orphans: 99, after: FORBIDDEN, left: column.left + left });
  collector.addRows(rows);
  if (level === 0) collector.white(below);
  collector.flush = true;
  collector.belowHeading = true;
}

/** The source of an epigraph, quotation or poem, bound to the lines above. Below centred lines it is centred as they are. */
export function addAttribution(collector: Collector, node: Node, column: Column): void {
  const { shop, design } = collector;
  const look = design.attribution;
  const text = shop.spans.of({ node, look, numberOf: collector.numberOf });
  const { align, inset } = attributionPlace(collector, column);
  const measure = column.measure - 2 * inset;
  // Where it turns over, no word of it stands alone.
  const { broken, left } = balanced(shop, text, shop.ragged(look, measure, align));
  collector.watch(broken);
  collector.keepWithNext();
  collector.takeWhite();
  collector.addRows(rowsOf(broken, { orphans: 99, left: column.left + inset + left }));
  collector.centred = null;
}

/** How a source stands, and how far in on both sides: a long one no wider than the centred lines above, or half the column. */
function attributionPlace(
  { design, centred }: Collector,
  { measure }: Column,
): { readonly align: 'start' | 'center' | 'end'; readonly inset: number } {
  const { align } = design.attribution;
  if (centred === null) return { align: align === 'justify' ? 'end' : align, inset: 0 };
  return { align: 'center', inset: (measure - Math.min(measure, Math.max(centred + 0.01, measure / 2))) / 2 };
}
