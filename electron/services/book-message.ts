/** A book on its way to another thread of the program. In: a book; out: plain data, and the book again. */
import { type Book, schema } from '#book';

export interface BookMessage {
  readonly parts: Omit<Book, 'text'>;
  /** The text as JSON: one string crosses between threads faster than its thousands of nodes. */
  readonly text: string;
}

export function messageOf({ text, ...parts }: Book): BookMessage {
  return { parts, text: JSON.stringify(text) };
}

/** The book of a message, which is trusted: it comes from the same program. */
export function bookOfMessage({ parts, text }: BookMessage): Book {
  return { ...parts, text: schema.nodeFromJSON(JSON.parse(text)) };
}
