import { expect, test } from 'vitest';
import { checkDigit10, checkDigit13, hyphenatedIsbn, isbn13From10, isbnDigits, isIsbn10, isIsbn13 } from '#book';

// FACTS 5.1 (ISO 2108; ISBN Users' Manual).
test('check digits', () => {
  expect(checkDigit13('978030640615')).toBe('7');
  expect(checkDigit13('978316148410')).toBe('0');
  expect(checkDigit13('978186197271')).toBe('2');
  expect(checkDigit10('080442957')).toBe('X');
  expect(checkDigit10('097522980')).toBe('X');
});

test('right and wrong numbers', () => {
  const right = (typed: string) => isIsbn13(isbnDigits(typed)) || isIsbn10(isbnDigits(typed));
  expect(
    ['978-0-306-40615-7', '0-306-40615-2', '3-16-148410-X', '979-8-88645-174-0', 'ISBN 9780306406157'].map(right),
  ).toEqual(Array(5).fill(true));
  expect(
    ['978-0-306-40615-8', '0-306-40615-3', '9780306406175', '97803064061', '9770306406157', ''].map(right),
  ).toEqual(Array(6).fill(false));
});

test('ten-digit numbers have a thirteen-digit twin', () => {
  expect(isbn13From10('0306406152')).toBe('9780306406157');
  expect(isbn13From10('316148410X')).toBe('9783161484100');
  expect(isbn13From10('0975229 80X'.replace(' ', ''))).toBe('9780975229804');
});

// FACTS 5.2 (International ISBN Agency, RangeMessage).
test.each([
  ['9780306406157', '978-0-306-40615-7'],
  ['9783161484100', '978-3-16-148410-0'],
  ['9781861972712', '978-1-86197-271-2'],
  ['9780198520115', '978-0-19-852011-5'],
  ['9780943396040', '978-0-943396-04-0'],
  ['9782070408504', '978-2-07-040850-4'],
  ['9783596102501', '978-3-596-10250-1'],
  ['9781402894626', '978-1-4028-9462-6'],
  ['9798886451740', '979-8-88645-174-0'],
  ['9791032305690', '979-10-323-0569-0'],
])('%s is parted as %s', (bare, parted) => {
  expect(hyphenatedIsbn(bare)).toBe(parted);
});

test('where no range is assigned, or the number is wrong, only the prefix is parted', () => {
  expect(hyphenatedIsbn('9780306406158')).toBe('978-0306406158');
  expect(hyphenatedIsbn('9799999999990')).toBe('979-9999999990');
});
