/**
 * The numbers that a book is known by. In: a book; out: findings about ISBNs that are wrong, shared or oddly written.
 * What the arithmetic can't tell is said too: only the agency's letter proves a number right.
 */
import type { Finding } from '#base';
import {
  type Book,
  type Change,
  checkDigit13,
  type Edition,
  hyphenatedIsbn,
  isbn13From10,
  isbnDigits,
  isIsbn10,
  isIsbn13,
} from '#book';

/** Rules `identifiers/...`. */
export function checkIdentifiers(book: Book): readonly Finding<Change>[] {
  return [
    ...book.editions.flatMap((edition, index) => checkIsbn(edition, index)),
    ...sharedIsbns(book.editions),
    ...checkIdentifier(book),
  ];
}

function checkIsbn(edition: Edition, index: number): readonly Finding<Change>[] {
  if (edition.isbn === null) return [];
  const digits = isbnDigits(edition.isbn);
  const wrong = problemWith(digits);
  if (wrong !== null) {
    return [
      {
        rule: 'identifiers/isbn',
        severity: 'error',
        message: `The ISBN ${edition.isbn} of “${edition.name}” ${wrong}; compare it with your ISBN agency's letter.`,
        edition: edition.id,
      },
    ];
  }
  const plain = isIsbn10(digits) ? isbn13From10(digits) : digits;
  return [...checkForm(edition, plain, index), ...checkRange(edition, plain)];
}

/** What is wrong with the digits, or null. Arithmetic by ISO 2108. */
function problemWith(digits: string): string | null {
  if (isIsbn13(digits) || isIsbn10(digits)) return null;
  if (/^\d{9}[\dX]$/.test(digits)) return 'has a check digit that does not fit';
  if (!/^\d{13}$/.test(digits)) return 'is not 13 digits long';
  if (!/^97[89]/.test(digits)) return 'does not begin with 978 or 979';
  return `has the check digit ${digits.charAt(12)} where the other digits ask for ${checkDigit13(digits)}`;
}

/** Ten-digit numbers and hyphens: barcodes and ebooks need thirteen bare digits. */
function checkForm(edition: Edition, plain: string, index: number): readonly Finding<Change>[] {
  if (edition.isbn === plain) return [];
  return [
    {
      rule: 'identifiers/isbn-form',
      severity: 'warning',
      message: `The ISBN ${edition.isbn} of “${edition.name}” should be kept as ${plain}.`,
      edition: edition.id,
      fix: { kind: 'putEdition', edition: { ...edition, isbn: plain }, index },
    },
  ];
}

/** Numbers from a range that the agency had not given out when our table was made. */
function checkRange(edition: Edition, plain: string): readonly Finding<Change>[] {
  if (hyphenatedIsbn(plain).split('-').length === 5) return [];
  return [
    {
      rule: 'identifiers/isbn-range',
      severity: 'warning',
      message:
        `The ISBN ${plain} of “${edition.name}” lies in a range that was not assigned when this program was made; ` +
        `compare it with your ISBN agency's letter. It is printed without its inner hyphens.`,
      edition: edition.id,
    },
  ];
}

/** Each product form has a number of its own (ISBN Users' Manual; FACTS I-01). */
function sharedIsbns(editions: readonly Edition[]): readonly Finding<Change>[] {
  const first = new Map<string, Edition>();
  const findings: Finding<Change>[] = [];
  for (const edition of editions) {
    if (edition.isbn === null) continue;
    const digits = isbnDigits(edition.isbn);
    const plain = isIsbn10(digits) ? isbn13From10(digits) : digits;
    const other = first.get(plain);
    if (!other) first.set(plain, edition);
    else {
      findings.push({
        rule: 'identifiers/isbn-shared',
        severity: 'error',
        message: `“${edition.name}” and “${other.name}” have the same ISBN; each form of a book needs its own.`,
        edition: edition.id,
      });
    }
  }
  return findings;
}

/** An ebook without a lasting identifier is no valid EPUB (EPUB 3.3, dc:identifier). */
function checkIdentifier({ metadata }: Book): readonly Finding<Change>[] {
  if (metadata.identifier !== '') return [];
  return [{ rule: 'identifiers/none', severity: 'error', message: 'The book has no identifier for its ebook.' }];
}
