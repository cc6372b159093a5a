/** A small book to keep, what is done to it, and what files hold, for the tests of the store. */
import { readFileSync } from 'node:fs';
import type { Outcome } from '#base';
import type { Book, Change } from '#book';
import { readProject } from '#project';
import { book, bookValue, chapter, p } from '../builders/book.ts';

export const START = (): Book => bookValue(book(chapter('One', p('A lamp.')), chapter('Two', p('A weir.'))));

export const titled = (title: string): Change => ({ kind: 'setMetadata', set: { title } });

/** What came out well; a refusal fails the test with its sentence. */
export function gained<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new RangeError(outcome.problem);
  return outcome.value;
}

/** The title of the book in a file. Throws where there is none that opens. */
export function titleIn(file: string): string {
  return gained(readProject(readFileSync(file))).metadata.title;
}
