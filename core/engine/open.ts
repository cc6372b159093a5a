/** A file's bytes to a book: a manuscript is read and recognised, a book file is opened. */
import { type Outcome, success } from '#base';
import { type Book, furnish } from '#book';
import { type ImportReport, readDocx, recognise } from '#manuscript';
import { isProject, readProject } from '#project';

export interface Opened {
  /** The book as the file holds it: a manuscript's has nothing but what the manuscript says. */
  readonly book: Book;
  /** How a manuscript was understood; null for a book file, whose author has agreed already. */
  readonly report: ImportReport | null;
}

/**
 * Opens a manuscript or a book file.
 * @param name the file's name with its extension, for messages and as the last resort for a title.
 */
export function openFile(bytes: Uint8Array, name: string): Outcome<Opened> {
  if (isProject(bytes)) {
    const project = readProject(bytes, name);
    return project.ok ? success({ book: project.value, report: null }) : project;
  }
  const manuscript = readDocx(bytes, name);
  return manuscript.ok ? success(recognise(manuscript.value)) : manuscript;
}

/** The opened book with what every book needs (editions, standard matter), unless it has that already. */
export function bookOf(opened: Opened): Book {
  return opened.report ? furnish(opened.book) : opened.book;
}
