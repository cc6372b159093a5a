/** How far the lead-in of a section's first paragraph goes. In: its flat text; out: an offset into it. */

const FEWEST_WORDS = 3;
const MOST_WORDS = 5;
/** Fewer letters in small capitals look like a mistake (FACTS T-23: six to eight and more). */
const FEWEST_LETTERS = 10;
const LETTER = /[\p{L}\p{N}]/gu;
const ENDS_CLAUSE = /[.,;:!?\u2026\u2014\u2013]['"\u2019\u201D\u00BB\u203A)]*$/u;
/** A field, a note or a forced line break ends the lead-in whatever its length. */
const HARD_STOP = /[\n\uFFFC]/;

/**
 * The end of the opening words: three to five of them, ten letters at least, but no further than the first clause once
 * it has the letters. A sentence of one or two short words is left alone: 0.
 */
export function leadInEnd(text: string): number {
  const stop = text.search(HARD_STOP);
  const limit = stop < 0 ? text.length : stop;
  let letters = 0;
  let words = 0;
  let end = 0;
  for (const match of text.slice(0, limit).slice(0, 200).matchAll(/\S+/gu)) {
    const count = match[0].match(LETTER)?.length ?? 0;
    if (count > 0) words++;
    letters += count;
    end = match.index + match[0].length;
    const enough = letters >= FEWEST_LETTERS;
    if (enough && (words >= FEWEST_WORDS || ENDS_CLAUSE.test(match[0]))) break;
    if (words >= MOST_WORDS) break;
  }
  if (letters < FEWEST_LETTERS) return 0;
  return withoutClosingMarks(text, end);
}

/** Closing punctuation stays out of the lead-in: it would be set in the wrong size of capitals. */
function withoutClosingMarks(text: string, end: number): number {
  while (end > 0 && !/[\p{L}\p{N}\p{M}]/u.test(text.charAt(end - 1))) end--;
  return end;
}
