/** The first words of a chapter. In: its first paragraph; out: how many characters the small capitals cover. */
import type { Node } from 'prosemirror-model';
import type { Points } from '#base';
import type { Paint } from '../flow.ts';

/** FACTS T-23: the first phrase, three to five words. */
const FEWEST_WORDS = 3;
const MOST_WORDS = 5;
/** A short phrase goes on until it has this many letters. */
const FEWEST_LETTERS = 12;
/** A paragraph shorter than this would be a lead-in and nothing else. */
const LEAST_TEXT = 48;

/** The flat-text length of the lead-in of a paragraph; 0 where it should have none. */
export function leadInLength(node: Node): number {
  const text = leadingText(node);
  if (node.content.size < LEAST_TEXT || !/\p{L}/u.test(text)) return 0;
  const words = /\S+/g;
  let end = 0;
  let count = 0;
  for (let word = words.exec(text); word && count < MOST_WORDS; word = words.exec(text)) {
    end = word.index + word[0].length;
    count++;
    if (count >= FEWEST_WORDS && /[,;:.!?\u2014\u2013\u2026]["\u201D\u2019\u00BB]?$/u.test(word[0])) break;
    if (count > FEWEST_WORDS && end >= FEWEST_LETTERS && count >= MOST_WORDS - 1) break;
  }
  return end === text.length && end < node.content.size ? lastWholeWord(text, end) : end;
}

/** The characters before the first thing that is no text, or that is no plain text of the paragraph. */
export function leadingText(node: Node): string {
  let text = '';
  for (const child of node.children) {
    if (!child.isText) break;
    text += child.text ?? '';
    if (text.length > 200) break;
  }
  return text;
}

/** Keeps a lead-in from ending inside a word that goes on after something else. */
function lastWholeWord(text: string, end: number): number {
  return Math.max(0, text.lastIndexOf(' ', end - 1));
}

/** A single line as a paint. */
export function once(line: { place: (x: Points, y: Points, page: Parameters<Paint['place']>[3]) => void }): Paint {
  return { place: (_line, x, y, page) => line.place(x, y, page) };
}
