/**
 * Places in the text as the book counts them and as the editor does. In: a section's node with an anchor or a position in
 * it; out: the other of the two.
 */
import type { Node, ResolvedPos } from 'prosemirror-model';
import type { Anchor } from '#base';
import { positionIn } from '#book';

/** The anchor of a position: the text block that holds it, or the block that stands there. */
export function anchorOf($pos: ResolvedPos, section: Node): Anchor {
  if ($pos.parent.isTextblock) return { block: idOf($pos.parent), offset: flatOffset($pos) };
  const beside = $pos.nodeAfter ?? $pos.nodeBefore;
  return { block: beside ? idOf(beside) : idOf(section), offset: 0 };
}

/** A position in flat text: every inline leaf counts one. */
function flatOffset({ parent, parentOffset }: ResolvedPos): number {
  let offset = 0;
  let at = 0;
  for (const child of parent.children) {
    if (at + child.nodeSize > parentOffset) return offset + (child.isText ? parentOffset - at : 0);
    at += child.nodeSize;
    offset += child.isText ? child.nodeSize : 1;
  }
  return offset;
}

/** The position of an anchor inside a section; null where the section does not hold it. */
export function positionOf(section: Node, { block, offset }: Anchor): number | null {
  if (idOf(section) === block) return 0;
  const found = blockAt(section, block);
  if (!found) return null;
  if (!found.node.isTextblock) return found.at;
  const most = flatLength(found.node);
  return found.at + 1 + positionIn(found.node, Math.min(offset, most));
}

interface Placed {
  readonly node: Node;
  readonly at: number;
}

const indexes = new WeakMap<Node, ReadonlyMap<string, Placed>>();

/** A node inside a section by its id, notes' blocks included, and where it stands. */
export function blockAt(section: Node, id: string): Placed | null {
  return blocksOf(section).get(id) ?? null;
}

/** All that has an id inside a section. Walked once for each state of it: every card of the margin asks. */
export function blocksOf(section: Node): ReadonlyMap<string, Placed> {
  let index = indexes.get(section);
  if (!index) {
    index = indexed(section);
    indexes.set(section, index);
  }
  return index;
}

function indexed(section: Node): ReadonlyMap<string, Placed> {
  const index = new Map<string, Placed>();
  section.descendants((node, at) => {
    const id: unknown = node.attrs['id'];
    if (typeof id === 'string' && !index.has(id)) index.set(id, { node, at });
    return !node.isText;
  });
  return index;
}

function flatLength(textblock: Node): number {
  return textblock.children.reduce((sum, child) => sum + (child.isText ? child.nodeSize : 1), 0);
}

export function idOf(node: Node): string {
  return String(node.attrs['id'] ?? '');
}
