/** How many words a text has. In: a text; out: a number. Counted letter by letter, for a list of words costs five times as much. */

/** What words consist of. */
const LETTER = /[\p{L}\p{M}\p{N}]/u;
const APOSTROPHES: ReadonlySet<number> = new Set([0x27, 0x2019]);
/** What is known of each UTF-16 unit: nothing yet, a letter, something else. */
const UNKNOWN = 0;
const INSIDE = 1;
const OUTSIDE = 2;
const known = new Uint8Array(0x10000);

/** The matches of `[\p{L}\p{M}\p{N}]+(?:['\u2019][\p{L}\p{M}\p{N}]+)*`: letters and digits, with apostrophes inside. */
export function wordsIn(text: string): number {
  let words = 0;
  let inside = false;
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    // Nearly every unit is known and no apostrophe: no call is made for those.
    const width = known[unit] === INSIDE ? 1 : known[unit] === OUTSIDE ? 0 : letterAt(text, at);
    if (width > 0) {
      if (!inside) words++;
      inside = true;
      at += width - 1;
    } else if (inside) inside = APOSTROPHES.has(unit) && letterAt(text, at + 1) > 0;
  }
  return words;
}

/** The units that a letter or digit takes there, 0 where there is none. */
function letterAt(text: string, at: number): number {
  if (at >= text.length) return 0;
  const unit = text.charCodeAt(at);
  const found = known[unit]!;
  if (found !== UNKNOWN) return found === INSIDE ? 1 : 0;
  if (unit >= 0xd800 && unit < 0xe000) return pairAt(text, at);
  known[unit] = LETTER.test(String.fromCharCode(unit)) ? INSIDE : OUTSIDE;
  return letterAt(text, at);
}

/** The same for a character of two units. */
function pairAt(text: string, at: number): number {
  const codePoint = text.codePointAt(at)!;
  return codePoint > 0xffff && LETTER.test(String.fromCodePoint(codePoint)) ? 2 : 0;
}
