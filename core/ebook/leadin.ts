/** How far the lead-in of a section's first paragraph goes. In: its flat text; out: an offset into it. */

/** FACTS T-23: the first phrase, three to five words. */
const FEWEST_WORDS = 3;
const USUAL_WORDS = 4;
const MOST_WORDS = 5;
/** A short phrase goes on until it has this many characters. */
const FEWEST_CHARACTERS = 12;
/** A paragraph shorter than this would be a lead-in and nothing else. */
const LEAST_TEXT = 48;
const ENDS_CLAUSE = /[,;:.!?\u2014\u2013\u2026]["\u201D\u2019\u00BB]?$/u;
/** A field, a note or a forced line break ends the lead-in whatever its length. */
const HARD_STOP = /[\n\uFFFC]/;

/** The end of the opening words, the same as in print; 0 for a paragraph that should have no lead-in. */
export function leadInEnd(text: string): number {
  const stop = text.search(HARD_STOP);
  const limit = Math.min(stop < 0 ? text.length : stop, 200);
  const leading = text.slice(0, limit);
  if (text.length < LEAST_TEXT || !/\p{L}/u.test(leading)) return 0;
  let words = 0;
  let end = 0;
  for (const match of leading.matchAll(/\S+/gu)) {
    words++;
    end = match.index + match[0].length;
    if (words >= FEWEST_WORDS && ENDS_CLAUSE.test(match[0])) break;
    if (words >= USUAL_WORDS && end >= FEWEST_CHARACTERS) break;
    if (words >= MOST_WORDS) break;
  }
  if (end === limit && limit < text.length) end = Math.max(0, leading.lastIndexOf(' ', end - 1));
  return withoutClosingMarks(text, end);
}

/** Closing punctuation stays out: an engine that makes small capitals by shrinking would shrink it too. */
function withoutClosingMarks(text: string, end: number): number {
  while (end > 0 && !/[\p{L}\p{N}\p{M}]/u.test(text.charAt(end - 1))) end--;
  return end;
}
