/** What a careful reader would ask about. In: a book; out: findings about placeholders, empty sections, open quotations. */
import type { Node } from 'prosemirror-model';
import type { Finding } from '#base';
import { type Book, type Change, flatText, primaryLanguage } from '#book';
import { allTextblocks, anchor, nameOf, sectionId } from './places.ts';

/** Rules `text/...` that take the sense of the text. */
export function checkText(book: Book): readonly Finding<Change>[] {
  const { language } = book.metadata;
  return book.text.children.flatMap((section) => [
    ...emptySection(section, language),
    ...allTextblocks(section).flatMap((block) => [...placeholders(block, section), ...emptyParagraph(block, section)]),
    ...openQuotations(section, language),
  ]);
}

/** Kinds that need no text of their own. */
const MAY_BE_EMPTY: ReadonlySet<unknown> = new Set(['part', 'halfTitle', 'titlePage', 'contents', 'notes']);

function emptySection(section: Node, language: string): readonly Finding<Change>[] {
  if (MAY_BE_EMPTY.has(section.attrs['kind'])) return [];
  if (section.children.some((child) => child.type.isInGroup('block') && hasContent(child))) return [];
  return [
    {
      rule: 'text/empty-section',
      severity: 'warning',
      message: `“${nameOf(section, language)}” has no text.`,
      at: anchor(section, 0),
      section: sectionId(section),
    },
  ];
}

function hasContent(block: Node): boolean {
  return block.type.name === 'figure' || /\S/.test(block.textContent) || hasField(block);
}

function hasField(block: Node): boolean {
  let found = false;
  block.descendants((node) => {
    found ||= node.type.name === 'field' || node.type.name === 'figure';
    return !found;
  });
  return found;
}

/** Marks by which writers and editors remember what is still to come (common practice, no source). */
const PLACEHOLDER = /\b(?:TK(?:TK)*|TODO|FIXME|XXX+)\b|\blorem ipsum\b|\[(?:insert|add|check|todo)\b[^\]]*\]/gi;
const IN_CAPITALS = /^(?:TK|TODO|FIXME|XXX)/i;
/** One of these is in every placeholder: a quick look that spares nearly every paragraph the pattern. */
const SIGNS = ['TK', 'TODO', 'FIXME', 'XXX', 'psum', 'PSUM', '['];

function placeholders(block: Node, section: Node): readonly Finding<Change>[] {
  const text = flatText(block);
  if (!SIGNS.some((sign) => text.includes(sign))) return [];
  return Array.from(text.matchAll(PLACEHOLDER))
    .filter(([mark]) => !IN_CAPITALS.test(mark) || mark === mark.toUpperCase())
    .map((match) => ({
      rule: 'text/placeholder',
      severity: 'warning',
      message: `“${match[0]}” looks like a placeholder.`,
      at: anchor(block, match.index),
      section: sectionId(section),
    }));
}

function emptyParagraph(block: Node, section: Node): readonly Finding<Change>[] {
  if (block.type.name !== 'paragraph' || /\S/.test(flatText(block))) return [];
  return [
    {
      rule: 'text/empty-paragraph',
      severity: 'warning',
      message: 'This paragraph is empty.',
      at: anchor(block, 0),
      section: sectionId(section),
    },
  ];
}

interface Marks {
  readonly open: string;
  readonly close: string;
}

/**
 * Double quotation marks by language (FACTS T-40). Single marks are left alone: the closing one is also the apostrophe.
 */
const MARKS: ReadonlyMap<string, readonly Marks[]> = new Map([
  ['en', [{ open: '“', close: '”' }]],
  ['fr', [{ open: '«', close: '»' }]],
  [
    'de',
    [
      { open: '„', close: '“' },
      { open: '»', close: '«' },
    ],
  ],
  [
    'es',
    [
      { open: '«', close: '»' },
      { open: '“', close: '”' },
    ],
  ],
]);

/** A quotation that goes on in the next paragraph is not closed, and opened again there. */
function openQuotations(section: Node, language: string): readonly Finding<Change>[] {
  const marks = MARKS.get(primaryLanguage(language)) ?? [];
  return section.children.flatMap((block, index) => {
    if (block.type.name !== 'paragraph') return [];
    const next = section.maybeChild(index + 1);
    return marks.flatMap((pair) => {
      const offset = openedAt(flatText(block), pair);
      if (offset < 0 || (next && goesOn(next, pair))) return [];
      return [openQuotation(block, section, offset)];
    });
  });
}

function openQuotation(block: Node, section: Node, offset: number): Finding<Change> {
  return {
    rule: 'text/open-quotation',
    severity: 'note',
    message: 'A quotation is opened here and never closed.',
    at: anchor(block, offset),
    section: sectionId(section),
  };
}

/** The offset of the first mark that stays open, or -1. */
function openedAt(text: string, { open, close }: Marks): number {
  const first = text.indexOf(open);
  if (first < 0) return -1;
  const opened: number[] = [];
  for (let index = first; index < text.length; index++) {
    if (text[index] === open) opened.push(index);
    else if (text[index] === close) opened.pop();
  }
  return opened[0] ?? -1;
}

/** Whether the next block may carry the quotation on: a paragraph that opens it again, or something quoted. */
function goesOn(next: Node, { open, close }: Marks): boolean {
  if (next.type.name !== 'paragraph') return next.type.name !== 'sceneBreak';
  const first = flatText(next).trimStart()[0];
  return first === open || first === close;
}
