/** Changes of a section's text by steps. In: a Book and steps as JSON; out: the next Book, and the steps back. */
import { Fragment, type Node, Slice } from 'prosemirror-model';
import { AttrStep, ReplaceAroundStep, ReplaceStep, Step } from 'prosemirror-transform';
import { failure, type Outcome, success } from '#base';
import type { Book, Json } from '../book.ts';
import type { Change } from '../change.ts';
import { clashingId } from '../ids.ts';
import { schema } from '../schema.ts';
import { type Applied, applied, placeOf, withSections } from './applied.ts';

type Of<Kind extends Change['kind']> = Extract<Change, { readonly kind: Kind }>;

export function editText(book: Book, change: Of<'editText'>): Outcome<Applied> {
  const place = placeOf(book, change.section);
  if (!place.ok) return place;
  const before = book.text.child(place.value);
  const stepped = runSteps(before, change.steps);
  if (!stepped.ok) return stepped;
  const { node, inverse } = stepped.value;
  if (!node.hasMarkup(before.type, before.attrs)) {
    return failure(`Text steps may not change what section "${change.section}" is.`);
  }
  const clash = clashingId(book.text, before, node);
  if (clash !== null) return failure(clashSentence(clash));
  return applied(withSections(book, place.value, 1, [node]), { ...change, steps: inverse });
}

/** What to say of an id that the book has already. */
export function clashSentence(id: string): string {
  return id === '' ? 'A block of the new text has no id.' : `The id "${id}" is taken already in this book.`;
}

interface Stepped {
  readonly node: Node;
  readonly inverse: readonly Json[];
}

/** Steps that do not fit the section, or that are no steps at all, come from outside: they fail, they do not throw. */
function runSteps(section: Node, steps: readonly Json[]): Outcome<Stepped> {
  try {
    return applySteps(section, steps);
  } catch (error) {
    if (error instanceof RangeError) return failure(`The text step does not fit: ${error.message}.`);
    throw error;
  }
}

function applySteps(section: Node, steps: readonly Json[]): Outcome<Stepped> {
  const inverse: Json[] = [];
  let node = section;
  for (const json of steps) {
    const step = Step.fromJSON(schema, json);
    const result = step.apply(node);
    if (!result.doc) return failure(`The text step does not fit: ${result.failed ?? 'it has no result'}.`);
    inverse.unshift(exactInverse(step, node, result.doc).toJSON() as Json);
    node = result.doc;
  }
  node.check();
  return success({ node, inverse });
}

/**
 * A step's own inverse where that leads back exactly. Steps of marks forget which text bore the mark before: there the
 * old blocks take the place of the new.
 */
function exactInverse(step: Step, before: Node, after: Node): Step {
  const exact = step instanceof ReplaceStep || step instanceof ReplaceAroundStep || step instanceof AttrStep;
  return exact ? step.invert(before) : blocksRestored(before, after);
}

function blocksRestored(before: Node, after: Node): Step {
  let first = 0;
  while (first < before.childCount && before.child(first) === after.maybeChild(first)) first++;
  let common = 0;
  const most = Math.min(before.childCount, after.childCount) - first;
  while (common < most && sameFromEnd(before, after, common)) common++;
  const from = sizeOf(before.children.slice(0, first));
  const to = after.content.size - sizeOf(before.children.slice(before.childCount - common));
  const old = before.children.slice(first, before.childCount - common);
  return new ReplaceStep(from, to, new Slice(Fragment.fromArray(old), 0, 0));
}

function sameFromEnd(one: Node, other: Node, index: number): boolean {
  return one.child(one.childCount - 1 - index) === other.child(other.childCount - 1 - index);
}

function sizeOf(nodes: readonly Node[]): number {
  return nodes.reduce((sum, node) => sum + node.nodeSize, 0);
}
