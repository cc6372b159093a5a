/**
 * Collects letters. In: the paragraphs of a letter; out: address, date and salutation flush, the text as running text, and
 * the closing (valediction, signature) as a block of lines with one left edge, so far to the right as its longest line
 * lets it stand (common practice, no source).
 */
import type { Node } from 'prosemirror-model';
import { textOf } from '#book';
import { FORBIDDEN } from '../flow.ts';
import type { Collector, Column } from './collector.ts';
import { raggedLook } from './looks.ts';
import { rowsOf } from './rows.ts';

/** Most lines of a closing: valediction, name, office, place. */
const MOST_CLOSING = 4;
/** Most paragraphs of an opening. */
const MOST_OPENING = 5;
/** Their lines are no wider than this share of the column. */
const WIDEST_SHORT = 0.6;
/** What stays free to the right of the longest line, in ems. */
const CLOSING_INDENT = 1;

const POSTSCRIPT = /^(?:P\.\s?)+S\b|^PP?S\b|^N\.\s?B\b|^NB\b/u;
const SENTENCE_END = /[.!?\u2026]["'\u2019\u201D\u00BB)]*$/u;
const INITIALS = /^[\u2013\u2014]?\s*(?:\p{Lu}\.\s*)+$/u;

type AddBlocks = (collector: Collector, blocks: readonly Node[], column: Column) => void;

/** The blocks of a letter; `addBlocks` adds what is no closing. */
export function addLetter(collector: Collector, blocks: readonly Node[], column: Column, addBlocks: AddBlocks): void {
  const { from, to } = closingOf(collector, blocks, column);
  const head = openingOf(collector, blocks.slice(0, from), column);
  for (const block of blocks.slice(0, head)) {
    collector.flush = true;
    addBlocks(collector, [block], column);
  }
  addBlocks(collector, blocks.slice(head, from), column);
  addClosing(collector, blocks.slice(from, to), column);
  collector.flush = true;
  addBlocks(collector, blocks.slice(to), column);
}

/** How many paragraphs stand before the text: address, date, salutation. */
function openingOf(collector: Collector, blocks: readonly Node[], column: Column): number {
  const text = blocks.findIndex((block) => !isShort(collector, block, column) || isSentence(textOf(block)));
  const count = text < 0 ? blocks.length : text;
  return count <= MOST_OPENING ? count : 0;
}

/** Where the closing begins and ends; both the same where there is none. A postscript may follow it. */
function closingOf(
  collector: Collector,
  blocks: readonly Node[],
  column: Column,
): { readonly from: number; readonly to: number } {
  const postscript = blocks.findIndex((block, index) => index > 0 && POSTSCRIPT.test(textOf(block)));
  const to = postscript < 0 ? blocks.length : postscript;
  let first = to;
  while (first > 1 && to - first < MOST_CLOSING && isShort(collector, blocks[first - 1], column)) first--;
  // Of short paragraphs at a letter's end, the last sentences are text still.
  while (first < to && isSentence(textOf(blocks[first] as Node))) first++;
  return { from: first, to };
}

function isShort(collector: Collector, block: Node | undefined, column: Column): boolean {
  if (block?.type.name !== 'paragraph' || block.attrs['align'] === 'center' || textOf(block) === '') return false;
  const { broken } = closingLine(collector, block, column);
  return broken.lines.every((line) => line.width <= column.measure * WIDEST_SHORT);
}

function isSentence(text: string): boolean {
  return SENTENCE_END.test(text.trim()) && !INITIALS.test(text.trim());
}

function closingLine(collector: Collector, node: Node, column: Column) {
  const { shop } = collector;
  const look = raggedLook(column.look);
  const text = shop.spans.of({ node, look, numberOf: collector.numberOf });
  return { broken: shop.break(text, shop.ragged(look, column.measure, 'start')) };
}

function addClosing(collector: Collector, blocks: readonly Node[], column: Column): void {
  const lines = blocks.map((block) => collector.watch(closingLine(collector, block, column).broken));
  const widest = Math.max(0, ...lines.flatMap((broken) => broken.lines.map((line) => line.width)));
  const free = column.measure - widest - CLOSING_INDENT * column.look.size;
  const left = column.left + Math.max(0, free);
  lines.forEach((broken, index) => {
    if (index === 0 && collector.items.length > 0) collector.keepWithNext();
    const after = index < lines.length - 1 ? FORBIDDEN : 0;
    collector.addRows(rowsOf(broken, { orphans: 99, left, after }));
  });
}
