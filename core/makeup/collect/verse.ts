/**
 * Collects verse: lines as the poet broke them, turnovers indented, stanzas kept together where the page allows it, the
 * whole centred on its longest line or indented by the design.
 */
import type { Node } from 'prosemirror-model';
import type { Look } from '#design';
import type { BrokenParagraph, StyledText } from '#paragraph';
import { FORBIDDEN, fixedItem, type Row } from '../flow.ts';
import type { Collector, Column } from './collector.ts';
import { raggedLook } from './looks.ts';
import { addAttribution } from './paragraph.ts';
import { rowsOf, withPenalty } from './rows.ts';

/** Cost of a page end inside a stanza, and between two of them. */
const INSIDE_STANZA = 220;
const BETWEEN_STANZAS = 2;

interface VerseLine {
  readonly text: StyledText;
  readonly look: Look;
  readonly indent: number;
}

/** A poem. */
export function addVerse(collector: Collector, node: Node, around: Column): void {
  const column = ownColumn(collector, around);
  const stanzas = node.children.filter((child) => child.type.name === 'stanza');
  const lines = stanzas.map((stanza) => stanza.children.map((line) => verseLine(collector, line, column)));
  const place = placeOf(collector, lines.flat(), column);
  const leadInWaited = collector.leadInWaits;
  collector.leadInWaits = false;
  collector.white(1);
  for (const stanza of lines) {
    collector.add(fixedItem(...stanzaRows(collector, stanza, place.left, column)));
    collector.white(1);
  }
  const source = node.lastChild;
  if (source?.type.name === 'attribution')
    addAttribution(collector, source, sourceColumn(collector, source, column, place));
  collector.white(1);
  collector.flush = leadInWaited;
}

/** In running text verse has a look of its own; inside a quotation or a letter it has theirs. */
function ownColumn({ design }: Collector, column: Column): Column {
  return column.look === design.text ? { ...column, look: design.verse.look } : column;
}

function verseLine(collector: Collector, node: Node, column: Column): VerseLine {
  const look = raggedLook(column.look);
  return {
    text: collector.shop.spans.of({ node, look, numberOf: collector.numberOf }),
    look,
    indent: Number(node.attrs['indent']) * collector.design.verse.step,
  };
}

interface VersePlace {
  /** Where the lines begin, from the column's left edge. */
  readonly left: number;
  /** From there to the end of the longest line. */
  readonly width: number;
}

/** Where the lines stand: so that the longest is in the middle, or as the design says. */
function placeOf(collector: Collector, lines: readonly VerseLine[], column: Column): VersePlace {
  const { verse, quotation } = collector.design;
  const widths = lines
    .filter((line) => line.text.spans.length > 0)
    .map((line) => line.indent + widthOf(collector, line));
  const fitting = Math.max(0, ...widths.filter((width) => width <= column.measure));
  const within = (left: number): VersePlace => ({ left, width: Math.min(fitting, column.measure - left) });
  if (verse.indent !== 'longestLine') return within(Math.min(verse.indent, column.measure / 3));
  const centred = (column.measure - fitting) / 2;
  // What is turned over anyway says nothing of where the middle is: such a poem stands where a quotation would.
  return within(widths.some((width) => width > column.measure) ? Math.min(centred, quotation.indent) : centred);
}

/** The width of a poem's longest line that is not turned over, with the indent that the design gives all lines. */
export function verseWidth(collector: Collector, node: Node, column: Column): number {
  const stanzas = node.children.filter((child) => child.type.name === 'stanza');
  const lines = stanzas.flatMap((stanza) => stanza.children.map((line) => verseLine(collector, line, column)));
  const { left, width } = placeOf(collector, lines, column);
  return collector.design.verse.indent === 'longestLine' ? width : left + width;
}

/** The source of a poem ends where the longest line does, or a little beyond it where it is long itself. */
function sourceColumn(collector: Collector, source: Node, column: Column, place: VersePlace): Column {
  const { attribution, verse } = collector.design;
  const text = collector.shop.spans.of({ node: source, look: attribution, numberOf: collector.numberOf });
  const own = verse.turnover + widthOf(collector, { text, look: attribution, indent: 0 });
  const measure = Math.min(column.measure - place.left, Math.max(place.width, own));
  return { ...column, left: column.left + place.left, measure };
}

function widthOf(collector: Collector, line: VerseLine): number {
  const broken = collector.shop.break(line.text, collector.shop.ragged(line.look, UNBROKEN, 'start'));
  return Math.max(0, ...broken.lines.map((each) => each.width));
}

/** A measure that no line of verse fills. */
const UNBROKEN = 10_000;

function stanzaRows(collector: Collector, lines: readonly VerseLine[], left: number, column: Column): readonly Row[] {
  const rows = lines.flatMap((line) =>
    rowsOf(brokenLine(collector, line, column.measure - left), { orphans: 99, left: column.left + left }),
  );
  const count = rows.length;
  return rows.map((row, index) => {
    if (index === count - 1) return withPenalty(row, BETWEEN_STANZAS);
    if (index === 0 || index === count - 2 || row.penalty === FORBIDDEN) return withPenalty(row, FORBIDDEN);
    return withPenalty(row, INSIDE_STANZA);
  });
}

function brokenLine(collector: Collector, line: VerseLine, measure: number): BrokenParagraph {
  const shape = collector.shop.ragged(line.look, measure, 'start');
  const { turnover } = collector.design.verse;
  return collector.watch(
    collector.shop.break(line.text, { ...shape, indentFirst: line.indent, indentRest: line.indent + turnover }),
  );
}
