/** Collects blocks in their order. In: the blocks of a section, a quotation, a note; out: items in the collector. */
import type { Node } from 'prosemirror-model';
import type { SetOffForm } from '#book';
import type { Collector, Column } from './collector.ts';
import { epigraphSetting } from './epigraph.ts';
import { addFigure } from './figure.ts';
import { lookOf, stanceOf } from './forms.ts';
import { addLetter } from './letter.ts';
import { addList } from './list.ts';
import { addAttribution, addHeading, addParagraph } from './paragraph.ts';
import { addSceneBreak } from './sceneBreak.ts';
import { addTable } from './table.ts';
import { addVerse } from './verse.ts';

/** Adds blocks to a column. */
export function addBlocks(collector: Collector, blocks: readonly Node[], column: Column): void {
  for (const block of blocks) addBlock(collector, block, column);
}

type AddBlock = (collector: Collector, block: Node, column: Column) => void;

/** How each kind of block is added. */
const ADD: Readonly<Record<string, AddBlock>> = {
  paragraph: addParagraph,
  heading: addHeading,
  sceneBreak: addSceneBreak,
  quotation: (collector, block, column) => {
    const { indent, look } = collector.design.quotation;
    addSetApart(collector, block, narrowed(column, indent, look));
  },
  setOff: (collector, block, column) => {
    const { setOff, quotation } = collector.design;
    const form = block.attrs['form'] as SetOffForm;
    const look = lookOf(form, setOff.look, quotation.look);
    const { stance } = collector;
    collector.stance = stanceOf(form);
    addSetApart(collector, block, narrowed(column, setOff.indent, look), form === 'letter');
    collector.stance = stance;
  },
  epigraph: addEpigraph,
  verse: addVerse,
  list: (collector, block, column) => addList(collector, block, column, addBlocks),
  figure: addFigure,
  table: (collector, block, column) => addTable(collector, block, column, addBlocks),
  attribution: addAttribution,
};

function addBlock(collector: Collector, block: Node, column: Column): void {
  const add = ADD[block.type.name];
  if (!add) throw new RangeError(`no block of this kind can be set: ${block.type.name}`);
  // A source stands as the lines above it do.
  if (block.type.name !== 'paragraph' && block.type.name !== 'attribution') collector.centred = null;
  add(collector, block, column);
}

/** Cost of a page end among lines that belong together, such as those of a poem typed as paragraphs. */
const AMONG_LINES = 220;

/** A block with a line of white around it, in a narrower column; its first paragraph stands flush. */
function addSetApart(collector: Collector, block: Node, column: Column, isLetter = false): void {
  collector.white(1);
  collector.flush = true;
  collector.leadInWaits = false;
  const from = collector.items.length;
  if (isLetter) addLetter(collector, block.children, column, addBlocks);
  else addBlocks(collector, block.children, column);
  collector.holdLines(from, AMONG_LINES);
  collector.holdEdges(from);
  collector.white(1);
  collector.flush = false;
}

/** An epigraph inside a section: usually at its head, so that the text after it begins as if it were the first. */
export function addEpigraph(collector: Collector, block: Node, column: Column): void {
  const { indent, look } = collector.design.epigraph;
  const atHead = collector.leadInWaits || collector.flush;
  const waits = collector.leadInWaits;
  const before = collector.stance;
  const { column: own, stance } = epigraphSetting(collector, block, narrowed(column, indent, look));
  collector.white(1);
  collector.flush = true;
  collector.leadInWaits = false;
  collector.stance = stance;
  addBlocks(collector, block.children, own);
  collector.stance = before;
  collector.white(2);
  collector.flush = atHead;
  collector.leadInWaits = waits;
}

/** A column indented on both sides, never below a third of its width. */
function narrowed(column: Column, indent: number, look: Column['look']): Column {
  const inset = Math.min(indent, column.measure / 3);
  const own = column.look === look || column.look.size >= look.size ? look : { ...look, size: column.look.size };
  return { left: column.left + inset, measure: column.measure - 2 * inset, look: own };
}
