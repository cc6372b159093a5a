/** Collects tables: plain columns as wide as their text asks for, thin rules at head and foot, rows never divided. */
import type { Node } from 'prosemirror-model';
import type { NoteId, Points } from '#base';
import type { PageBuilder } from '#page';
import { type FlowItem, FORBIDDEN, fixedItem, type Paint, type Row, solidRow } from '../flow.ts';
import type { Collector, Column } from './collector.ts';
import { italicLook, raggedLook, tabularLook } from './looks.ts';
import { withPenalty } from './rows.ts';

/** Space between columns, in ems. */
const COLUMN_GAP = 1.2;
const RULE: Points = 0.5;
/** Height of the first rule above the first baseline, as a share of the leading. */
const HEAD_RULE_RISE = 0.95;
/** Cost of a page end inside a table. */
const INSIDE_TABLE = 20;
/** Depth of the last rule below its line, and of the rule below a header in the two lines that it takes. */
const RULE_DROP = 0.5;
const HEADER_RULE_RISE = 0.25;
/** Depth of a rule between two rows: nearer to the line above than to the capitals below. */
const ROW_RULE_DROP = 0.33;

/** Most that a column is wider than its longest cell, in ems. */
const MOST_SPARE = 2;
/** Text that is a number, a sum of money, a share, or a dash for none. */
const NUMBER = /^\s*[-+\u2212\u2013\u2014(]?\p{Sc}?\s?[\d.,\u00a0\u202f ]*\s?[\p{Sc}%)]?\s*$/u;

/** Narrowest column, in ems with its gap; highest row, as a share of the page. */
const NARROWEST_COLUMN = 3.2;
const HIGHEST_ROW = 0.6;
/** Up to this share of the page a table is not divided. */
const WHOLE_TABLE = 0.5;

interface CellLines {
  readonly paint: Paint;
  readonly line: number;
  readonly start: { readonly block: string; readonly offset: number };
  readonly notes: readonly NoteId[];
}

type AddBlocks = (collector: Collector, blocks: readonly Node[], column: Column) => void;

/** A table. One that no page can show as a table runs on as text, cell after cell, by `addBlocks`. */
export function addTable(collector: Collector, node: Node, around: Column, addBlocks: AddBlocks): void {
  const { text, tables } = collector.design;
  const column = around.look === text ? { ...around, look: tables.look } : around;
  collector.leadInWaits = false;
  collector.white(1);
  const rows = tableRows(collector, node, column);
  if (rows) collector.add(heldTogether(rows, collector.design.frame.lines));
  else for (const row of node.children) for (const cell of row.children) addBlocks(collector, cell.children, around);
  collector.white(1);
  collector.flush = false;
}

/** A small table stays whole, like a figure; of a larger one no row stands alone at an edge of a page. */
function heldTogether(rows: readonly Row[], lines: number): FlowItem {
  const height = rows.reduce((sum, row) => sum + row.height, 0);
  const whole = height <= lines * WHOLE_TABLE && rows.every((row) => row.notes.length === 0);
  const [second, last] = [rows[0]?.penalty === FORBIDDEN ? 1 : 0, rows.length - 1];
  const held = rows.map((row, index) => {
    if (index === last || row.penalty === FORBIDDEN) return row;
    return whole || index === second || index === last - 1 ? withPenalty(row, FORBIDDEN) : row;
  });
  return whole ? { ...fixedItem(...held), floats: true } : fixedItem(...held);
}

/** The rows of a table, or null where a column would be too narrow or a row too high. */
function tableRows(collector: Collector, node: Node, column: Column): readonly Row[] | null {
  const columns = Math.max(...node.children.map((row) => row.childCount));
  const gap = column.look.size * COLUMN_GAP;
  if (column.measure / columns < column.look.size * NARROWEST_COLUMN) return null;
  const widths = columnWidths(collector, node, column, { columns, gap });
  const figures = widths.map((_, index) => isOfFigures(node, index));
  const total = widths.reduce((sum, width) => sum + width + gap, -gap);
  const left = column.left + (column.measure - total) / 2;
  const last = node.childCount - 1;
  const rows = node.children.map((row, index) => {
    return tableRow(collector, row, column, {
      widths,
      figures,
      gap,
      left,
      total,
      first: index === 0,
      last: index === last,
    });
  });
  const highest = Math.max(...rows.map((row) => row.height));
  return highest > collector.design.frame.lines * HIGHEST_ROW ? null : rows;
}

interface RowSetting {
  readonly widths: readonly number[];
  /** Which columns hold figures. */
  readonly figures: readonly boolean[];
  readonly gap: number;
  /** Left edge of the table in the text block, and its width. */
  readonly left: Points;
  readonly total: Points;
  readonly first: boolean;
  readonly last: boolean;
}

function tableRow(collector: Collector, row: Node, column: Column, setting: RowSetting): Row {
  const { leading } = collector.design.frame;
  const { rules } = collector.design.tables;
  const header = Boolean(row.attrs['header']);
  const cells = row.children.map((cell, index) =>
    cellLines(collector, cell, column, {
      width: setting.widths[index] ?? 0,
      header,
      figures: setting.figures[index] ?? false,
    }),
  );
  const depthOfText = Math.max(1, ...cells.map((lines) => lines.length));
  const height = depthOfText + (header ? 1 : 0);
  const { total } = setting;
  const place = (_line: number, x: Points, y: Points, page: PageBuilder): void => {
    let left = x + setting.left;
    cells.forEach((lines, index) => {
      lines.forEach((line, depth) => {
        line.paint.place(line.line, left, y - (height - 1 - depth) * leading, page);
      });
      left += (setting.widths[index] ?? 0) + setting.gap;
    });
    const rule = (top: Points): void =>
      page.add({ kind: 'rule', x: x + setting.left, y: top, width: total, height: RULE });
    if (rules === 'none') return;
    if (setting.first) rule(y - height * leading + leading * (1 - HEAD_RULE_RISE));
    if (header) rule(y - leading * HEADER_RULE_RISE);
    else if (setting.last) rule(y + leading * RULE_DROP);
    else if (rules === 'rows') rule(y + leading * ROW_RULE_DROP);
  };
  const start = cells.find((lines) => lines.length > 0)?.[0]?.start ?? null;
  const notes = cells.flatMap((lines) => lines.flatMap((line) => line.notes));
  const penalty = header ? FORBIDDEN : setting.last ? 0 : INSIDE_TABLE;
  return solidRow({ height, paint: { place }, start, notes, penalty });
}

function cellLines(
  collector: Collector,
  cell: Node,
  column: Column,
  setting: { readonly width: number; readonly header: boolean; readonly figures: boolean },
): readonly CellLines[] {
  const { width, header, figures } = setting;
  const plain = raggedLook(column.look);
  const look = header ? italicLook(plain) : figures ? tabularLook(plain) : plain;
  const lines: CellLines[] = [];
  for (const node of textblocks(cell)) {
    const text = collector.shop.spans.of({ node, look, numberOf: collector.numberOf });
    const shape = collector.shop.ragged(look, width, figures ? 'end' : 'start');
    const broken = collector.watch(collector.shop.break(text, shape));
    broken.lines.forEach((line, index) => {
      lines.push({ paint: broken, line: index, start: { block: broken.block, offset: line.from }, notes: line.notes });
    });
  }
  return lines;
}

/** A column of numbers, below its header: they stand under each other, to the right. */
function isOfFigures(table: Node, column: number): boolean {
  const cells = table.children
    .filter((row) => !row.attrs['header'])
    .map((row) => row.children[column]?.textContent ?? '');
  return cells.some((text) => /\d/u.test(text)) && cells.every((text) => NUMBER.test(text));
}

/** As wide as the longest cell where all fits, else in proportion, no column below a tenth. */
function columnWidths(
  collector: Collector,
  table: Node,
  column: Column,
  setting: { readonly columns: number; readonly gap: number },
): readonly number[] {
  const room = column.measure - setting.gap * (setting.columns - 1);
  const natural = new Array<number>(setting.columns).fill(room / 10);
  for (const row of table.children) {
    row.children.forEach((cell, index) => {
      natural[index] = Math.max(natural[index] ?? 0, naturalWidth(collector, cell, column));
    });
  }
  const total = natural.reduce((sum, width) => sum + width, 0);
  const spare = Math.min((room - total) / setting.columns, column.look.size * MOST_SPARE);
  if (total <= room) return natural.map((width) => width + spare);
  const capped = natural.map((width) => Math.min(width, room / 2));
  const sum = capped.reduce((so, width) => so + width, 0);
  return capped.map((width) => (width * room) / sum);
}

function naturalWidth(collector: Collector, cell: Node, column: Column): number {
  let widest = 0;
  for (const node of textblocks(cell)) {
    const text = collector.shop.spans.of({ node, look: raggedLook(column.look), numberOf: collector.numberOf });
    const broken = collector.shop.break(text, collector.shop.ragged(column.look, 10_000, 'start'));
    for (const line of broken.lines) widest = Math.max(widest, line.width + 0.01);
  }
  return widest;
}

function textblocks(node: Node): readonly Node[] {
  const found: Node[] = [];
  node.descendants((child) => {
    if (!child.isTextblock) return true;
    found.push(child);
    return false;
  });
  return found;
}
