/** An ISBN as it is typed. In: characters; out: the thirteen digits, or what is not right yet, in one sentence. */
import {
  checkDigit10,
  checkDigit13,
  type Edition,
  hyphenatedIsbn,
  isbn13From10,
  isbnDigits,
  isIsbn10,
  isIsbn13,
} from '#book';
import { texts } from '../ui/index.ts';

const words = texts.press.edition;

export interface IsbnReading {
  /** 13 digits, or null where nothing is typed or it is not right. */
  readonly isbn: string | null;
  readonly problem: string | null;
  /** What was understood, where it is right. */
  readonly help: string | null;
}

const NOTHING: IsbnReading = { isbn: null, problem: null, help: null };

/** @param others editions that may not have the same number. */
export function readIsbn(typed: string, others: readonly Pick<Edition, 'name' | 'isbn'>[] = []): IsbnReading {
  const digits = isbnDigits(typed);
  if (digits === '') return NOTHING;
  const isbn = isIsbn13(digits) ? digits : isIsbn10(digits) ? isbn13From10(digits) : null;
  if (isbn === null) return { ...NOTHING, problem: problemOf(digits) };
  const taken = others.find((each) => each.isbn === isbn);
  if (taken) return { ...NOTHING, problem: words.isbnTaken(taken.name) };
  const shown = hyphenatedIsbn(isbn);
  return { isbn, problem: null, help: digits.length === 10 ? words.isbnFrom10(shown) : words.isbnRight(shown) };
}

function problemOf(digits: string): string {
  if (/^97[89]\d{9}$/.test(digits)) return words.isbnNext(checkDigit13(digits));
  if (/^\d{13}$/.test(digits)) {
    return /^97[89]/.test(digits) ? words.isbnDigit(checkDigit13(digits.slice(0, 12))) : words.isbnPrefix;
  }
  if (/^\d{9}[\dX]$/.test(digits)) return words.isbnDigit(checkDigit10(digits.slice(0, 9)));
  return words.isbnLength(digits.length);
}
