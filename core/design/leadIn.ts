/**
 * The first words of a chapter, which many designs set in small capitals. In: the flat text of its first paragraph; out:
 * how many of its characters they are. Print and ebook share the answer.
 */

/** FACTS T-23: the first phrase, three to five words; a sixth is allowed where the phrase ends with it. */
const FEWEST_WORDS = 3;
const MOST_WORDS = 6;
/** Without a phrase: as many words as these, in this order, of which the last should be a word of some weight. */
const WITHOUT_PHRASE = [4, 5, 3] as const;
const WEIGHTY_LETTERS = 4;
/** Small capitals go on for at least this many characters (FACTS T-23: six to eight letters). */
const FEWEST_CHARACTERS = 12;
/** A shorter paragraph would be a lead-in and nothing else. */
const LEAST_TEXT = 48;

const PHRASE_END = /[,;:.!?\u2013\u2014\u2026]["\u201D\u2019\u00BB\u201C]?$/u;

interface Word {
  readonly text: string;
  /** Characters up to and with the word. */
  readonly end: number;
}

/** Characters of the flat text that the lead-in covers; 0 where there should be none. */
export function leadInLength(flatText: string): number {
  if (flatText.length < LEAST_TEXT || !/^\P{L}{0,3}\p{L}/u.test(flatText)) return 0;
  const words = firstWords(flatText);
  const phrase = words.findIndex(
    (word, index) => index + 1 >= FEWEST_WORDS && isLong(word) && PHRASE_END.test(word.text),
  );
  if (phrase >= 0) return words[phrase]?.end ?? 0;
  for (const count of WITHOUT_PHRASE) {
    const last = words[count - 1];
    if (last && isLong(last) && letters(last.text) >= WEIGHTY_LETTERS) return last.end;
  }
  return (words[WITHOUT_PHRASE[0] - 1] ?? words.at(-1))?.end ?? 0;
}

/** The first whole words, up to anything that is no character of the text: a line break, a field, a note. */
function firstWords(flatText: string): readonly Word[] {
  const words: Word[] = [];
  const stop = flatText.search(/[\n\uFFFC]/u);
  for (const match of flatText.matchAll(/\S+/gu)) {
    const end = match.index + match[0].length;
    if (words.length === MOST_WORDS || (stop >= 0 && end > stop)) break;
    words.push({ text: match[0], end });
  }
  return words;
}

function isLong(word: Word): boolean {
  return word.end >= FEWEST_CHARACTERS;
}

function letters(text: string): number {
  return text.match(/\p{L}/gu)?.length ?? 0;
}
