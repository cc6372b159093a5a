/**
 * Collects pages that are composed rather than run on: half title, title page, copyright page, dedication, epigraph.
 */
import type { Node } from 'prosemirror-model';
import { authorsOf, type Metadata, namesInARow, textOf } from '#book';
import type { Look } from '#design';
import { type FlowGrid, FORBIDDEN, type Row, solidRow, spaceRow } from '../flow.ts';
import { addBlocks, addEpigraph } from './blocks.ts';
import type { Collector, Column } from './collector.ts';
import { literalRows, nodeRows } from './opener.ts';
import { raggedLook } from './paragraph.ts';
import { rowsOf, withPenalty } from './rows.ts';
import { ornamentPaint } from './sceneBreak.ts';

/** Where the head of a composed page stands, as a share of its lines: in the upper third. */
const TITLE_SINK = 0.19;
const DEDICATION_SINK = 0.25;

/** Half title: the title alone, small, at the height of the title page's. */
export function addHalfTitle(collector: Collector, metadata: Metadata): void {
  const { design, section } = collector;
  collector.sink(Math.round(design.frame.lines * TITLE_SINK));
  if (section.blocks.length > 0) {
    addCentred(collector, section.blocks, design.halfTitle);
    return;
  }
  const rows = section.title
    ? nodeRows(collector, section.title, design.halfTitle, 'center')
    : literalRows(collector, metadata.title, design.halfTitle, 'center');
  collector.addRows(rows);
}

type TitleRole = 'title' | 'subtitle' | 'author' | 'publisher' | 'other';

/** Title page: title, subtitle, ornament, author, and the publisher at the foot. */
export function addTitlePage(collector: Collector, metadata: Metadata): void {
  const lines = titleLines(collector, metadata);
  const of = (role: TitleRole): readonly Row[] => lines.get(role) ?? [];
  const head: Row[] = [...of('title')];
  if (of('subtitle').length > 0) head.push(spaceRow(1, true), ...of('subtitle'));
  head.push(...titleOrnament(collector));
  if (of('author').length > 0) head.push(...of('author'));
  if (of('other').length > 0) head.push(spaceRow(2, true), ...of('other'));
  const { lines: depth } = collector.design.frame;
  const sink = Math.round(depth * TITLE_SINK);
  const foot = of('publisher');
  const rest = depth - sink - heightOf(head) - heightOf(foot);
  collector.sink(sink);
  collector.addRows([...head, ...(foot.length > 0 && rest > 0 ? [spaceRow(rest, true)] : []), ...foot]);
}

function heightOf(rows: readonly Row[]): number {
  return rows.reduce((sum, row) => sum + row.height, 0);
}

function titleOrnament(collector: Collector): readonly Row[] {
  const { ornament } = collector.design.titlePage;
  if (!ornament) return [spaceRow(3, true)];
  const paint = ornamentPaint(collector, collector.column, { ornament, rise: 1.5, at: null, scale: 1.25 });
  return [solidRow({ height: 4, penalty: FORBIDDEN, paint })];
}

/** The lines of the page by their role: from the metadata, or from what the author typed. */
function titleLines(collector: Collector, metadata: Metadata): ReadonlyMap<TitleRole, readonly Row[]> {
  const lines = new Map<TitleRole, Row[]>();
  const add = (role: TitleRole, rows: readonly Row[]): void => {
    lines.set(role, [...(lines.get(role) ?? []), ...rows]);
  };
  const author = namesInARow(authorsOf(metadata), metadata.language);
  const { section } = collector;
  if (section.generated) {
    const say = (role: TitleRole, words: string | null): void => {
      if (words)
        add(
          role,
          fitted(collector, role, (look) => literalRows(collector, words, look, 'center')),
        );
    };
    say('title', metadata.title);
    say('subtitle', metadata.subtitle);
    say('author', author);
    say('publisher', metadata.publisher);
    return lines;
  }
  const typed = [section.title, section.subtitle, ...section.blocks].filter((node) => node !== null);
  for (const node of typed) {
    const role = roleOf(node, metadata, author);
    if (node.isTextblock)
      add(
        role,
        fitted(collector, role, (look) => nodeRows(collector, node, look, 'center')),
      );
    else add('other', flattened(collector, node));
  }
  return lines;
}

/** What a typed line of a title page says. */
function roleOf(node: Node, metadata: Metadata, author: string): TitleRole {
  const said = plain(textOf(node));
  if (node.type.name === 'sectionTitle' || said === plain(metadata.title)) return 'title';
  if (node.type.name === 'sectionSubtitle' || (metadata.subtitle && said === plain(metadata.subtitle)))
    return 'subtitle';
  if (author !== '' && (said === plain(author) || said === `by ${plain(author)}`)) return 'author';
  return metadata.publisher && said === plain(metadata.publisher) ? 'publisher' : 'other';
}

function plain(text: string): string {
  return text
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
    .toLowerCase();
}

/** Smaller sizes that a long title is set in, as shares of the design's. */
const TITLE_SIZES = [1, 0.84, 0.7, 0.58] as const;
const MOST_TITLE_LINES = 3;

/** Rows in the role's look; a title that fills too many lines takes a smaller size. */
function fitted(collector: Collector, role: TitleRole, set: (look: Look) => readonly Row[]): readonly Row[] {
  const { titlePage, text, frame } = collector.design;
  if (role === 'other') return set({ ...text, align: 'center', hyphenate: false });
  const look = titlePage[role];
  if (role !== 'title') return set(look);
  let rows: readonly Row[] = [];
  for (const share of TITLE_SIZES) {
    const size = look.size * share;
    const leading = frame.leading * Math.max(1, Math.ceil((size * 1.05) / frame.leading));
    rows = set({ ...look, size, leading });
    if (rows.length <= MOST_TITLE_LINES) break;
  }
  return rows;
}

/** A block on a title page that is no line: a picture or a quotation, as rows without page ends. */
function flattened(collector: Collector, node: Node): readonly Row[] {
  const from = collector.items.length;
  addBlocks(collector, [node], collector.column);
  const items = collector.items.splice(from);
  return items.flatMap((item) => item.rows.map((row) => withPenalty(row, FORBIDDEN)));
}

/** Dedication: a few lines in the upper part of an empty page. */
export function addDedication(collector: Collector): void {
  const { design, section } = collector;
  collector.sink(Math.round(design.frame.lines * DEDICATION_SINK));
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

/** An epigraph on a page of its own. */
export function addEpigraphPage(collector: Collector): void {
  const { design, section } = collector;
  collector.sink(Math.round(design.frame.lines * DEDICATION_SINK));
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

/** Copyright page: small, at the foot of the page, on lines of its own. */
export function addImprint(collector: Collector): FlowGrid {
  const { design, section } = collector;
  const look = design.imprint;
  const { frame } = design;
  const airy = section.blocks.length <= AIRY_PARAGRAPHS;
  const column: Column = { ...collector.column, look };
  for (const block of section.blocks) {
    if (airy) collector.white(1);
    if (block.type.name !== 'paragraph') {
      addBlocks(collector, [block], column);
      continue;
    }
    const align =
      (block.attrs['align'] as 'start' | 'center' | 'end' | null) ?? (look.align === 'justify' ? 'start' : look.align);
    const text = collector.shop.spans.of({ node: block, look, numberOf: collector.numberOf });
    const broken = collector.watch(collector.shop.break(text, collector.shop.ragged(column.measure, align)));
    collector.addRows(rowsOf(broken));
  }
  const lines = Math.floor(((frame.lines - 1) * frame.leading) / look.leading + 0.01) + 1;
  return { leading: look.leading, lines, align: 'foot' };
}
