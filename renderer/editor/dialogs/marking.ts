/** Marks and limits of what is selected. In: an editor's state; out: what holds there, and commands that set it. */
import type { Mark } from 'prosemirror-model';
import type { Command, EditorState } from 'prosemirror-state';
import { type MarkName, schema } from '#book';

/** The mark of a kind at the selection, if there is one. */
export function markRange({ selection, doc }: EditorState, name: MarkName): Mark | null {
  let found: Mark | null = null;
  doc.nodesBetween(selection.from, Math.max(selection.to, selection.from + 1), (node) => {
    found ??= node.marks.find((mark) => mark.type === schema.marks[name]) ?? null;
    return found === null;
  });
  return found;
}

/** The editions that hold the first selected block; null for all. */
export function limitsOf({ selection, doc }: EditorState): readonly string[] | null {
  const index = selection.$from.index(0);
  return (doc.maybeChild(index)?.attrs['editions'] as readonly string[] | null | undefined) ?? null;
}

/** Limits the selected blocks to editions; null lifts the limit. */
export function limitBlocks(editions: readonly string[] | null): Command {
  return (state, dispatch) => {
    const { tr } = state;
    const { from, to } = state.selection;
    state.doc.forEach((block, at) => {
      const selected = at < to && at + block.nodeSize > from;
      if (selected && 'editions' in block.attrs) tr.setNodeAttribute(at, 'editions', editions);
    });
    if (!tr.docChanged) return false;
    dispatch?.(tr);
    return true;
  };
}
