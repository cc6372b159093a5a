/** What is told of a book besides its files: its words, and the findings that concern all editions alike. */
import type { Finding } from '#base';
import { type Book, type Change, countWords } from '#book';
import { preflight } from '#preflight';

export interface Survey {
  readonly words: number;
  readonly findings: readonly Finding<Change>[];
}

export function surveyOf(book: Book): Survey {
  return { words: countWords(book.text), findings: preflight({ book }) };
}
