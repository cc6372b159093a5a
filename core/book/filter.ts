/**
 * One edition's share of the text. In: a node of the book, an edition, the fields' values; out: the node without what the
 * edition leaves out and with fields as text: the very same node where nothing had to change, null where nothing is left.
 *
 * Results are kept by node identity, one for each edition, so that an edit filters the edited block only.
 */
import { Fragment, type Node } from 'prosemirror-model';
import type { EditionId } from '#base';
import type { FieldValues } from './fields.ts';
import { type FieldName, schema } from './schema.ts';

/** What a node is filtered for. */
export interface Selection {
  readonly edition: EditionId;
  readonly fields: FieldValues;
  /** Changes with any field's value: the key under which filled text is kept. */
  readonly key: string;
}

interface Kept {
  readonly key: string;
  readonly node: Node | null;
}

const plainNodes = new WeakMap<Node, boolean>();
const filteredNodes = new WeakMap<Node, Map<EditionId, Kept>>();

/** The selection for an edition with these field values. */
export function selectionOf(edition: EditionId, fields: FieldValues): Selection {
  return { edition, fields, key: JSON.stringify(fields) };
}

/** A block, note or section as the edition holds it. */
export function filterNode(node: Node, selection: Selection): Node | null {
  if (isPlain(node)) return node;
  const kept = filteredNodes.get(node) ?? new Map<EditionId, Kept>();
  filteredNodes.set(node, kept);
  const known = kept.get(selection.edition);
  if (known?.key === selection.key) return known.node;
  const result = filterAnew(node, selection);
  kept.set(selection.edition, { key: selection.key, node: result });
  return result;
}

/** Whether a node and all inside it is the same in every edition. */
function isPlain(node: Node): boolean {
  if (node.isText) return true;
  let plain = plainNodes.get(node);
  if (plain === undefined) {
    plain = (node.attrs['editions'] ?? null) === null && node.type !== schema.nodes.field && allPlain(node);
    plainNodes.set(node, plain);
  }
  return plain;
}

function allPlain(node: Node): boolean {
  for (let index = 0; index < node.childCount; index++) {
    if (!isPlain(node.child(index))) return false;
  }
  return true;
}

function filterAnew(node: Node, selection: Selection): Node | null {
  const editions = node.attrs['editions'] as readonly EditionId[] | null | undefined;
  if (editions && !editions.includes(selection.edition)) return null;
  return node.isTextblock ? filledTextblock(node, selection) : filteredContainer(node, selection);
}

/** A container whose remaining children no longer make a whole is left out; a table's cell stays, empty. */
function filteredContainer(node: Node, selection: Selection): Node | null {
  const children: Node[] = [];
  node.forEach((child) => {
    const kept = filterNode(child, selection);
    if (kept) children.push(kept);
  });
  if (node.type === schema.nodes.section) return filteredSection(node, children);
  const content = Fragment.fromArray(children);
  if (node.type.validContent(content)) return node.copy(content);
  return node.type === schema.nodes.tableCell ? node.type.createAndFill(node.attrs) : null;
}

/** A section that lost all its blocks goes too, with its title, unless a title is all that it needs. */
function filteredSection(node: Node, children: readonly Node[]): Node | null {
  const before = node.children.some(isBlock);
  const after = children.some(isBlock);
  if (before && !after && !STANDS_ALONE.has(String(node.attrs['kind']))) return null;
  return node.copy(Fragment.fromArray([...children]));
}

/** Kinds that say enough by their title, or that the edition can make by itself. */
const STANDS_ALONE: ReadonlySet<string> = new Set(['part', 'halfTitle', 'titlePage', 'contents']);

function isBlock(node: Node): boolean {
  return node.type.isInGroup('block');
}

/**
 * Fields become text with the field's marks. A text block whose fields are all empty has nothing to say and goes, and so
 * does one that promises an ISBN where there is none.
 */
function filledTextblock(node: Node, selection: Selection): Node | null {
  const names = fieldsIn(node);
  const said = names.filter((name) => selection.fields[name] !== '');
  if (names.length > 0 && (said.length === 0 || (names.includes('isbn') && !said.includes('isbn')))) return null;
  const inlines: Node[] = [];
  node.forEach((child) => {
    const filled = filledInline(child, selection);
    if (filled) inlines.push(filled);
  });
  return node.copy(Fragment.fromArray(said.length < names.length ? withoutDoubledSpaces(inlines) : inlines));
}

function filledInline(child: Node, selection: Selection): Node | null {
  if (child.type !== schema.nodes.field) return filterNode(child, selection);
  const text = selection.fields[child.attrs['name'] as FieldName];
  return text === '' ? null : schema.text(text, child.marks);
}

function fieldsIn(textblock: Node): readonly FieldName[] {
  return textblock.children
    .filter((child) => child.type === schema.nodes.field)
    .map((child) => child.attrs['name'] as FieldName);
}

/** An empty field leaves two spaces, or one at an end of the line: the one before it goes. */
function withoutDoubledSpaces(inlines: readonly Node[]): Node[] {
  const kept: Node[] = [];
  let before = ' ';
  inlines.forEach((node, index) => {
    let text = node.isText ? (node.text ?? '') : null;
    if (text !== null) {
      if (before.endsWith(' ')) text = text.replace(/^ +/, '');
      if (index === inlines.length - 1) text = text.replace(/ +$/, '');
      if (text !== '') kept.push(schema.text(text, node.marks));
    } else kept.push(node);
    if (text !== '') before = text ?? '\uFFFC';
  });
  return kept;
}
