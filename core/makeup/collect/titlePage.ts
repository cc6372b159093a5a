/**
 * Collects the title page: title, subtitle, ornament, author, and the publisher at the foot. In: what the author typed,
 * or the metadata; out: one page of rows on the grid.
 */
import type { Node } from 'prosemirror-model';
import { authorsOf, type Metadata, namesInARow, textOf } from '#book';
import type { Look } from '#design';
import { FORBIDDEN, type Row, solidRow, spaceRow } from '../flow.ts';
import { addBlocks } from './blocks.ts';
import type { Collector } from './collector.ts';
import { literalRows, nodeRows } from './opener.ts';
import { withPenalty } from './rows.ts';
import { ornamentPaint } from './sceneBreak.ts';

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
  const { sink } = collector.design.titlePage;
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

/** The lines of the page by their role: what the author typed; where that is no more than a title, the metadata too. */
function titleLines(collector: Collector, metadata: Metadata): ReadonlyMap<TitleRole, readonly Row[]> {
  const { section } = collector;
  const { align } = collector.design.titlePage;
  const author = namesInARow(authorsOf(metadata), metadata.language);
  const lines = new Map<TitleRole, Row[]>();
  for (const node of [section.title, section.subtitle, ...section.blocks]) {
    if (!node) continue;
    const role = node.isTextblock ? roleOf(node, metadata, author) : 'other';
    const set = (look: Look): readonly Row[] => nodeRows(collector, node, look, align);
    const rows = node.isTextblock ? fitted(collector, role, set) : flattened(collector, node);
    lines.set(role, [...(lines.get(role) ?? []), ...rows]);
  }
  if (!section.generated) return lines;
  const known = {
    title: metadata.title,
    subtitle: section.title ? null : metadata.subtitle,
    author,
    publisher: metadata.publisher,
  };
  for (const role of ['title', 'subtitle', 'author', 'publisher'] as const) {
    const words = known[role];
    if (!words || lines.has(role)) continue;
    lines.set(role, [...fitted(collector, role, (look) => literalRows(collector, words, look, align))]);
  }
  return lines;
}

/** What a typed line of a title page says. */
function roleOf(node: Node, metadata: Metadata, author: string): TitleRole {
  const said = plain(textOf(node));
  if (node.type.name === 'sectionTitle' || said === plain(metadata.title)) return 'title';
  if (author !== '' && (said === plain(author) || said === `by ${plain(author)}`)) return 'author';
  if (node.type.name === 'sectionSubtitle' || (metadata.subtitle && said === plain(metadata.subtitle))) {
    return 'subtitle';
  }
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
  if (role === 'other') return set({ ...text, align: titlePage.align, hyphenate: false });
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
