/** Titles typed in capitals. In: a title; out: the same letters in the case that a book's title has, as many as before. */

const SMALL_WORDS = new Set('a an and as at but by for from in into nor of on or the to up with vs via'.split(' '));

/** An English title typed in capitals, in title case; any other is left as it is. */
export function titleCase(title: string): string {
  if (/\p{Ll}/u.test(title) || !/\p{Lu}{2}/u.test(title)) return title;
  const words = title.toLowerCase().split(' ');
  return words
    .map((word, at) => {
      const inner = at > 0 && at < words.length - 1 && !/[:.?!\u2014]$/.test(words[at - 1] ?? '');
      if (inner && SMALL_WORDS.has(word)) return word;
      if (/^[ivxlc]+$/.test(word) && word !== 'i' && title.split(' ')[at] !== undefined && isRoman(word))
        return word.toUpperCase();
      return word.replace(
        /(^|[-\u2013\u2014("\u201c\u2018])(\p{L})/gu,
        (_, before: string, letter: string) => before + letter.toUpperCase(),
      );
    })
    .join(' ');
}

function isRoman(word: string): boolean {
  return /^(?:x{0,3})(?:ix|iv|v?i{1,3}|v|x)$/.test(word);
}

/** One word typed in capitals with a capital first; longer titles are left, for only English settles the case of each. */
export function wordCase(title: string): string {
  return /^\p{Lu}{2,}$/u.test(title) && !isRoman(title.toLowerCase())
    ? title.charAt(0) + title.slice(1).toLowerCase()
    : title;
}
