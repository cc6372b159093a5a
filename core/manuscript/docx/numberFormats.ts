/** ST_NumberFormat: a count as figures, letters, roman numerals or English words. */
import { roman } from '#base';

const ONES =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const TENS = ' ten twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');
const ORDINALS: Readonly<Record<string, string>> = {
  one: 'first',
  two: 'second',
  three: 'third',
  five: 'fifth',
  eight: 'eighth',
  nine: 'ninth',
  twelve: 'twelfth',
};

/** Formats not known here come out as plain figures. */
export function formatNumber(count: number, format: string): string {
  switch (format) {
    case 'none':
      return '';
    case 'upperRoman':
      return roman(count, 'upper');
    case 'lowerRoman':
      return roman(count);
    case 'upperLetter':
      return letters(count).toUpperCase();
    case 'lowerLetter':
      return letters(count);
    case 'decimalZero':
      return String(count).padStart(2, '0');
    case 'ordinal':
      return `${count}${ordinalEnding(count)}`;
    case 'cardinalText':
      return capitalised(words(count));
    case 'ordinalText':
      return capitalised(ordinalWords(count));
    case 'numberInDash':
      return `- ${count} -`;
    default:
      return String(count);
  }
}

/** a to z, then aa, bb, cc (ECMA-376 part 1, 17.18.59). */
function letters(count: number): string {
  if (count < 1 || count > 780) return String(count);
  return String.fromCharCode(97 + ((count - 1) % 26)).repeat(Math.ceil(count / 26));
}

function ordinalEnding(count: number): string {
  const teen = count % 100 >= 11 && count % 100 <= 13;
  return teen ? 'th' : (['th', 'st', 'nd', 'rd'][count % 10] ?? 'th');
}

function words(count: number): string {
  if (count < 0 || count > 999) return String(count);
  if (count < 20) return ONES[count]!;
  if (count < 100) return TENS[Math.floor(count / 10)]! + (count % 10 ? `-${ONES[count % 10]}` : '');
  return `${ONES[Math.floor(count / 100)]} hundred${count % 100 ? ` ${words(count % 100)}` : ''}`;
}

function ordinalWords(count: number): string {
  if (count < 1 || count > 999) return String(count);
  const [, head = '', last = ''] = /^(.*?)([a-z]+)$/.exec(words(count)) ?? [];
  return head + (ORDINALS[last] ?? (last.endsWith('y') ? `${last.slice(0, -1)}ieth` : `${last}th`));
}

function capitalised(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
