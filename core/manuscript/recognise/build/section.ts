/** One section of the book. In: its plan and its items; out: the section node. */
import type { Node } from 'prosemirror-model';
import { schema } from '#book';
import type { Base } from '../collect/base.ts';
import type { Item, Line } from '../collect/lines.ts';
import { join, type Rich, slice, trim } from '../collect/rich.ts';
import type { Numbering } from '../decide/numbering.ts';
import { hasAttribution } from '../decide/pages.ts';
import type { Plan } from '../decide/sections.ts';
import { blocksOf } from './blocks.ts';
import type { Maker } from './maker.ts';
import { verseNode } from './verse.ts';

export interface SectionInput {
  readonly id: string;
  readonly plan: Plan;
  readonly numbering: Numbering;
  readonly items: readonly Item[];
  readonly aside: ReadonlySet<number>;
  readonly base: Base;
}

const { section, sectionTitle, epigraph } = schema.nodes;

export function sectionNode(input: SectionInput, maker: Maker): Node {
  const { plan, numbering } = input;
  const lines = headingLines(input);
  const title = titleNode(lines, input, maker);
  const items: Item[] = [];
  const inner = new Map<Item, NonNullable<ReturnType<typeof plan.inner.get>>>();
  for (let at = plan.from; at < plan.to; at++) {
    const item = input.items[at];
    if (item === undefined || input.aside.has(at)) continue;
    items.push(item);
    const ranked = plan.inner.get(at);
    if (ranked !== undefined) inner.set(item, ranked);
  }
  const figures = maker.takeFigures();
  const blocks = plan.kind === 'epigraph' && plan.heading === null ? epigraphBlocks(items, input.base, maker) : null;
  const opens = plan.heading !== null;
  const titled = plan.kind === 'chapter' && plan.heading?.candidate.reading.form === 'title';
  const body = blocks ?? blocksOf({ items, inner, base: input.base, opens, titled }, maker);
  const heading = lines.length === 0 ? null : headingText(lines.map((line) => line.plain));
  const attributes = { id: input.id, kind: plan.kind, heading, ...numbering };
  return section.create(attributes, [...(title === null ? [] : [title]), ...figures, ...body]);
}

function headingLines(input: SectionInput): readonly Line[] {
  const lines: Line[] = [];
  for (const at of input.plan.heading?.items ?? []) {
    const item = input.items[at];
    if (item?.kind === 'line') lines.push(item);
  }
  return lines;
}

/** The heading on one line, as it stood: "Chapter 4: The Weir". */
export function headingText(lines: readonly string[]): string {
  const parts = lines
    .flatMap((line) => line.split('\n'))
    .map((part) => part.replace(/[\s\u00ad\u200b\ufeff]+/gu, ' ').trim());
  return parts
    .filter((part) => part !== '')
    .reduce(
      (sum, part) => (sum === '' ? part : `${sum}${/[\p{L}\p{N}"\u201d\u00bb)]$/u.test(sum) ? ':' : ''} ${part}`),
      '',
    );
}

/** What stands beside the number, with the notes of the whole heading; null where there is nothing. */
function titleNode(lines: readonly Line[], input: SectionInput, maker: Maker): Node | null {
  const [first, second] = lines;
  if (first === undefined) return null;
  const reading = input.plan.heading?.candidate.reading;
  const cut = reading?.number == null || reading.form === 'matter' ? 0 : reading.titleAt;
  const parts = [
    notesBefore(first.rich, cut),
    trim(slice(first.rich, cut, first.rich.text.length)),
    second?.rich,
  ].filter((part): part is Rich => part !== undefined && part.text !== '');
  const content = maker.title(join(parts, parts.length > 1 ? ' ' : ''));
  return content.length === 0 ? null : sectionTitle.create({ id: maker.blockId() }, [...content]);
}

/** Notes that hang on the number stay with the title. */
function notesBefore(rich: Rich, cut: number): Rich | undefined {
  const leaves = slice(rich, 0, cut).leaves;
  if (leaves.length === 0) return undefined;
  return { text: '\ufffc'.repeat(leaves.length), ends: [leaves.length], looks: rich.looks.slice(0, 1), leaves };
}

/** A page of its own that quotes: the quotation and its source. */
function epigraphBlocks(items: readonly Item[], base: Base, maker: Maker): readonly Node[] | null {
  const lines = items.filter((item): item is Line => item.kind === 'line');
  if (lines.length === 0 || lines.length !== items.length || lines.some((line) => line.images > 0)) return null;
  const body = [...lines];
  const source = body.length > 1 && hasAttribution(lines) ? body.pop() : undefined;
  const asVerse =
    body.every((line) => line.plain.split('\n').every((piece) => piece.trim().length <= 72)) &&
    body.reduce((sum, line) => sum + line.plain.split('\n').length, 0) > 1;
  const nodes = asVerse ? [verseNode(body, null, base, maker)] : body.flatMap((line) => maker.paragraphs(line));
  if (nodes.length === 0) return null;
  const tail = source === undefined ? [] : [maker.attribution(source)];
  return [epigraph.create({ id: maker.blockId() }, [...nodes, ...tail])];
}
