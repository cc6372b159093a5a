/**
 * Characters of the text. In: nodes; out: the flat text that anchors count in, the text as read, and word counts. All
 * are kept by node identity, so an edit costs the edited text block only.
 */
import type { Node } from 'prosemirror-model';
import { wordsIn } from './wordCount.ts';

/** Stands for a field or a note in a flat text (U+FFFC, object replacement character). */
export const INLINE_OBJECT = '\uFFFC';

const flatTexts = new WeakMap<Node, string>();
const readTexts = new WeakMap<Node, string>();
const wordCounts = new WeakMap<Node, number>();

/**
 * The flat text of a text block, in which `Anchor.offset` counts: its characters, a line break as a newline, a field or
 * note as `INLINE_OBJECT`, one UTF-16 unit each.
 */
export function flatText(textblock: Node): string {
  return remembered(flatTexts, textblock, () => joined(textblock, (leaf) => (isBreak(leaf) ? '\n' : INLINE_OBJECT)));
}

/**
 * The text of a node as it is read: text blocks one a line, line breaks as spaces, notes and unfilled fields left out.
 */
export function textOf(node: Node): string {
  return remembered(readTexts, node, () => {
    if (node.isTextblock) return joined(node, (leaf) => (isBreak(leaf) ? ' ' : ''));
    return textblocksOf(node).map(textOf).join('\n');
  });
}

/** The words of a node; of a section, those of its body: its title and subtitle are left out, and notes too. */
export function countWords(node: Node): number {
  return remembered(wordCounts, node, () => {
    if (node.isTextblock) return wordsIn(textOf(node));
    return bodyTextblocksOf(node).reduce((sum, each) => sum + countWords(each), 0);
  });
}

/** The text blocks inside a node in reading order, those of notes left out. */
export function textblocksOf(node: Node): readonly Node[] {
  const found: Node[] = [];
  collectTextblocks(node, found);
  return found;
}

/** The text blocks of a section below its title and subtitle. */
export function bodyTextblocksOf(section: Node): readonly Node[] {
  return textblocksOf(section).filter((each) => !isSectionHead(each));
}

/** Whether a node is a section's title or subtitle. */
export function isSectionHead(node: Node): boolean {
  return node.type.name === 'sectionTitle' || node.type.name === 'sectionSubtitle';
}

function collectTextblocks(node: Node, into: Node[]): void {
  if (node.isTextblock) into.push(node);
  else for (const child of node.children) collectTextblocks(child, into);
}

function joined(textblock: Node, leafText: (leaf: Node) => string): string {
  const only = textblock.childCount === 1 ? textblock.child(0) : null;
  if (only?.isText) return only.text ?? '';
  let text = '';
  textblock.forEach((child) => {
    text += child.isText ? child.text : leafText(child);
  });
  return text;
}

function isBreak(leaf: Node): boolean {
  return leaf.type.name === 'lineBreak';
}

function remembered<T>(cache: WeakMap<Node, T>, node: Node, make: () => T): T {
  let value = cache.get(node);
  if (value === undefined) {
    value = make();
    cache.set(node, value);
  }
  return value;
}
