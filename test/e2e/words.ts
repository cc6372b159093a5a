/** Comparing what a finished file says with what the manuscript says, word by word. */

const WORD = /[\p{L}\p{M}\p{N}]+(?:['\u2019][\p{L}\p{M}\p{N}]+)*/gu;

/** The words of a text by the counting rule of `outline`, case folded; words divided at a line's end are joined. */
export function wordsOf(text: string): string[] {
  const joined = text
    .normalize('NFKC')
    .replace(/\u00ad\s*/g, '')
    .replace(/[\u200b\u2060\ufeff]/g, '');
  return (joined.match(WORD) ?? []).map((word) => word.toLowerCase().replaceAll('\u2019', "'"));
}

/** How many strange words (running heads, folios, notes at the foot) may stand between two words of the text. */
const WIDEST_GAP = 400;

/**
 * The first word of `wanted` that does not follow in `found`, in order, with furniture in between allowed; null when
 * all do.
 */
export function firstMissingWord(wanted: readonly string[], found: readonly string[]): string | null {
  let place = 0;
  for (const [index, word] of wanted.entries()) {
    let next = place;
    while (next < found.length && found[next] !== word && next - place < WIDEST_GAP) next++;
    if (found[next] !== word) return wanted.slice(Math.max(0, index - 5), index + 3).join(' ');
    place = next + 1;
  }
  return null;
}
