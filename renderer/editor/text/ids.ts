/**
 * Ids for what is typed, pasted or split. In: a transaction that may leave blocks without an id or with one that is taken;
 * out: one that gives them ids of their own, in the same breath.
 */
import { type EditorState, Plugin, type Transaction } from 'prosemirror-state';
import { isTyping } from './edits.ts';
import { blocksOf } from './places.ts';

/** A new id. Chance makes it: two computers that work on copies of a book must not hit on the same. */
export function freshId(): string {
  const letters = crypto.getRandomValues(new Uint32Array(2));
  return `w${letters[0]?.toString(36)}${letters[1]?.toString(36)}`;
}

/** @param isTaken whether another section of the book has the id. */
export function idsPlugin(isTaken: (id: string) => boolean): Plugin {
  return new Plugin({
    appendTransaction: (transactions, before, after) =>
      // Letters bring no id that was not there: the most frequent edit costs no look at the section.
      transactions.some((each) => each.docChanged && !isTyping(each)) ? withIds(before, after, isTaken) : null,
  });
}

function withIds(before: EditorState, after: EditorState, isTaken: (id: string) => boolean): Transaction | null {
  const had = blocksOf(before.doc);
  const seen = new Set<string>();
  let fixed: Transaction | null = null;
  after.doc.descendants((node, at) => {
    const id: unknown = node.attrs['id'];
    if (typeof id !== 'string') return !node.isTextblock || node.childCount > 0;
    if (id !== '' && !seen.has(id) && (had.has(id) || !isTaken(id))) seen.add(id);
    else {
      const fresh = freshId();
      seen.add(fresh);
      fixed = (fixed ?? after.tr).setNodeAttribute(at, 'id', fresh);
    }
    return true;
  });
  return fixed;
}
