/**
 * Undo and redo across the whole book: text, running order, metadata, editions and designs in one history. In: each change
 * with its inverse, as it is made; out: the changes that lead back and forth. It holds changes, never books.
 */
import { Step } from 'prosemirror-transform';
import type { Json } from './book.ts';
import type { Change } from './change.ts';
import { schema } from './schema.ts';

/** One thing that the author did, and takes back at once. */
interface Deed {
  readonly forth: readonly Change[];
  /** Inverses, in the order in which they are applied. */
  readonly back: readonly Change[];
  /** What may join it; null for a deed that is complete. */
  readonly key: string | null;
}

/** How many deeds are kept: a day's work; a typed run of letters counts once. */
const MOST_DEEDS = 10_000;

export class History {
  private readonly done: Deed[] = [];
  private readonly undone: Deed[] = [];

  get canUndo(): boolean {
    return this.done.length > 0;
  }

  get canRedo(): boolean {
    return this.undone.length > 0;
  }

  /**
   * Remembers a change that was made. What was undone before it is gone.
   * @param key changes with the same key, one after the other, are one deed: a run of typing, a drag of a slider. It
   * is the caller who ends a run, by another key; this room knows no clock.
   */
  record(change: Change, inverse: Change, key: string | null = null): void {
    this.undone.length = 0;
    const last = this.done.at(-1);
    if (last && key !== null && last.key === key) this.done[this.done.length - 1] = joined(last, change, inverse);
    else this.done.push({ forth: [change], back: [inverse], key });
    if (this.done.length > MOST_DEEDS) this.done.shift();
  }

  /** The next change is a deed of its own, whatever its key. */
  seal(): void {
    const last = this.done.at(-1);
    if (last) this.done[this.done.length - 1] = { ...last, key: null };
  }

  /** The change that takes back the last deed, null if there is none. Whoever asks applies it, and does not record it. */
  undo(): Change | null {
    const deed = this.done.pop();
    if (!deed) return null;
    this.undone.push({ ...deed, key: null });
    this.seal();
    return oneOf(deed.back);
  }

  /** The change that does again what was last undone, null if there is nothing. */
  redo(): Change | null {
    const deed = this.undone.pop();
    if (!deed) return null;
    this.done.push(deed);
    return oneOf(deed.forth);
  }
}

function oneOf(changes: readonly Change[]): Change {
  const [first] = changes;
  return changes.length === 1 && first ? first : { kind: 'group', changes };
}

function joined({ forth, back, key }: Deed, change: Change, inverse: Change): Deed {
  return { forth: merged(forth, change), back: mergedBefore(inverse, back), key };
}

/** The changes with one more behind them; what is typed on becomes one step. */
function merged(changes: readonly Change[], next: Change): readonly Change[] {
  const last = changes.at(-1);
  const one = last && together(last, next);
  return one ? [...changes.slice(0, -1), one] : [...changes, next];
}

function mergedBefore(next: Change, changes: readonly Change[]): readonly Change[] {
  const [first, ...rest] = changes;
  const one = first && together(next, first);
  return one ? [one, ...rest] : [next, ...changes];
}

/** Two changes as one, where they are of the same thing; null where they are not. */
function together(one: Change, next: Change): Change | null {
  if (one.kind === 'editText' && next.kind === 'editText' && one.section === next.section) {
    return { ...one, steps: mergedSteps(one.steps, next.steps) };
  }
  return null;
}

/** Steps that touch become one: a sentence typed letter by letter is one insertion. Only where the two lists meet. */
function mergedSteps(steps: readonly Json[], more: readonly Json[]): readonly Json[] {
  const [last, first] = [steps.at(-1), more[0]];
  const both = last && first ? Step.fromJSON(schema, last).merge(Step.fromJSON(schema, first)) : null;
  return both ? [...steps.slice(0, -1), both.toJSON() as Json, ...more.slice(1)] : [...steps, ...more];
}
