/** A book on its way to another thread of the program. In: a book; out: plain data, and the book again. */
import { type Book, schema } from '#book';

export interface CrossingBook {
  readonly parts: Omit<Book, 'text'>;
  /** The text as JSON: one string crosses between threads faster than its thousands of nodes. */
  readonly text: string;
}

export function crossing({ text, ...parts }: Book): CrossingBook {
  return { parts, text: JSON.stringify(text) };
}

/** The book again. It is trusted: it comes from the same program. */
export function crossed({ parts, text }: CrossingBook): Book {
  return { ...parts, text: schema.nodeFromJSON(JSON.parse(text)) };
}
