/** Roman numerals. In: a whole number; out: its numeral. */

const ROMAN: readonly (readonly [number, string])[] = [
  [1000, 'm'],
  [900, 'cm'],
  [500, 'd'],
  [400, 'cd'],
  [100, 'c'],
  [90, 'xc'],
  [50, 'l'],
  [40, 'xl'],
  [10, 'x'],
  [9, 'ix'],
  [5, 'v'],
  [4, 'iv'],
  [1, 'i'],
];

/** A number from 1 to 3999 in roman numerals, lower case unless asked otherwise; other numbers in figures. */
export function roman(value: number, letters: 'lower' | 'upper' = 'lower'): string {
  if (!Number.isInteger(value) || value < 1 || value > 3999) return String(value);
  let rest = value;
  let numeral = '';
  for (const [worth, letter] of ROMAN) {
    for (; rest >= worth; rest -= worth) numeral += letter;
  }
  return letters === 'upper' ? numeral.toUpperCase() : numeral;
}
