/**
 * Numbers in words. In: a whole number and a BCP 47 tag; out: lower-case words, or null where we have none and figures
 * must do.
 */
import { primaryLanguage } from './words.ts';

/** The largest number that has words here. */
const LARGEST_IN_WORDS = 999;

/** A whole number from 0 to 999 in words of English, French, German or Spanish, else null. */
export function numberWords(value: number, language: string): string | null {
  if (!Number.isInteger(value) || value < 0 || value > LARGEST_IN_WORDS) return null;
  switch (primaryLanguage(language)) {
    case 'en':
      return english(value, /^en-us\b/i.test(language) ? ' ' : ' and ');
    case 'fr':
      return french(value);
    case 'de':
      return german(value);
    case 'es':
      return spanish(value);
    default:
      return null;
  }
}

const ENGLISH = (
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen ' +
  'eighteen nineteen'
).split(' ');
const ENGLISH_TENS = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');

/** `joint` stands after the hundreds: " and " in British, a space in American use. */
function english(value: number, joint: string): string {
  if (value < 20) return at(ENGLISH, value);
  if (value < 100) return joined(at(ENGLISH_TENS, tens(value) - 2), '-', english(value % 10, joint), value % 10);
  return joined(`${at(ENGLISH, hundreds(value))} hundred`, joint, english(value % 100, joint), value % 100);
}

const FRENCH = (
  'zéro un deux trois quatre cinq six sept huit neuf dix onze douze treize quatorze quinze seize dix-sept dix-huit ' +
  'dix-neuf'
).split(' ');
const FRENCH_TENS = 'vingt trente quarante cinquante soixante soixante quatre-vingt quatre-vingt'.split(' ');

/** Traditional spelling: hyphens below a hundred only, and none beside `et`. */
function french(value: number): string {
  if (value < 20) return at(FRENCH, value);
  if (value < 100) return frenchTens(value);
  const head = hundreds(value) === 1 ? 'cent' : `${at(FRENCH, hundreds(value))} cent`;
  if (value % 100 === 0) return hundreds(value) === 1 ? head : `${head}s`;
  return `${head} ${french(value % 100)}`;
}

/** Seventies and nineties count on from sixty and eighty: soixante-dix, quatre-vingt-onze. */
function frenchTens(value: number): string {
  const ten = tens(value);
  const word = at(FRENCH_TENS, ten - 2);
  const rest = ten === 7 || ten === 9 ? (value % 10) + 10 : value % 10;
  if (rest === 0) return ten === 8 ? 'quatre-vingts' : word;
  const joint = (rest === 1 || rest === 11) && ten < 8 ? ' et ' : '-';
  return word + joint + at(FRENCH, rest);
}

const GERMAN = (
  'null eins zwei drei vier fünf sechs sieben acht neun zehn elf zwölf dreizehn vierzehn fünfzehn sechzehn siebzehn ' +
  'achtzehn neunzehn'
).split(' ');
const GERMAN_TENS = 'zwanzig dreißig vierzig fünfzig sechzig siebzig achtzig neunzig'.split(' ');

function german(value: number): string {
  if (value < 20) return at(GERMAN, value);
  if (value < 100) {
    const ones = value % 10;
    const ten = at(GERMAN_TENS, tens(value) - 2);
    return ones === 0 ? ten : `${germanStem(ones)}und${ten}`;
  }
  return `${germanStem(hundreds(value))}hundert${value % 100 === 0 ? '' : german(value % 100)}`;
}

/** `eins` loses its s before another word. */
function germanStem(digit: number): string {
  return digit === 1 ? 'ein' : at(GERMAN, digit);
}

const SPANISH = (
  'cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete ' +
  'dieciocho diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete ' +
  'veintiocho veintinueve'
).split(' ');
const SPANISH_TENS = 'treinta cuarenta cincuenta sesenta setenta ochenta noventa'.split(' ');
const SPANISH_HUNDREDS =
  'ciento doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos novecientos'.split(' ');

function spanish(value: number): string {
  if (value < 30) return at(SPANISH, value);
  if (value < 100) return joined(at(SPANISH_TENS, tens(value) - 3), ' y ', spanish(value % 10), value % 10);
  if (value === 100) return 'cien';
  return joined(at(SPANISH_HUNDREDS, hundreds(value) - 1), ' ', spanish(value % 100), value % 100);
}

function joined(head: string, joint: string, tail: string, rest: number): string {
  return rest === 0 ? head : head + joint + tail;
}

function tens(value: number): number {
  return Math.floor(value / 10);
}

function hundreds(value: number): number {
  return Math.floor(value / 100);
}

function at(words: readonly string[], index: number): string {
  const word = words[index];
  if (word === undefined) throw new RangeError(`no number word at ${index}`);
  return word;
}
