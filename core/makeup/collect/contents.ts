/**
 * Collects a contents page. In: what it lists, with the folios known so far; out: rows: number, title, leader, folio.
 * Numbers stand in a column of their own, right-aligned; leader dots of all lines stand below each other.
 */
import type { Points, SectionId } from '#base';
import { sectionName } from '#book';
import type { PageBuilder } from '#page';
import type { SingleLine } from '#paragraph';
import { fixedItem, lineRow, type Paint, type Row, spaceRow } from '../flow.ts';
import { balanced } from './balance.ts';
import { addBlocks } from './blocks.ts';
import type { Collector } from './collector.ts';
import { once } from './once.ts';
import { addOpener } from './opener.ts';
import { rowsOf, Together } from './rows.ts';

export interface ContentsEntry {
  readonly section: SectionId;
  /** `part` entries stand apart in small capitals. */
  readonly level: 'part' | 'entry';
  /** True for what counts on through the book, with or without a title. */
  readonly numbered: boolean;
  /** What stands in the column of numbers, '' for nothing. */
  readonly number: string;
  readonly title: string;
  /** The folio as it reads, '' while unknown. */
  readonly folio: string;
}

/** Gap between number and title, and least gap around a leader, in ems. */
const NUMBER_GAP = 0.8;
const LEADER_GAP = 0.5;
/** Distance and radius of leader dots, in ems. */
const DOT_STEP = 0.62;
const DOT_RADIUS = 0.042;

/** Contents: a heading and its entries. */
export function addContents(collector: Collector, entries: readonly ContentsEntry[]): void {
  addOpener(collector, sectionName('contents', collector.shop.language));
  addBlocks(collector, collector.section.blocks, collector.column);
  const numbers = entries.map((entry) => (entry.level === 'part' ? null : line(collector, entry.number)));
  const column = Math.max(0, ...numbers.map((number) => number?.width ?? 0));
  entries.forEach((entry, index) => {
    if (entry.level === 'part' && index > 0) collector.white(1);
    addEntry(collector, entry, { number: numbers[index] ?? null, column });
    if (entry.level === 'part') collector.keepWithNext();
    const next = entries[index + 1];
    if (next && startsGroup(entry, next)) collector.white(1);
  });
  fitOnOnePage(collector);
}

/** A list that runs over by no more than its sink gives up white instead: the sink is the first item. */
function fitOnOnePage(collector: Collector): void {
  const height = collector.items.reduce((sum, item) => sum + item.rows.reduce((so, row) => so + row.height, 0), 0);
  const over = height - collector.design.frame.lines;
  const sink = collector.items[0]?.rows[0];
  if (!sink || sink.paint !== null || over <= 0 || over > sink.height) return;
  collector.items[0] = fixedItem(...(over === sink.height ? [] : [spaceRow(sink.height - over, true)]));
}

/** Where the list passes between what has numbers and what has none, a line of white helps the eye. */
function startsGroup(entry: ContentsEntry, next: ContentsEntry): boolean {
  if (entry.level === 'part' || next.level === 'part') return false;
  return entry.numbered !== next.numbered;
}

function line({ shop, design, section }: Collector, words: string): SingleLine | null {
  return words === '' ? null : shop.line(words, design.contents.entry, section.id);
}

function addEntry(
  collector: Collector,
  entry: ContentsEntry,
  { number, column }: { readonly number: SingleLine | null; readonly column: Points },
): void {
  const { design, shop } = collector;
  const { measure, size } = design.frame;
  const isPart = entry.level === 'part';
  const left = isPart || column === 0 ? 0 : column + size * NUMBER_GAP;
  const folio = line(collector, entry.folio);
  const look = isPart ? design.contents.part : design.contents.entry;
  const room = measure - left - size * 3.5;
  // A bare figure has a line all the same.
  const text = shop.spans.literal(entry.title || '\u00A0', look, collector.section.id);
  const { broken } = balanced(shop, text, { ...shop.ragged(look, room, 'start'), indentRest: size });
  collector.watch(broken);
  const rows = rowsOf(broken, { left, orphans: 99 });
  const lastLine = broken.lines.at(-1);
  const end = left + (lastLine?.width ?? 0) + (rows.length > 1 ? size : 0);
  collector.addRows(
    rows.map((row, index) => {
      const parts: { paint: Paint; x: Points; y: Points }[] = [];
      if (number && index === 0) parts.push({ paint: once(number), x: column - number.width, y: 0 });
      if (row.paint) parts.push({ paint: row.paint, x: 0, y: 0 });
      if (index === rows.length - 1) parts.push(...entryEnd(collector, entry, { end, folio }));
      return generated(row, parts);
    }),
  );
}

/** The row of a generated line: it stands on the page, but no character of the book does. */
function generated(row: Row, parts: ConstructorParameters<typeof Together>[0]): Row {
  return lineRow({ ...row, paint: new Together(parts), start: null });
}

function entryEnd(
  collector: Collector,
  entry: ContentsEntry,
  line: { readonly end: Points; readonly folio: SingleLine | null },
): { paint: Paint; x: Points; y: Points }[] {
  const { measure, size, leading } = collector.design.frame;
  const target = { at: { block: String(entry.section), offset: 0 } };
  const link = (_line: number, x: Points, y: Points, page: PageBuilder): void =>
    page.add({ kind: 'link', x, y: y - leading * 0.75, width: measure, height: leading, target });
  const parts: { paint: Paint; x: Points; y: Points }[] = [{ paint: { place: link }, x: 0, y: 0 }];
  if (!line.folio) return parts;
  const right = measure - line.folio.width;
  if (collector.design.contents.leaders && entry.level === 'entry') {
    const dots = leader(line.end + size * LEADER_GAP, right - size * LEADER_GAP, measure, size);
    if (dots) parts.push({ paint: dots, x: 0, y: 0 });
  }
  parts.push({ paint: once(line.folio), x: right, y: 0 });
  return parts;
}

/** Dots between two places of a line, at steps counted from the right margin so that all lines agree. */
function leader(from: Points, to: Points, measure: Points, size: Points): Paint | null {
  const step = size * DOT_STEP;
  const radius = size * DOT_RADIUS;
  const first = Math.floor((measure - to) / step) + 1;
  const last = Math.floor((measure - from) / step);
  if (last - first < 2) return null;
  const width = (last - first) * step + 2 * radius;
  const left = measure - last * step - radius;
  return {
    place: (_line, x, y, page) =>
      page.add({
        kind: 'path',
        path: row(last - first + 1, step, radius),
        viewBox: { width, height: 2 * radius },
        x: x + left,
        y: y - 2 * radius,
        width,
        height: 2 * radius,
      }),
  };
}

/** Sizes of dots kept. */
const MOST_SIZES = 16;
const circles = new Map<string, string[]>();

/** So many circles beside each other. Those of a size are drawn once: a list of contents has thousands. */
function row(count: number, step: Points, radius: Points): string {
  const key = `${step} ${radius}`;
  const known = circles.get(key) ?? [];
  if (circles.size >= MOST_SIZES) circles.clear();
  circles.set(key, known);
  while (known.length < count) known.push(circle(known.length * step + radius, radius));
  return known.slice(0, count).join('');
}

/** A circle as four cubic curves (the usual constant, 0.5523). */
function circle(x: Points, radius: Points): string {
  const y = radius;
  const c = radius * 0.5523;
  const n = (value: number): string => String(Math.round(value * 1000) / 1000);
  const at = (...values: readonly number[]): string => values.map(n).join(' ');
  return (
    `M${at(x - radius, y)}C${at(x - radius, y - c, x - c, y - radius, x, y - radius)}` +
    `C${at(x + c, y - radius, x + radius, y - c, x + radius, y)}` +
    `C${at(x + radius, y + c, x + c, y + radius, x, y + radius)}` +
    `C${at(x - c, y + radius, x - radius, y + c, x - radius, y)}Z`
  );
}
