/**
 * Text as the book holds it. In: rich text, tidied; out: text nodes with marks, line breaks and notes, and the pictures
 * that stood in it, for a picture is a block of its own in a book.
 */
import type { Mark, Node } from 'prosemirror-model';
import type { IdSource } from '#base';
import { schema } from '#book';
import type { RawParagraph } from '../../raw.ts';
import { LEAF, type Leaf, type Look, PLAIN, type Rich } from '../collect/rich.ts';

export type Picture = Extract<Leaf, { kind: 'image' }>;

/** What making nodes needs beside the text. */
export interface InlineContext {
  readonly noteIds: IdSource;
  /** The blocks of a note. */
  readonly noteBlocks: (paragraphs: readonly RawParagraph[]) => readonly Node[];
  /** The book's primary language; a run in it gets no mark. */
  readonly language: string;
  /** False where the file's language marks are plainly wrong. */
  readonly markLanguages: boolean;
  readonly onPicture: (picture: Picture) => void;
  readonly onDroppedLink: () => void;
}

/** The nodes of a text; soft returns left in it become line breaks. */
export function inlineNodes(rich: Rich, context: InlineContext): readonly Node[] {
  const nodes: Node[] = [];
  let start = 0;
  let leaf = 0;
  rich.ends.forEach((end, run) => {
    const marks = marksOf(rich.looks[run] ?? PLAIN, context);
    let from = start;
    for (let at = nextSpecial(rich.text, start); at < end; at = nextSpecial(rich.text, from)) {
      if (at > from) nodes.push(schema.text(rich.text.slice(from, at), marks));
      if (rich.text[at] === LEAF) addLeaf(rich.leaves[leaf++], nodes, context);
      else nodes.push(schema.nodes.lineBreak.create());
      from = at + 1;
    }
    if (end > from) nodes.push(schema.text(rich.text.slice(from, end), marks));
    start = end;
  });
  return nodes;
}

/** The next leaf or soft return; the text's length where there is none. */
function nextSpecial(text: string, from: number): number {
  const leaf = text.indexOf(LEAF, from);
  const line = text.indexOf('\n', from);
  if (leaf === -1) return line === -1 ? text.length : line;
  return line === -1 ? leaf : Math.min(leaf, line);
}

function addLeaf(leaf: Leaf | undefined, nodes: Node[], context: InlineContext): void {
  if (leaf === undefined) return;
  if (leaf.kind === 'image') context.onPicture(leaf);
  else nodes.push(schema.nodes.note.create({ id: context.noteIds.take() }, [...context.noteBlocks(leaf.paragraphs)]));
}

const { emphasis, strong, smallCaps, superscript, subscript, strikethrough, link, language } = schema.marks;

/** The marks of the commonest looks, made once. */
const cache = new Map<string, readonly Mark[]>();

function marksOf(look: Look, context: InlineContext): readonly Mark[] {
  if (look === PLAIN) return [];
  const href = safeLink(look.href);
  if (look.href !== null && href === null) context.onDroppedLink();
  const tag = context.markLanguages ? foreign(look.language, context.language) : null;
  const key = `${+look.italic}${+look.bold}${+look.underline}${+look.smallCaps}${+look.strike}${look.raised ?? ''}|${tag ?? ''}|${href ?? ''}|${look.href === null}`;
  const known = cache.get(key);
  if (known !== undefined) return known;
  const marks: Mark[] = [];
  if (href !== null) marks.push(link.create({ href }));
  if (look.italic || (look.underline && look.href === null)) marks.push(emphasis.create());
  if (look.bold) marks.push(strong.create());
  if (look.smallCaps) marks.push(smallCaps.create());
  if (look.raised === 'superscript') marks.push(superscript.create());
  if (look.raised === 'subscript') marks.push(subscript.create());
  if (look.strike) marks.push(strikethrough.create());
  if (tag !== null) marks.push(language.create({ tag }));
  if (href === null) cache.set(key, marks);
  return marks;
}

function safeLink(href: string | null): string | null {
  return href !== null && /^(?:https?:\/\/|mailto:)/i.test(href) ? href : null;
}

function foreign(tag: string | null, own: string): string | null {
  if (tag === null) return null;
  return tag.toLowerCase().split('-')[0] === own ? null : tag;
}

/** Whether a look shows as emphasis: italic, or underlined as typists do (a link's underline is no emphasis). */
export function isEmphasised(look: Look): boolean {
  return look.italic || (look.underline && look.href === null);
}

/** One span where only white space parts two emphasised runs, none where white space alone is emphasised. */
export function joinEmphasis(rich: Rich): Rich {
  if (rich.looks.length < 2 || !rich.looks.some(isEmphasised)) return rich;
  const looks = [...rich.looks];
  let start = 0;
  looks.forEach((look, run) => {
    const end = rich.ends[run] ?? 0;
    const blank = rich.text.slice(start, end).trim() === '';
    start = end;
    if (!blank) return;
    const before = looks[run - 1];
    const after = rich.looks[run + 1];
    if (isEmphasised(look)) {
      if (!(before !== undefined && isEmphasised(before)) && !(after !== undefined && isEmphasised(after))) {
        looks[run] = { ...look, italic: false, underline: false };
      }
    } else if (before !== undefined && after !== undefined && isEmphasised(before) && isEmphasised(after)) {
      looks[run] = { ...look, italic: true };
    }
  });
  return { ...rich, looks };
}

/** A heading's text without the looks that the heading's style gives to all of it. */
export function plainTitle(rich: Rich): Rich {
  const wholly = (test: (look: Look) => boolean): boolean => {
    let start = 0;
    return rich.looks.every((look, run) => {
      const text = rich.text.slice(start, rich.ends[run]);
      start = rich.ends[run] ?? 0;
      return test(look) || !/[\p{L}\p{N}]/u.test(text);
    });
  };
  const italic = wholly((look) => look.italic);
  const underline = wholly((look) => look.underline);
  const smallCaps = wholly((look) => look.smallCaps);
  const looks = rich.looks.map((look) => ({
    ...look,
    bold: false,
    italic: look.italic && !italic,
    underline: look.underline && !underline,
    smallCaps: look.smallCaps && !smallCaps,
  }));
  return { ...rich, looks };
}
