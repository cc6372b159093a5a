/**
 * The keys inside the text that are not commands of a menu: Enter, Backspace, Tab and Delete where blocks meet. In: nothing;
 * out: a keymap. What it leaves alone goes on to the window's commands.
 */
import {
  baseKeymap,
  chainCommands,
  createParagraphNear,
  deleteSelection,
  exitCode,
  joinBackward,
  liftEmptyBlock,
  newlineInCode,
  selectNodeBackward,
  splitBlock,
} from 'prosemirror-commands';
import { undoInputRule } from 'prosemirror-inputrules';
import { keymap } from 'prosemirror-keymap';
import { liftListItem, sinkListItem, splitListItem } from 'prosemirror-schema-list';
import { type Command, type Plugin, TextSelection } from 'prosemirror-state';
import { schema } from '#book';
import { ancestor } from './commands.ts';

const { nodes } = schema;

/** A soft return. */
const breakLine: Command = (state, dispatch) => {
  if (!state.selection.$from.parent.isTextblock) return false;
  dispatch?.(state.tr.replaceSelectionWith(nodes.lineBreak.create()).scrollIntoView());
  return true;
};

/** From a title into the text below it. */
const leaveTitle: Command = (state, dispatch) => {
  const { $from, empty } = state.selection;
  const { parent } = $from;
  if (!empty || (parent.type !== nodes.sectionTitle && parent.type !== nodes.sectionSubtitle)) return false;
  if ($from.parentOffset < parent.content.size) return false;
  if (!dispatch) return true;
  const after = $from.after();
  const next = state.doc.resolve(after).nodeAfter;
  const tr = next?.type === nodes.paragraph ? state.tr : state.tr.insert(after, nodes.paragraph.create());
  dispatch(tr.setSelection(TextSelection.create(tr.doc, after + 1)).scrollIntoView());
  return true;
};

/** A line of verse splits into two; an empty line ends the stanza, and an empty stanza the poem. */
const splitVerse: Command = (state, dispatch) => {
  const stanza = ancestor(state.selection, (node) => node.type === nodes.stanza);
  if (!stanza) return false;
  const { $from } = state.selection;
  const empty = $from.parent.content.size === 0;
  const last = $from.index(-1) === stanza.node.childCount - 1;
  if (!empty || !last) return splitBlock(state, dispatch);
  if (!dispatch) return true;
  const tr = state.tr;
  const verse = $from.node(-2);
  const lastStanza = $from.index(-2) === verse.childCount - 1;
  if (stanza.node.childCount === 1 && lastStanza && verse.childCount > 1) {
    tr.delete(stanza.at, stanza.at + stanza.node.nodeSize);
    const after = tr.mapping.map($from.after(-2));
    tr.insert(after, nodes.paragraph.create());
    tr.setSelection(TextSelection.create(tr.doc, after + 1));
  } else {
    tr.delete($from.before(), $from.after());
    const at = tr.mapping.map($from.after(-1));
    tr.insert(at, nodes.stanza.create(null, nodes.verseLine.create()));
    tr.setSelection(TextSelection.create(tr.doc, at + 2));
  }
  dispatch(tr.scrollIntoView());
  return true;
};

/** The line of verse one step in or out. */
const indentVerse =
  (by: 1 | -1): Command =>
  (state, dispatch) => {
    const line = ancestor(state.selection, (node) => node.type === nodes.verseLine);
    if (!line) return false;
    const indent = Math.min(8, Math.max(0, Number(line.node.attrs['indent']) + by));
    dispatch?.(state.tr.setNodeAttribute(line.at, 'indent', indent));
    return true;
  };

/** The next cell of a table, or the one before. */
const nextCell =
  (by: 1 | -1): Command =>
  (state, dispatch) => {
    const table = ancestor(state.selection, (node) => node.type === nodes.table);
    if (!table) return false;
    const cells: number[] = [];
    table.node.descendants((node, at) => {
      if (node.type === nodes.tableCell) cells.push(table.at + 1 + at);
      return node.type !== nodes.tableCell;
    });
    const { from } = state.selection;
    const here = cells.findLastIndex((at) => at < from);
    const next = cells[here + by];
    if (next !== undefined)
      dispatch?.(state.tr.setSelection(TextSelection.create(state.doc, next + 2)).scrollIntoView());
    return true;
  };

/** In an empty paragraph after a scene break, Backspace takes the break away and not the paragraph before. */
const dropSceneBreak: Command = (state, dispatch) => {
  const { $from, empty } = state.selection;
  if (!empty || $from.parentOffset > 0 || $from.depth < 1) return false;
  const before = state.doc.resolve($from.before()).nodeBefore;
  if (before?.type !== nodes.sceneBreak) return false;
  dispatch?.(state.tr.delete($from.before() - before.nodeSize, $from.before()).scrollIntoView());
  return true;
};

/** Paragraphs that are empty and asked for twice end the letter, the quotation or the list around them. */
const enter = chainCommands(
  leaveTitle,
  splitVerse,
  splitListItem(nodes.listItem),
  newlineInCode,
  createParagraphNear,
  liftEmptyBlock,
  splitBlock,
);

const backspace = chainCommands(undoInputRule, deleteSelection, dropSceneBreak, joinBackward, selectNodeBackward);

export function textKeys(): Plugin {
  return keymap({
    ...baseKeymap,
    Enter: enter,
    'Shift-Enter': chainCommands(exitCode, breakLine),
    Backspace: backspace,
    'Mod-Backspace': backspace,
    Tab: chainCommands(indentVerse(1), sinkListItem(nodes.listItem), nextCell(1)),
    'Shift-Tab': chainCommands(indentVerse(-1), liftListItem(nodes.listItem), nextCell(-1)),
    // These are the window's.
    'Mod-Enter': () => false,
  });
}
