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

/** A node inside a section by its id, notes' blocks included, and where it stands. */
export function blockAt(section: Node, id: string): { readonly node: Node; readonly at: number } | null {
  let found: { readonly node: Node; readonly at: number } | null = null;
  section.descendants((node, at) => {
    if (!found && node.attrs['id'] === id) found = { node, at };
    return found === null;
  });
  return found;
}

function flatLength(textblock: Node): number {
  return textblock.children.reduce((sum, child) => sum + (child.isText ? child.nodeSize : 1), 0);
}

export function idOf(node: Node): string {
  return String(node.attrs['id'] ?? '');
}
