/** A file's bytes to a book: a manuscript is read and recognised, a book file is opened. */
import { failure, type Outcome, success } from '#base';
import { type Book, furnish } from '#book';
import {
  type ImportReport,
  type Inflate,
  optionsWithout,
  type ReviewLine,
  readDocx,
  recognise,
  reviewLines,
} from '#manuscript';
import { readProject } from '#project';

export interface Opened {
  /** The book as the file holds it: a manuscript's has nothing but what the manuscript says. */
  readonly book: Book;
  /** How a manuscript was understood; null for a book file, whose author has agreed already. */
  readonly report: ImportReport | null;
}

/** What a host may have that is faster than we. */
export interface Quicker {
  /** Unpacks the parts of a manuscript. */
  readonly inflate?: Inflate;
  /** SHA-256 in hexadecimal, by which a book file is checked. */
  readonly hash?: (bytes: Uint8Array) => string;
}

/**
 * Opens a manuscript or a book file.
 * @param name the file's name with its extension, for messages and as the last resort for a title.
 */
export function openFile(bytes: Uint8Array, name: string, { inflate, hash }: Quicker = {}): Outcome<Opened> {
  if (isBookFile(bytes, name)) {
    const project = readProject(bytes, hash);
    return project.ok ? success({ book: project.value, report: null }) : failure(`${name}: ${project.problem}`);
  }
  return importManuscript(bytes, name, inflate ? { inflate } : {});
}

export interface Imported extends Opened {
  readonly report: ImportReport;
  /** The manuscript as it came, line by line. */
  readonly lines: () => readonly ReviewLine[];
}

/**
 * Reads and recognises a manuscript.
 * @param options `without` names the clean-ups to leave undone.
 */
export function importManuscript(
  bytes: Uint8Array,
  name: string,
  options: { readonly inflate?: Inflate; readonly without?: readonly string[] },
): Outcome<Imported> {
  const manuscript = readDocx(bytes, name, options.inflate);
  if (!manuscript.ok) return manuscript;
  const { book, report, placed } = recognise(manuscript.value, optionsWithout(options.without ?? []));
  if (isEmpty(book)) return failure(`“${name}” holds no text to make a book of.`);
  return success({ book, report, lines: () => reviewLines(manuscript.value, placed) });
}

/** The opened book with what every book needs (editions, standard matter), unless it has that already. */
export function bookOf(opened: Opened): Book {
  return opened.report ? furnish(opened.book) : opened.book;
}

/** Whether a book has neither words nor pictures. */
function isEmpty({ text, assets }: Book): boolean {
  if (assets.size > 0) return false;
  // Section by section, since the first with text settles it.
  for (let index = 0; index < text.childCount; index++) if (text.child(index).textContent.trim() !== '') return false;
  return true;
}

/** Offset of the first entry's name in a zip file (APPNOTE 4.3.7, from memory). */
const FIRST_NAME = 30;
const BOOK_FILE_BEGINS = 'manifest.json';

/** A book file by its extension, or by what it begins with where it was renamed. */
function isBookFile(bytes: Uint8Array, name: string): boolean {
  if (name.toLowerCase().endsWith('.reglet')) return true;
  const first = bytes.subarray(FIRST_NAME, FIRST_NAME + BOOK_FILE_BEGINS.length);
  return String.fromCharCode(...first) === BOOK_FILE_BEGINS;
}
