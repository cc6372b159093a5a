/** What kind of edit a transaction is. In: a transaction; out: whether it can have touched more than the letters of text blocks. */
import type { Transaction } from 'prosemirror-state';
import { ReplaceStep } from 'prosemirror-transform';

/** Letters put into a text block, or some of its content taken out: no block comes, goes or becomes another. */
export function isTyping({ steps, docs }: Transaction): boolean {
  return steps.every((step, at) => {
    if (!(step instanceof ReplaceStep) || !step.slice.content.content.every((node) => node.isText)) return false;
    const $from = docs[at]?.resolve(step.from);
    return $from?.parent.isTextblock === true && step.to <= $from.end();
  });
}
