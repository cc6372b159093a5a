/** Sections in the book and in the editor. In: an editor's state and the section as the book has it; out: what sets them level. */
import type { Node } from 'prosemirror-model';
import { type EditorState, Selection, type Transaction } from 'prosemirror-state';

/** The mark of a transaction that brings in what the book has already. */
export const FROM_BOOK = 'from book';

/** A transaction that makes the editor's section what the book's is; null where it is so already. */
export function levelled(state: EditorState, section: Node): Transaction | null {
  const start = state.doc.content.findDiffStart(section.content);
  if (start === null) return null;
  const ends = state.doc.content.findDiffEnd(section.content);
  if (!ends) return null;
  let { a: end, b: sectionEnd } = ends;
  // Where the same text stands twice the two ends may overlap the beginning.
  const overlap = start - Math.min(end, sectionEnd);
  if (overlap > 0) {
    end += overlap;
    sectionEnd += overlap;
  }
  const transaction = state.tr.replace(start, end, section.slice(start, sectionEnd));
  const at = Math.min(transaction.mapping.map(state.selection.head), transaction.doc.content.size);
  if (!isKept(transaction)) transaction.setSelection(Selection.near(transaction.doc.resolve(at)));
  return transaction.setMeta(FROM_BOOK, true);
}

function isKept({ selection, doc }: Transaction): boolean {
  return selection.to <= doc.content.size;
}

/** Whether the section itself, not its content, differs: its kind, its heading, its editions. */
export function headDiffers(one: Node, other: Node): boolean {
  return !one.hasMarkup(other.type, other.attrs);
}

/** The notes of a section in the order of their references. */
export function notesOf(section: Node): readonly { readonly id: string; readonly node: Node; readonly at: number }[] {
  const notes: { id: string; node: Node; at: number }[] = [];
  section.descendants((node, at) => {
    if (node.type.name !== 'note') return true;
    notes.push({ id: String(node.attrs['id']), node, at });
    return false;
  });
  return notes;
}
