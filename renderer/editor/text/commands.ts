/**
 * What the commands of the Text menu do to a selection. In: an editor's state; out: ProseMirror commands, by the ids of the
 * window's commands.
 */
import { chainCommands, lift, toggleMark, wrapIn } from 'prosemirror-commands';
import { Fragment, type Node, type NodeType, Slice } from 'prosemirror-model';
import { liftListItem, wrapInList } from 'prosemirror-schema-list';
import { type Command, NodeSelection, Selection, TextSelection } from 'prosemirror-state';
import { dropPoint } from 'prosemirror-transform';
import { type MarkName, type SetOffForm, schema } from '#book';
import type { CommandId } from '#host';

const { nodes, marks } = schema;

const mark = (name: MarkName): Command => toggleMark(marks[name]);
const heading = (level: number): Command => become(nodes.heading, { level });

/** Commands that need nothing but the selection. */
export const TEXT_COMMANDS: { readonly [Id in CommandId]?: Command } = {
  'text.emphasis': mark('emphasis'),
  'text.strong': mark('strong'),
  'text.smallCaps': mark('smallCaps'),
  'text.superscript': mark('superscript'),
  'text.subscript': mark('subscript'),
  'text.strikethrough': mark('strikethrough'),
  'text.paragraph': chainCommands(become(nodes.paragraph), plain()),
  'text.heading1': heading(1),
  'text.heading2': heading(2),
  'text.heading3': heading(3),
  'text.quotation': wrapped(nodes.quotation),
  'text.epigraph': wrapped(nodes.epigraph),
  'text.verse': toVerse,
  'text.letter': setOff('letter'),
  'text.telegram': setOff('telegram'),
  'text.message': setOff('message'),
  'text.sign': setOff('sign'),
  'text.document': setOff('document'),
  'text.bulletList': listed(false),
  'text.orderedList': listed(true),
  'text.sceneBreak': insertSceneBreak,
  'text.note': insertNote,
  'text.table': insertTable,
};

/** Makes paragraphs and subheads of the selection blocks of another type; each stays the block that it was, by its id. */
function become(type: NodeType, attrs: Record<string, unknown> = {}): Command {
  return (state, dispatch) => {
    const { tr } = state;
    const { from, to } = state.selection;
    state.doc.nodesBetween(from, to, (node, at) => {
      const proper = node.type === nodes.paragraph || node.type === nodes.heading;
      if (!proper || (node.type === type && sameAttrs(node, attrs))) return true;
      const $at = state.doc.resolve(at);
      if (!$at.parent.canReplaceWith($at.index(), $at.index() + 1, type)) return true;
      const { id, editions } = node.attrs;
      tr.setNodeMarkup(at, type, { id, editions, ...attrs });
      return true;
    });
    if (!tr.docChanged) return false;
    dispatch?.(tr.scrollIntoView());
    return true;
  };
}

/** Wraps the blocks of the selection, or unwraps them where they are wrapped so already. */
function wrapped(type: NodeType, attrs?: Record<string, unknown>): Command {
  return (state, dispatch, view) => {
    const around = ancestor(state.selection, (node) => node.type === type && sameAttrs(node, attrs));
    return around ? lift(state, dispatch, view) : wrapIn(type, attrs ?? null)(state, dispatch, view);
  };
}

/** A set-off text of a form; one of another form changes its form. */
function setOff(form: SetOffForm): Command {
  return (state, dispatch, view) => {
    const around = ancestor(state.selection, (node) => node.type === nodes.setOff);
    if (!around || around.node.attrs['form'] === form) return wrapped(nodes.setOff, { form })(state, dispatch, view);
    dispatch?.(state.tr.setNodeAttribute(around.at, 'form', form));
    return true;
  };
}

function listed(ordered: boolean): Command {
  return (state, dispatch, view) => {
    const around = ancestor(state.selection, (node) => node.type === nodes.list);
    if (!around) return wrapInList(nodes.list, { ordered })(state, dispatch);
    if (around.node.attrs['ordered'] === ordered) return liftListItem(nodes.listItem)(state, dispatch, view);
    dispatch?.(state.tr.setNodeAttribute(around.at, 'ordered', ordered));
    return true;
  };
}

/** Out of whatever wraps the paragraph; lines of verse become paragraphs. */
function plain(): Command {
  return (state, dispatch, view) => {
    const verse = ancestor(state.selection, (node) => node.type === nodes.verse);
    if (!verse) return lift(state, dispatch, view);
    const paragraphs = linesOf(verse.node).map((line) =>
      nodes.paragraph.create({ id: line.attrs['id'] }, line.content),
    );
    dispatch?.(state.tr.replaceWith(verse.at, verse.at + verse.node.nodeSize, paragraphs).scrollIntoView());
    return true;
  };
}

function linesOf(verse: Node): readonly Node[] {
  const lines: Node[] = [];
  verse.descendants((node) => {
    if (node.isTextblock) lines.push(node);
    return !node.isTextblock;
  });
  return lines;
}

/** The paragraphs of the selection as a poem: each a line, an empty one the end of a stanza. */
function toVerse(...[state, dispatch]: Parameters<Command>): boolean {
  const { $from, $to } = state.selection;
  const range = $from.blockRange($to, (parent) => parent.type === nodes.section || parent.type === nodes.setOff);
  if (!range) return false;
  const blocks = range.parent.children.slice(range.startIndex, range.endIndex);
  if (!blocks.every((block) => block.type === nodes.paragraph)) return false;
  const stanzas: Node[][] = [[]];
  for (const block of blocks) {
    if (block.content.size === 0) stanzas.push([]);
    else stanzas.at(-1)?.push(nodes.verseLine.create({ id: block.attrs['id'] }, block.content));
  }
  const full = stanzas.filter((lines) => lines.length > 0);
  const content = full.length > 0 ? full : [[nodes.verseLine.create()]];
  const verse = nodes.verse.create(
    null,
    content.map((lines) => nodes.stanza.create(null, lines)),
  );
  if (!dispatch) return true;
  const tr = state.tr.replaceWith(range.start, range.end, verse);
  dispatch(tr.setSelection(Selection.near(tr.doc.resolve(range.start + 3))).scrollIntoView());
  return true;
}

/** A scene break after the paragraph of the cursor, which is split there; the cursor goes on after it. */
function insertSceneBreak(...[state, dispatch]: Parameters<Command>): boolean {
  const { $from } = state.selection;
  const parent = $from.node(-1);
  if ($from.depth < 1 || !$from.parent.isTextblock || !parent) return false;
  if (!parent.canReplaceWith($from.index(-1), $from.index(-1), nodes.sceneBreak)) return false;
  if (!dispatch) return true;
  const tr = state.tr.deleteSelection();
  const at = tr.selection.$from;
  if (at.parentOffset > 0) tr.split(at.pos, 1, [{ type: nodes.paragraph }]);
  const before = tr.selection.$from.before();
  tr.insert(before, nodes.sceneBreak.create());
  tr.setSelection(Selection.near(tr.doc.resolve(before + 1), 1));
  dispatch(tr.scrollIntoView());
  return true;
}

/** An empty note at the cursor, selected so that it can be written at once. */
function insertNote(...[state, dispatch]: Parameters<Command>): boolean {
  const { $to } = state.selection;
  if (!$to.parent.canReplaceWith($to.index(), $to.index(), nodes.note) || insideNote(state.selection)) return false;
  if (!dispatch) return true;
  const tr = state.tr.insert($to.pos, nodes.note.create(null, nodes.paragraph.create()));
  dispatch(tr.setSelection(NodeSelection.create(tr.doc, $to.pos)).scrollIntoView());
  return true;
}

function insideNote(selection: Selection): boolean {
  return ancestor(selection, (node) => node.type === nodes.note) !== null;
}

const NEW_TABLE = { rows: 3, columns: 2 };

function insertTable(...[state, dispatch]: Parameters<Command>): boolean {
  const row = (header: boolean): Node =>
    nodes.tableRow.create(
      { header },
      Array.from({ length: NEW_TABLE.columns }, () => nodes.tableCell.create(null, nodes.paragraph.create())),
    );
  const rows = Array.from({ length: NEW_TABLE.rows }, (_, at) => row(at === 0));
  return insertBlock(nodes.table.create(null, rows))(state, dispatch);
}

/** A block after the one that the cursor is in; in the place of an empty paragraph. */
export function insertBlock(block: Node): Command {
  return (state, dispatch) => {
    const { $from } = state.selection;
    for (let depth = $from.depth; depth > 0; depth--) {
      const index = $from.index(depth - 1);
      if (!$from.node(depth - 1).canReplaceWith(index, index, block.type)) continue;
      if (!dispatch) return true;
      const here = $from.node(depth);
      const replace = here.isTextblock && here.content.size === 0 && here.type === nodes.paragraph;
      const from = replace ? $from.before(depth) : $from.after(depth);
      const tr = state.tr.replaceWith(from, replace ? $from.after(depth) : from, block);
      dispatch(tr.setSelection(nearStart(tr.doc, from)).scrollIntoView());
      return true;
    }
    return false;
  };
}

/** A block at a place of the text, or the nearest that can have it; at the cursor where none can. */
export function insertBlockAt(block: Node, at: number): Command {
  return (state, dispatch) => {
    const place = dropPoint(state.doc, Math.min(at, state.doc.content.size), new Slice(Fragment.from(block), 0, 0));
    if (place === null) return insertBlock(block)(state, dispatch);
    const tr = state.tr.insert(place, block);
    dispatch?.(tr.setSelection(nearStart(tr.doc, place)).scrollIntoView());
    return true;
  };
}

function nearStart(doc: Node, at: number): Selection {
  return TextSelection.near(doc.resolve(at + 1), 1);
}

/** Something in the line at the cursor, in the place of what is selected. */
export function insertInline(content: Node | Fragment): Command {
  return (state, dispatch) => {
    if (!state.selection.$from.parent.isTextblock) return false;
    dispatch?.(state.tr.replaceWith(state.selection.from, state.selection.to, content).scrollIntoView());
    return true;
  };
}

export interface Around {
  readonly node: Node;
  readonly at: number;
}

/** The innermost node around a selection that is what is looked for. */
export function ancestor({ $from }: Selection, wanted: (node: Node) => boolean): Around | null {
  for (let depth = $from.depth; depth > 0; depth--) {
    if (wanted($from.node(depth))) return { node: $from.node(depth), at: $from.before(depth) };
  }
  return null;
}

function sameAttrs(node: Node, attrs: Record<string, unknown> | undefined): boolean {
  return Object.entries(attrs ?? {}).every(([name, value]) => node.attrs[name] === value);
}
