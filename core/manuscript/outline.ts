/**
 * What a book consists of, for checking an import. In: a book and the import's report; out: the outline as one plain
 * object, and as text for a terminal.
 */
import type { Node } from 'prosemirror-model';
import { authorsOf, type Book, type SectionKind } from '#book';
import type { Remark } from './raw.ts';
import type { ImportReport } from './report.ts';

export interface OutlineSection {
  readonly id: string;
  readonly kind: SectionKind;
  /** The heading as it stood in the manuscript. */
  readonly heading: string | null;
  /** What is left of it beside the number. */
  readonly title: string;
  /** Matches of the word pattern in the body, the heading left out. */
  readonly words: number;
  readonly paragraphs: number;
  readonly sceneBreaks: number;
  /** Italic or underlined spans. */
  readonly emphases: number;
  readonly notes: number;
  readonly images: number;
  /** With the text asked for: paragraphs one a line, without heading and marks of scene breaks. */
  readonly text?: string;
  readonly emphasisTexts?: readonly string[];
  readonly noteTexts?: readonly string[];
}

export interface Outline {
  readonly title: string;
  readonly author: string;
  readonly language: string;
  readonly sections: readonly OutlineSection[];
  readonly notices: readonly Remark[];
}

export interface OutlineOptions {
  /** Give the text of every section as well. */
  readonly text?: boolean;
}

const WORD = /[\p{L}\p{M}\p{N}]+(?:['\u2019][\p{L}\p{M}\p{N}]+)*/gu;

/** Words of a text: runs of letters, marks and digits, joined by apostrophes. */
export function countWords(text: string): number {
  return text.match(WORD)?.length ?? 0;
}

/** The outline of a book; notices come from the import's report where there is one. */
export function outlineOf(book: Book, report?: ImportReport, options: OutlineOptions = {}): Outline {
  const sections = book.text.children.map((section) => sectionOutline(section, options.text === true));

  return {
    title: book.metadata.title,
    author: authorsOf(book.metadata).join(', '),
    language: book.metadata.language,
    sections,
    notices: report?.notices ?? [],
  };
}

interface Tally {
  readonly lines: string[];
  readonly emphases: string[];
  readonly notes: string[];
  title: string;
  sceneBreaks: number;
  images: number;
}

function sectionOutline(section: Node, withText: boolean): OutlineSection {
  const tally: Tally = { lines: [], emphases: [], notes: [], title: '', sceneBreaks: 0, images: 0 };
  section.forEach((node) => {
    if (node.type.name === 'sectionTitle') tally.title = readLine(node, { ...tally, emphases: [] });
    else if (node.type.name !== 'sectionSubtitle') readBlock(node, tally);
  });
  const text = tally.lines.join('\n');
  const attributes = section.attrs as { id: string; kind: SectionKind; heading: string | null };
  return {
    id: attributes.id,
    kind: attributes.kind,
    heading: attributes.heading,
    title: tally.title,
    words: countWords(text),
    paragraphs: tally.lines.length,
    sceneBreaks: tally.sceneBreaks,
    emphases: tally.emphases.length,
    notes: tally.notes.length,
    images: tally.images,
    ...(withText ? { text, emphasisTexts: tally.emphases, noteTexts: tally.notes } : {}),
  };
}

function readBlock(node: Node, tally: Tally): void {
  if (node.isTextblock) {
    if (node.type.name === 'figure') tally.images++;
    if (node.childCount > 0) tally.lines.push(readLine(node, tally));
    return;
  }
  if (node.type.name === 'sceneBreak') tally.sceneBreaks++;
  if (node.type.name === 'figure') tally.images++;
  for (const child of node.children) readBlock(child, tally);
}

/** The text of a block on one line; emphasised spans and notes are put on record. */
function readLine(block: Node, tally: Tally): string {
  let text = '';
  let span: string | null = null;
  const close = (): void => {
    if (span !== null && span.trim() !== '') tally.emphases.push(span.trim());
    span = null;
  };
  block.forEach((inline) => {
    if (inline.isText) {
      const emphasised = inline.marks.some((mark) => mark.type.name === 'emphasis');
      if (emphasised) span = (span ?? '') + (inline.text ?? '');
      else close();
      text += inline.text ?? '';
    } else if (inline.type.name === 'note') tally.notes.push(noteText(inline));
    else if (inline.type.name === 'lineBreak') {
      text += ' ';
      if (span !== null) span += ' ';
    }
  });
  close();
  return text.replace(/[\u00ad\u200b\ufeff]/g, '');
}

function noteText(note: Node): string {
  const parts: string[] = [];
  note.descendants((node) => {
    if (!node.isTextblock) return true;
    parts.push(node.textBetween(0, node.content.size, ' ', ' '));
    return false;
  });
  return parts.join(' ');
}

/** The outline for reading: a line for each section, then the notices. */
export function outlineText(outline: Outline): string {
  const author = outline.author === '' ? '' : ` by ${outline.author}`;
  const total = outline.sections.reduce((sum, section) => sum + section.words, 0);
  const lines = [`${outline.title}${author} (${outline.language}, ${total} words)`, ''];
  for (const section of outline.sections) lines.push(sectionLine(section));
  if (outline.notices.length > 0) lines.push('');
  for (const notice of outline.notices) lines.push(`${String(notice.count).padStart(7)}  ${notice.message}`);
  return `${lines.join('\n')}\n`;
}

function sectionLine(section: OutlineSection): string {
  const extras = [
    counted(section.sceneBreaks, 'scene break'),
    counted(section.emphases, 'emphasis', 'emphases'),
    counted(section.notes, 'note'),
    counted(section.images, 'image'),
  ].filter((part) => part !== '');
  const name = section.heading ?? (section.title === '' ? '(no heading)' : section.title);
  const tail = extras.length === 0 ? '' : `  (${extras.join(', ')})`;
  return `${String(section.words).padStart(7)}  ${section.kind.padEnd(15)}  ${name}${tail}`;
}

function counted(count: number, one: string, many = `${one}s`): string {
  return count === 0 ? '' : `${count} ${count === 1 ? one : many}`;
}
