/**
 * Places in an ebook's document and places in the text. In: a caret in the document or an anchor; out: the other. An anchor's
 * offset counts characters as the text has them: a line break and a note's reference one each, page marks none.
 */
import type { Anchor } from '#base';
import { elementIdOf } from '#ebook';

/** A caret as the document object model has it: a node and an offset into its characters or children. */
export interface CaretPlace {
  readonly offsetNode: Node;
  readonly offset: number;
}

/** The anchor of a caret: the nearest element with a block's id, and the characters before the caret in it. */
export function anchorOfCaret({ offsetNode, offset }: CaretPlace): Anchor | null {
  const element = offsetNode.nodeType === Node.TEXT_NODE ? offsetNode.parentElement : (offsetNode as Element);
  const block = element && blockAround(element);
  if (!block) return null;
  return { block: blockOf(block.id), offset: countBefore(block, offsetNode, offset) };
}

/** Where an anchor stands in the document; null where it does not have the block. */
export function placeOfAnchor(document: Document, { block, offset }: Anchor): CaretPlace | null {
  const element = document.getElementById(elementIdOf(block));
  if (!element) return null;
  let rest = offset;
  let found: CaretPlace | null = null;
  eachLeaf(element, (leaf, length) => {
    if (leaf.nodeType === Node.TEXT_NODE && rest <= length) {
      found = { offsetNode: leaf, offset: rest };
      return false;
    }
    rest = Math.max(0, rest - length);
    return true;
  });
  return found ?? { offsetNode: element, offset: 0 };
}

/** Ids that begin with `x-` are the ebook's own marks; notes' references stand inside a block. */
function blockAround(element: Element): Element | null {
  let block = element.closest('[id]');
  while (block && (block.id.startsWith('x-') || block.closest('.noteref') !== null)) {
    block = block.parentElement?.closest('[id]') ?? null;
  }
  return block;
}

/** The block of an element's id: the inverse of the spelling that element ids have. */
export function blockOf(id: string): string {
  if (!id.startsWith('_')) return id;
  return id.slice(1).replace(/_([0-9a-f]+)_/g, (_, code: string) => String.fromCodePoint(Number.parseInt(code, 16)));
}

function countBefore(block: Element, node: Node, offset: number): number {
  let count = 0;
  eachLeaf(block, (leaf, length) => {
    if (leaf === node) {
      count += Math.min(offset, length);
      return false;
    }
    // A caret in an element stands before its child of that number.
    const child = node.nodeType === Node.TEXT_NODE ? null : node.childNodes[offset];
    if (child && (child === leaf || child.contains(leaf))) return false;
    if (node.compareDocumentPosition(leaf) & Node.DOCUMENT_POSITION_FOLLOWING && !node.contains(leaf)) return false;
    count += length;
    return true;
  });
  return count;
}

/** The pieces of a block that count, in order, until `visit` gives false. */
function eachLeaf(block: Node, visit: (leaf: Node, length: number) => boolean): boolean {
  for (const child of block.childNodes) {
    const length = lengthOf(child);
    if (length === null) {
      if (!eachLeaf(child, visit)) return false;
    } else if (length > 0 && !visit(child, length)) return false;
  }
  return true;
}

/** Characters that a node counts by itself; null for one that is looked into. */
function lengthOf(node: Node): number | null {
  if (node.nodeType === Node.TEXT_NODE) return isOfFile(node) ? 0 : (node.nodeValue?.length ?? 0);
  if (node.nodeType !== Node.ELEMENT_NODE) return 0;
  const element = node as Element;
  if (element.localName === 'br' || element.classList.contains('noteref')) return 1;
  return UNCOUNTED.some((each) => element.matches(each)) ? 0 : null;
}

/** What the ebook adds to the text: page marks, ways back from notes, the number before a heading. */
const UNCOUNTED = ['[role="doc-pagebreak"]', '.backlink', '.opener .number'];

/** Line ends between elements are the file's, and so is the space between a heading's number and its title. */
function isOfFile(node: Node): boolean {
  const before = node.previousSibling as Element | null;
  return /^\n+$/.test(node.nodeValue ?? '') || (before?.nodeType === Node.ELEMENT_NODE && before.matches('.number'));
}
