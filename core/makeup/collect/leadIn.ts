/**
 * The first words of a chapter. In: its first paragraph; out: how many characters the small capitals cover, or a
 * paragraph set around a drop cap.
 */
import type { Node } from 'prosemirror-model';
import type { Points } from '#base';
import type { Paint } from '../flow.ts';
import { lineRow } from '../flow.ts';
import { faceOf } from '../styler.ts';
import type { Collector, Column } from './collector.ts';
import { rowsOf, Together } from './rows.ts';

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
function leadingText(node: Node): string {
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

/** Gap between a drop cap and the text beside it, in ems of the text. */
const DROP_GAP = 0.12;

/**
 * A paragraph around a drop cap of n lines, whose base stands on the nth baseline and whose top meets the capitals of
 * the first line (FACTS T-24). An opening quotation mark hangs in the margin at the text size. False where the paragraph
 * has no letter to drop or is too short for it.
 */
export function addDropCap(collector: Collector, node: Node, column: Column): boolean {
  const match = /^(["'\u201C\u2018\u00AB\u201E]?)(\p{L})/u.exec(leadingText(node));
  if (!match) return false;
  const { shop, design } = collector;
  const lines = design.leadIn.dropLines;
  const [all, quote, letter] = match as unknown as [string, string, string];
  const face = faceOf(shop.styler.plain(column.look));
  const capital = face.capHeight / face.unitsPerEm;
  const size = (column.look.size * capital + (lines - 1) * design.frame.leading) / capital;
  const block = String(node.attrs['id']);
  const cap = shop.setter.line(shop.spans.literal(letter.toUpperCase(), { ...column.look, size }, block));
  const shape = {
    ...shop.shape(column.measure),
    notch: { lines, width: cap.width + column.look.size * DROP_GAP },
  };
  const text = shop.spans.of({ node, look: column.look, numberOf: collector.numberOf, skip: all.length });
  const broken = collector.watch(shop.break(text, shape));
  if (broken.lines.length < lines + 1) return false;
  const rows = rowsOf(broken, { left: column.left, orphans: lines });
  const [first] = rows;
  if (!first?.paint) return false;
  const parts: { paint: Paint; x: Points; y: Points }[] = [
    { paint: once(cap), x: column.left, y: (lines - 1) * design.frame.leading },
    { paint: first.paint, x: 0, y: 0 },
  ];
  if (quote !== '') {
    const mark = shop.setter.line(shop.spans.literal(quote, column.look, block));
    parts.unshift({ paint: once(mark), x: column.left - mark.width, y: 0 });
  }
  const start = { block, offset: 0 };
  collector.addRows([lineRow({ ...first, paint: new Together(parts), start }), ...rows.slice(1)]);
  return true;
}

/** A single line as a paint. */
export function once(line: { place: (x: Points, y: Points, page: Parameters<Paint['place']>[3]) => void }): Paint {
  return { place: (_line, x, y, page) => line.place(x, y, page) };
}
