/**
 * Which keys are undone together. In: transactions with the time; out: a word that changes whenever a new run begins: after
 * a pause, elsewhere in the text, or by another kind of edit.
 */
import type { EditorState, Transaction } from 'prosemirror-state';
import { ReplaceStep } from 'prosemirror-transform';

/** Milliseconds without a key after which a new run begins. */
const PAUSE = 1500;

type Way = 'typing' | 'deleting';

export class TypingRuns {
  private count = 0;
  private last: { readonly way: Way; readonly at: number; readonly time: number } | null = null;

  constructor(private readonly now: () => number) {}

  /** The word of the run that a transaction belongs to; null for an edit that stands alone. */
  keyOf(transaction: Transaction, before: EditorState): string | null {
    const typed = typedIn(transaction, before);
    if (!typed) {
      this.last = null;
      return null;
    }
    const time = this.now();
    const { last } = this;
    const goesOn = last !== null && last.way === typed.way && last.at === typed.from && time - last.time < PAUSE;
    if (!goesOn) this.count++;
    this.last = { way: typed.way, at: typed.to, time };
    return `run ${this.count}`;
  }
}

/** Where a plain edit of letters began and where the next one of its run would begin; null for any other edit. */
function typedIn(transaction: Transaction, before: EditorState): { way: Way; from: number; to: number } | null {
  const [step] = transaction.steps;
  if (transaction.steps.length !== 1 || !(step instanceof ReplaceStep)) return null;
  const { from, to, slice } = step;
  const inText =
    before.doc.resolve(from).parent.isTextblock && before.doc.resolve(to).sameParent(before.doc.resolve(from));
  if (!inText || slice.openStart > 0) return null;
  if (from === to && slice.size > 0 && slice.size <= 2) return { way: 'typing', from, to: from + slice.size };
  if (slice.size === 0 && to - from <= 2) return { way: 'deleting', from: to, to: from };
  return null;
}
