/** Paragraphs of a known number of lines on the typewriter: each word fills a line. */

/** Characters of a word that no other fits beside. */
const WORD = 50;

/** `count` lines, reading `a1xxx... a2xxx...`; the name has letters only. */
export function lines(count: number, name = 'a'): string {
  return Array.from({ length: count }, (_, index) => word(`${name}${index + 1}`)).join(' ');
}

/** The same with a place to divide each word at the end of its line. */
export function dividedLines(count: number, name = 'a'): string {
  return Array.from({ length: count }, (_, index) => {
    const head = `${name}${index + 1}`.padEnd(45, 'x');
    return index === count - 1 ? head : `${head}${'y'.repeat(12)}\u00AD`;
  }).join('');
}

function word(head: string): string {
  return head.padEnd(WORD, 'x');
}

/** What a line reads as in short: `a1`, or the text as it is. */
export function short(line: string): string {
  return /^(\p{L}+\d+)x/u.exec(line)?.[1] ?? line;
}
