/** The languages that a book is written in: its own and those of marked passages. */
import type { Book } from '#book';

/** BCP 47 tags, the book's own first, the others in the order of their first passage. */
export function languagesOf(book: Book): readonly string[] {
  const found = new Set([book.metadata.language]);
  book.text.descendants((node) => {
    for (const mark of node.marks) {
      if (mark.type.name === 'language') found.add(String(mark.attrs['tag']));
    }
  });
  return [...found];
}
