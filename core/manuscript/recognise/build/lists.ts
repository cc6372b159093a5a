/** Lists. In: lines that the word processor numbered or marked; out: list nodes, nested by level. */
import type { Node } from 'prosemirror-model';
import { schema } from '#book';
import type { Line } from '../collect/lines.ts';
import type { Maker } from './maker.ts';

const { list, listItem, paragraph } = schema.nodes;

export function lists(lines: readonly Line[], maker: Maker): readonly Node[] {
  const nodes: Node[] = [];
  let at = 0;
  while (at < lines.length) {
    const { node, next } = listAt(lines, at, levelOf(lines[at]), maker);
    nodes.push(...node);
    at = next;
  }
  return nodes;
}

function levelOf(line: Line | undefined): number {
  return line?.source.list?.level ?? 0;
}

function listAt(
  lines: readonly Line[],
  from: number,
  level: number,
  maker: Maker,
): { node: readonly Node[]; next: number } {
  const first = lines[from]?.source.list;
  const items: Node[] = [];
  const figures: Node[] = [];
  let at = from;
  while (at < lines.length) {
    const line = lines[at];
    if (line === undefined || levelOf(line) < level) break;
    if (levelOf(line) === level && line.source.list?.id !== first?.id) break;
    const body = maker.paragraphs(line);
    const blocks = body.filter((each) => each.type === paragraph);
    figures.push(...body.filter((each) => each.type !== paragraph));
    at++;
    while (at < lines.length && levelOf(lines[at]) > level) {
      const inner = listAt(lines, at, levelOf(lines[at]), maker);
      for (const each of inner.node) (each.type === list ? blocks : figures).push(each);
      at = inner.next;
    }
    if (blocks.length > 0) items.push(listItem.create({ id: maker.blockId() }, blocks));
  }
  const attributes = { id: maker.blockId(), ordered: first?.ordered ?? false, start: first?.start ?? 1 };
  return { node: items.length > 0 ? [list.create(attributes, items), ...figures] : figures, next: at };
}
