/** Places in the text that rules look at, and what to call them. */
import type { Node } from 'prosemirror-model';
import type { Anchor, BlockId, SectionId } from '#base';
import { type SectionKind, schema, sectionName, textOf } from '#book';

/** Every text block of a section, those of notes included, in reading order. */
export function allTextblocks(section: Node): readonly Node[] {
  const found: Node[] = [];
  collectTextblocks(section, found);
  return found;
}

function collectTextblocks(node: Node, into: Node[]): void {
  if (node.isTextblock) into.push(node);
  for (const child of node.children) {
    if (!child.isLeaf) collectTextblocks(child, into);
  }
}

export function sectionId(section: Node): SectionId {
  return section.attrs['id'] as SectionId;
}

export function anchor(block: Node, offset: number): Anchor {
  return { block: block.attrs['id'] as BlockId, offset };
}

/** What to call a section in a sentence: its title, else its heading in the manuscript, else its kind. */
export function nameOf(section: Node, language: string): string {
  const first = section.firstChild;
  const title = first?.type === schema.nodes.sectionTitle ? textOf(first).trim() : '';
  const heading = section.attrs['heading'] as string | null;
  return title || heading || sectionName(section.attrs['kind'] as SectionKind, language);
}
