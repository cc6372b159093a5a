/** What applying a change gives, and the small moves that every kind of change is made of. */
import type { Node } from 'prosemirror-model';
import { failure, type Outcome, type SectionId, success } from '#base';
import type { Book } from '../book.ts';
import type { Change } from '../change.ts';

export interface Applied {
  readonly book: Book;
  /** The change that leads back. */
  readonly inverse: Change;
}

export function applied(book: Book, inverse: Change): Outcome<Applied> {
  return success({ book, inverse });
}

/** The place of a section in the running order, or a sentence. */
export function placeOf(book: Book, section: SectionId): Outcome<number> {
  const index = book.text.children.findIndex((each) => each.attrs['id'] === section);
  return index < 0 ? failure(`The book has no section "${section}".`) : success(index);
}

/** The book with `count` sections from `index` replaced; all other sections stay the same nodes. */
export function withSections(book: Book, index: number, count: number, sections: readonly Node[]): Book {
  const children = [...book.text.children];
  children.splice(index, count, ...sections);
  return { ...book, text: book.text.type.create(book.text.attrs, children) };
}

/** A list with `count` members from `index` replaced. */
export function spliced<T>(list: readonly T[], index: number, count: number, members: readonly T[]): readonly T[] {
  return [...list.slice(0, index), ...members, ...list.slice(index + count)];
}

/** Whether `index` is a place in a list of `length` to put something at, its end included. */
export function isPlace(index: number, length: number): boolean {
  return Number.isInteger(index) && index >= 0 && index <= length;
}
