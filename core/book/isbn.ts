/**
 * International Standard Book Numbers (ISO 2108). In: digits as typed; out: checked digits, check digits, and the
 * number parted by hyphens.
 */
import isbnRanges from 'isbn3';

/** The digits of an ISBN as typed: hyphens, spaces and a leading "ISBN" dropped, the X of a ten-digit number in capitals. */
export function isbnDigits(typed: string): string {
  return typed
    .toUpperCase()
    .replace(/^\s*ISBN(?:-1[03])?:?/, '')
    .replace(/[\s\u00AD\u2010-\u2015\u2212-]/g, '');
}

/** The check digit after the first twelve digits: weights 1 and 3 by turns, to a multiple of 10 (ISO 2108). */
export function checkDigit13(first12: string): string {
  let sum = 0;
  for (let place = 0; place < 12; place++) sum += digitAt(first12, place) * (place % 2 === 0 ? 1 : 3);
  return String((10 - (sum % 10)) % 10);
}

/** The check digit after the first nine digits: weights 10 to 2, to a multiple of 11, ten written X (ISO 2108:1992). */
export function checkDigit10(first9: string): string {
  let sum = 0;
  for (let place = 0; place < 9; place++) sum += digitAt(first9, place) * (10 - place);
  const digit = (11 - (sum % 11)) % 11;
  return digit === 10 ? 'X' : String(digit);
}

/** Whether 13 bare digits are a book's number with the right check digit. */
export function isIsbn13(digits: string): boolean {
  return /^97[89]\d{10}$/.test(digits) && checkDigit13(digits) === digits[12];
}

/** Whether ten bare digits (the last may be X) carry the right check digit. */
export function isIsbn10(digits: string): boolean {
  return /^\d{9}[\dX]$/.test(digits) && checkDigit10(digits) === digits[9];
}

/** The thirteen-digit form of a ten-digit number: 978 before the first nine digits, and a new check digit. */
export function isbn13From10(digits: string): string {
  const first12 = `978${digits.slice(0, 9)}`;
  return first12 + checkDigit13(first12);
}

/**
 * An ISBN-13 with hyphens by the agency's registration ranges (RangeMessage data of the `isbn3` package). Where the
 * range is unassigned or the number is wrong, only the prefix is parted.
 */
export function hyphenatedIsbn(digits: string): string {
  return isbnRanges.hyphenate(digits) ?? digits.replace(/^(97[89])(\d+)$/, '$1-$2');
}

function digitAt(digits: string, place: number): number {
  const digit = digits.charCodeAt(place) - 48;
  if (!(digit >= 0 && digit <= 9)) throw new RangeError(`not a digit at place ${place} of "${digits}"`);
  return digit;
}
