/**
 * What a book consists of, for checking an import. In: a book and the import's report; out: the outline as one plain
 * object, and as text for a terminal.
 */
import type { Node } from 'prosemirror-model';
import { authorsOf, type Book, bodyTextblocksOf, countWords, type SectionKind, textOf } from '#book';
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

function sectionOutline(section: Node, withText: boolean): OutlineSection {
  const blocks = bodyTextblocksOf(section).filter((block) => block.childCount > 0);
  const emphases = blocks.flatMap(emphasisTexts);
  const notes = blocks.flatMap((block) => block.children.filter((inline) => inline.type.name === 'note'));
  const attributes = section.attrs as { id: string; kind: SectionKind; heading: string | null };
  const title = section.children.find((node) => node.type.name === 'sectionTitle');
  const counts = countLeaves(section);
  return {
    id: attributes.id,
    kind: attributes.kind,
    heading: attributes.heading,
    title: title === undefined ? '' : textOf(title),
    words: countWords(section),
    paragraphs: blocks.length,
    sceneBreaks: counts.sceneBreaks,
    emphases: emphases.length,
    notes: notes.length,
    images: counts.images,
    ...(withText
      ? { text: blocks.map(textOf).join('\n'), emphasisTexts: emphases, noteTexts: notes.map(noteText) }
      : {}),
  };
}

interface LeafCounts {
  sceneBreaks: number;
  images: number;
}

function countLeaves(node: Node, counts: LeafCounts = { sceneBreaks: 0, images: 0 }): LeafCounts {
  for (const child of node.children) {
    if (child.type.name === 'sceneBreak') counts.sceneBreaks++;
    else if (child.type.name === 'figure') counts.images++;
    else if (!child.isTextblock) countLeaves(child, counts);
  }
  return counts;
}

/** The emphasised spans of a text block, one from end to end however many looks it is made of. */
function emphasisTexts(block: Node): readonly string[] {
  const spans: string[] = [];
  let span = '';
  const close = (): void => {
    if (span.trim() !== '') spans.push(span.trim());
    span = '';
  };
  for (const inline of block.children) {
    if (inline.type.name === 'lineBreak') span += span === '' ? '' : ' ';
    else if (inline.isText && inline.marks.some((mark) => mark.type.name === 'emphasis')) span += inline.text ?? '';
    else if (inline.isText) close();
  }
  close();
  return spans;
}

function noteText(note: Node): string {
  return textOf(note).replaceAll('\n', ' ');
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
