/**
 * Collects pages that are composed rather than run on: half title, title page, copyright page, dedication, epigraph.
 */
import type { Node } from 'prosemirror-model';
import type { Metadata } from '#book';
import type { Look } from '#design';
import type { FlowGrid } from '../flow.ts';
import { addBlocks, addEpigraph } from './blocks.ts';
import type { Collector, Column } from './collector.ts';
import { raggedLook } from './looks.ts';
import { literalRows, nodeRows } from './opener.ts';
import { rowsOf, withPenalty } from './rows.ts';

/** Half title: the title alone, small, at the height of the title page's. */
export function addHalfTitle(collector: Collector, metadata: Metadata): void {
  const { design, section } = collector;
  collector.sink(design.titlePage.sink);
  if (section.blocks.length > 0) {
    addTypedHeading(collector);
    addCentred(collector, section.blocks, design.halfTitle);
    return;
  }
  if (!section.title)
    collector.addRows(literalRows(collector, metadata.title, design.halfTitle, design.titlePage.align));
  addTypedHeading(collector);
}

/** Dedication: a few lines in the upper part of an empty page. */
export function addDedication(collector: Collector): void {
  const { design, section } = collector;
  collector.sink(design.dedicationSink);
  addTypedHeading(collector);
  addCentred(collector, section.blocks, design.dedication);
}

/** A list of other books: a centred line each. */
export function addTitles(collector: Collector): void {
  addCentred(collector, collector.section.blocks, raggedLook(collector.design.text));
}

function addCentred(collector: Collector, blocks: readonly Node[], look: Look): void {
  const inset = collector.column.measure * 0.1;
  const column: Column = { left: inset, measure: collector.column.measure - 2 * inset, look };
  const align = look.align === 'justify' ? 'center' : look.align;
  for (const block of blocks) {
    if (block.type.name === 'paragraph') {
      const own = (block.attrs['align'] as typeof align | null) ?? align;
      collector.addRows(nodeRows(collector, block, look, own, column).map((row) => withPenalty(row, 0)));
    } else addBlocks(collector, [block], column);
  }
}

/** These pages need no heading; one that the author typed is kept, quietly. */
export function addTypedHeading(collector: Collector): void {
  const { section, design } = collector;
  const look = section.kind === 'halfTitle' ? design.halfTitle : design.subheads[0];
  const align = section.kind === 'halfTitle' ? design.titlePage.align : 'center';
  for (const node of [section.title, section.subtitle]) {
    if (!node) continue;
    collector.addRows(nodeRows(collector, node, look, align));
    collector.white(1);
  }
}

/** An epigraph on a page of its own. */
export function addEpigraphPage(collector: Collector): void {
  const { design, section } = collector;
  collector.sink(design.dedicationSink);
  addTypedHeading(collector);
  for (const block of section.blocks) {
    if (block.type.name === 'epigraph') addEpigraph(collector, block, collector.column);
    else {
      const { indent, look } = design.epigraph;
      const { measure } = collector.column;
      addBlocks(collector, [block], { left: indent, measure: measure - 2 * indent, look });
    }
  }
}

/** More paragraphs than these stand without white between them. */
const AIRY_PARAGRAPHS = 12;

/** Copyright page: small, at an end of the page, on lines of its own. */
export function addImprint(collector: Collector): FlowGrid {
  const { design, section } = collector;
  const look = design.imprint;
  const { frame } = design;
  const airy = section.blocks.length <= AIRY_PARAGRAPHS;
  const column: Column = { ...collector.column, look };
  for (const block of [section.title, section.subtitle, ...section.blocks]) {
    if (!block) continue;
    if (airy) collector.white(1);
    if (!block.isTextblock) {
      addBlocks(collector, [block], column);
      continue;
    }
    const align =
      (block.attrs['align'] as 'start' | 'center' | 'end' | null) ?? (look.align === 'justify' ? 'start' : look.align);
    const text = collector.shop.spans.of({ node: block, look, numberOf: collector.numberOf });
    const shape = collector.shop.ragged(look, column.measure, align);
    const broken = collector.watch(collector.shop.break(text, shape));
    collector.addRows(rowsOf(broken));
  }
  const lines = Math.floor(((frame.lines - 1) * frame.leading) / look.leading + 0.01) + 1;
  return { leading: look.leading, lines, extra: 0, align: design.imprintPlace };
}
