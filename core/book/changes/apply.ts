/**
 * The one way from a Book to the next. In: a Book and a Change; out: the next Book and the change that leads back, or one
 * sentence that says why it can't be. Nodes that the change does not touch keep their identity.
 */
import type { Node } from 'prosemirror-model';
import { assertNever, type Outcome } from '#base';
import type { Book } from '../book.ts';
import type { Change } from '../change.ts';
import { type Applied, applied } from './applied.ts';
import { dropMuted, dropRemark, putMuted, putRemark, withoutLost } from './decisions.ts';
import { addSection, dropSection, joinSections, moveSection, setSection, splitSection } from './order.ts';
import { dropAsset, dropDesign, dropEdition, putAsset, putDesign, putEdition, setMetadata } from './settings.ts';
import { editText } from './text.ts';

/** The book after the change, and the inverse change. What was decided about a place goes with it, and comes back with it. */
export function applyChange(book: Book, change: Change): Outcome<Applied> {
  const passed: Node[] = [];
  const outcome = applyOne(book, change, passed);
  return outcome.ok ? withoutLost(book, outcome.value, passed) : outcome;
}

/** @param passed takes the texts that a group comes through. */
function applyOne(book: Book, change: Change, passed: Node[]): Outcome<Applied> {
  switch (change.kind) {
    case 'editText':
      return editText(book, change);
    case 'addSection':
      return addSection(book, change);
    case 'dropSection':
      return dropSection(book, change);
    case 'moveSection':
      return moveSection(book, change);
    case 'setSection':
      return setSection(book, change);
    case 'splitSection':
      return splitSection(book, change);
    case 'joinSections':
      return joinSections(book, change);
    case 'setMetadata':
      return setMetadata(book, change);
    case 'putEdition':
      return putEdition(book, change);
    case 'dropEdition':
      return dropEdition(book, change);
    case 'putDesign':
      return putDesign(book, change);
    case 'dropDesign':
      return dropDesign(book, change);
    case 'putAsset':
      return putAsset(book, change);
    case 'dropAsset':
      return dropAsset(book, change);
    case 'putMuted':
      return putMuted(book, change);
    case 'dropMuted':
      return dropMuted(book, change);
    case 'putRemark':
      return putRemark(book, change);
    case 'dropRemark':
      return dropRemark(book, change);
    case 'group':
      return applyGroup(book, change.changes, passed);
    default:
      return assertNever(change);
  }
}

/** All or none: where one change fails the whole group does. */
function applyGroup(book: Book, changes: readonly Change[], passed: Node[]): Outcome<Applied> {
  const back: Change[] = [];
  let next = book;
  for (const change of changes) {
    const outcome = applyOne(next, change, passed);
    if (!outcome.ok) return outcome;
    next = outcome.value.book;
    passed.push(next.text);
    back.unshift(outcome.value.inverse);
  }
  return applied(next, { kind: 'group', changes: back });
}
