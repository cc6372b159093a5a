import fc from 'fast-check';
import { expect, test } from 'vitest';
import { roman } from '#base';
import { type Headed, headingOf, numberWords, schema, sectionLabel, sectionName } from '#book';

// FACTS O-10.
test.each([
  [4, 'iv'],
  [9, 'ix'],
  [14, 'xiv'],
  [19, 'xix'],
  [24, 'xxiv'],
  [40, 'xl'],
  [49, 'xlix'],
  [90, 'xc'],
])('%i is %s in roman numerals', (value, numeral) => {
  expect(roman(value)).toBe(numeral);
  expect(roman(value, 'upper')).toBe(numeral.toUpperCase());
});

test('roman numerals add up to their number', () => {
  const worth: Record<string, number> = { i: 1, v: 5, x: 10, l: 50, c: 100, d: 500, m: 1000 };
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 3999 }), (value) => {
      const letters = [...roman(value)].map((letter) => worth[letter] ?? 0);
      const sum = letters.reduce((total, each, index) => total + (each < (letters[index + 1] ?? 0) ? -each : each), 0);
      expect(sum).toBe(value);
      expect(roman(value)).not.toMatch(/([ixcm])\1{3}|([vld])\2/);
    }),
  );
  expect(roman(0)).toBe('0');
  expect(roman(4000)).toBe('4000');
});

// Spellings from memory; French in the traditional spelling.
const WORDS: Readonly<Record<string, Readonly<Record<number, string>>>> = {
  'en-GB': {
    1: 'one',
    13: 'thirteen',
    20: 'twenty',
    42: 'forty-two',
    100: 'one hundred',
    115: 'one hundred and fifteen',
  },
  'en-US': { 99: 'ninety-nine', 101: 'one hundred one', 342: 'three hundred forty-two' },
  fr: {
    1: 'un',
    17: 'dix-sept',
    21: 'vingt et un',
    22: 'vingt-deux',
    61: 'soixante et un',
    70: 'soixante-dix',
    71: 'soixante et onze',
    77: 'soixante-dix-sept',
    80: 'quatre-vingts',
    81: 'quatre-vingt-un',
    90: 'quatre-vingt-dix',
    91: 'quatre-vingt-onze',
    99: 'quatre-vingt-dix-neuf',
    100: 'cent',
    101: 'cent un',
    180: 'cent quatre-vingts',
    200: 'deux cents',
    203: 'deux cent trois',
  },
  de: {
    1: 'eins',
    16: 'sechzehn',
    21: 'einundzwanzig',
    30: 'dreißig',
    67: 'siebenundsechzig',
    100: 'einhundert',
    101: 'einhunderteins',
    199: 'einhundertneunundneunzig',
  },
  es: {
    1: 'uno',
    16: 'dieciséis',
    22: 'veintidós',
    31: 'treinta y uno',
    40: 'cuarenta',
    99: 'noventa y nueve',
    100: 'cien',
    101: 'ciento uno',
    500: 'quinientos',
  },
};

test.each(Object.entries(WORDS))('numbers in words: %s', (language, words) => {
  for (const [value, word] of Object.entries(words)) expect(numberWords(Number(value), language)).toBe(word);
});

test('no two numbers share their words, and what has none says so', () => {
  for (const language of ['en', 'fr', 'de', 'es']) {
    const words = Array.from({ length: 1000 }, (_, value) => numberWords(value, language));
    expect(words).not.toContain(null);
    expect(new Set(words).size).toBe(1000);
  }
  expect(numberWords(1000, 'en')).toBeNull();
  expect(numberWords(1.5, 'en')).toBeNull();
  expect(numberWords(5, 'fi')).toBeNull();
});

function numbered(number: number | null, label: string | null, titleText = ''): Headed {
  return { kind: 'chapter', number, label, needsLabel: false, titleText, subtitle: null };
}

test('headings read as the language writes them', () => {
  const line = (
    number: number,
    label: string | null,
    language: string,
    style: 'words' | 'figures' | 'roman' = 'words',
  ) => headingOf(numbered(number, label), { number: style, showLabel: true, language }).numberLine;
  expect(line(4, 'Chapter', 'en')).toBe('Chapter Four');
  expect(line(123, 'Chapter', 'en-GB')).toBe('Chapter One Hundred and Twenty-Three');
  expect(line(4, null, 'en')).toBe('Four');
  expect(line(1, 'Chapitre', 'fr')).toBe('Chapitre premier');
  expect(line(23, 'Chapitre', 'fr')).toBe('Chapitre vingt-trois');
  expect(line(23, null, 'fr')).toBe('Vingt-trois');
  expect(line(5, 'Kapitel', 'de')).toBe('Kapitel fünf');
  expect(line(7, 'Chapter', 'fi')).toBe('Chapter 7');
  expect(line(9, 'Part', 'en', 'roman')).toBe('Part IX');
  expect(line(9, null, 'en', 'figures')).toBe('9');
});

test('a label names every section', () => {
  const style = { number: 'figures', showLabel: true, language: 'en' } as const;
  expect(sectionLabel(numbered(4, 'Chapter', 'The Weir'), style)).toBe('Chapter 4: The Weir');
  expect(sectionLabel(numbered(4, null, 'The Weir'), style)).toBe('4. The Weir');
  expect(sectionLabel(numbered(4, 'Chapter'), style)).toBe('Chapter 4');
  expect(sectionLabel(numbered(4, 'Chapter', 'The Weir'), { ...style, number: 'none' })).toBe('The Weir');
  expect(sectionLabel(numbered(null, null), style)).toBe('Chapter');
  expect(sectionLabel({ ...numbered(null, null), kind: 'dedication' }, { ...style, language: 'de-AT' })).toBe(
    'Widmung',
  );
  const subtitle = schema.nodes.sectionSubtitle.create(null, schema.text('or, Water'));
  expect(headingOf({ ...numbered(1, null, 'A'), subtitle }, style).subtitle).toBe('or, Water');
  expect(sectionName('aboutAuthor', 'sv')).toBe('About the Author');
});

test('a number that another section could have, or that stands alone in a list, has its label whatever the style', () => {
  const style = { number: 'figures', showLabel: false, language: 'en' } as const;
  const letter = { ...numbered(1, 'Letter'), needsLabel: true };
  expect(headingOf(numbered(1, 'Letter'), style).numberLine).toBe('1');
  expect(headingOf(letter, style).numberLine).toBe('Letter 1');
  expect(sectionLabel({ ...letter, titleText: 'The Ferry' }, style)).toBe('Letter 1: The Ferry');
  expect(sectionLabel(numbered(1, 'Letter', 'The Ferry'), style)).toBe('1. The Ferry');
  expect(sectionLabel(numbered(1, 'Letter'), style)).toBe('Letter 1');
  expect(sectionLabel(numbered(1, null), style)).toBe('1');
});
