/** The script that a stretch of text is shaped in. In: text; out: the ISO 15924 tag as HarfBuzz wants it, a number. */

const LATIN = tag('Latn');

/**
 * Blocks of letters in rising order: first code point, last code point, script. From the Unicode block list (17.0);
 * whatever lies outside them (digits, punctuation, symbols) belongs to no script of its own.
 */
const BLOCKS: readonly (readonly [number, number, number])[] = [
  [0x0041, 0x005a, LATIN],
  [0x0061, 0x007a, LATIN],
  [0x00aa, 0x00aa, LATIN],
  [0x00ba, 0x00ba, LATIN],
  [0x00c0, 0x024f, LATIN],
  [0x0370, 0x03ff, tag('Grek')],
  [0x0400, 0x052f, tag('Cyrl')],
  [0x0531, 0x058a, tag('Armn')],
  [0x0591, 0x05f4, tag('Hebr')],
  [0x0600, 0x06ff, tag('Arab')],
  [0x0700, 0x074f, tag('Syrc')],
  [0x0750, 0x077f, tag('Arab')],
  [0x08a0, 0x08ff, tag('Arab')],
  [0x0900, 0x097f, tag('Deva')],
  [0x0980, 0x09ff, tag('Beng')],
  [0x0e00, 0x0e7f, tag('Thai')],
  [0x10a0, 0x10ff, tag('Geor')],
  [0x1e00, 0x1eff, LATIN],
  [0x1f00, 0x1fff, tag('Grek')],
  [0x3040, 0x309f, tag('Hira')],
  [0x30a0, 0x30ff, tag('Kana')],
  [0x3400, 0x9fff, tag('Hani')],
  [0xac00, 0xd7af, tag('Hang')],
  [0xfb00, 0xfb06, LATIN],
  [0xfb1d, 0xfb4f, tag('Hebr')],
  [0xfb50, 0xfdff, tag('Arab')],
  [0xfe70, 0xfeff, tag('Arab')],
];

/** The script of the first letter, Latin where there is no letter. */
export function scriptOf(text: string): number {
  for (let i = 0; i < text.length; i++) {
    const script = scriptOfUnit(text.charCodeAt(i));
    if (script !== 0) return script;
  }
  return LATIN;
}

/** The same for a stretch of UTF-16 units. */
export function scriptOfUnits(units: Uint16Array, from: number, to: number): number {
  for (let i = from; i < to; i++) {
    const script = scriptOfUnit(units[i]!);
    if (script !== 0) return script;
  }
  return LATIN;
}

/** 0 for what belongs to no script. */
function scriptOfUnit(unit: number): number {
  if ((unit >= 0x61 && unit <= 0x7a) || (unit >= 0x41 && unit <= 0x5a)) return LATIN;
  return unit < 0xaa ? 0 : scriptOfLetter(unit);
}

function scriptOfLetter(unit: number): number {
  for (const [first, last, script] of BLOCKS) {
    if (unit < first) return 0;
    if (unit <= last) return script;
  }
  return 0;
}

/** Four letters as one number, the first in the highest byte. */
export function tag(letters: string): number {
  return (
    ((letters.charCodeAt(0) << 24) |
      (letters.charCodeAt(1) << 16) |
      (letters.charCodeAt(2) << 8) |
      letters.charCodeAt(3)) >>>
    0
  );
}
