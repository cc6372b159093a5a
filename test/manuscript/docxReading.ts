/** Reads what the builder makes, and checks on the way that no word of it was lost or doubled. */
import { expect } from 'vitest';
import { type RawBlock, type RawInline, type RawManuscript, type RawParagraph, readDocx } from '#manuscript';
import { type DocxOptions, docx, docxParts, type Piece, p } from '../builders/docx.ts';

/** Reads these blocks, holding the reader to the law of words. */
export function read(blocks: readonly Piece[], options: DocxOptions = {}): RawManuscript {
  const manuscript = readFreely(blocks, options);
  const written = String(docxParts(blocks, options)['word/document.xml']);
  expect(wordsOf(textOf(manuscript.blocks))).toEqual(wordsOf(acceptedText(written)));
  return manuscript;
}

/** Reads without that law, for what adds to the text or takes from it by intention. */
export function readFreely(blocks: readonly Piece[], options: DocxOptions = {}): RawManuscript {
  return manuscriptOf(docx(blocks, options));
}

/** Reads bytes that must be readable. */
export function manuscriptOf(bytes: Uint8Array): RawManuscript {
  const outcome = readDocx(bytes, 'book.docx');
  if (!outcome.ok) throw new Error(outcome.problem);
  return outcome.value;
}

/** The one paragraph that these inlines make. */
export function readParagraph(content: Parameters<typeof p>[0], options: DocxOptions = {}): RawParagraph {
  return paragraphs(read([p(content)], options))[0]!;
}

/** The problem that a file is refused with. */
export function problemOf(bytes: Uint8Array, name = 'book.docx'): string {
  const outcome = readDocx(bytes, name);
  expect(outcome.ok).toBe(false);
  return outcome.ok ? '' : outcome.problem;
}

/** The paragraphs of the flow, those in tables and frames left out. */
export function paragraphs(manuscript: RawManuscript): readonly RawParagraph[] {
  return manuscript.blocks.filter((each) => each.kind === 'paragraph');
}

/** Text as a line to compare: notes in brackets, marks for what is no text. */
export function line(paragraph: RawParagraph): string {
  return paragraph.inlines.map(shown).join('');
}

function shown(inline: RawInline): string {
  switch (inline.kind) {
    case 'text':
      return inline.text;
    case 'tab':
      return '<tab>';
    case 'lineBreak':
      return '<line>';
    case 'pageBreak':
      return '<page>';
    case 'note':
      return `[${inline.place}: ${inline.paragraphs.map(line).join(' / ')}]`;
    case 'image':
      return '<image>';
  }
}

/** Runs with their looks: `plain|i:slanted|b i:both`. */
export function looks(paragraph: RawParagraph): string {
  const names = [
    ['italic', 'i'],
    ['bold', 'b'],
    ['underline', 'u'],
    ['smallCaps', 'sc'],
    ['allCaps', 'caps'],
    ['strike', 'strike'],
  ] as const;
  return paragraph.inlines
    .flatMap((each) => {
      if (each.kind !== 'text') return [];
      const marks = names.filter(([key]) => each[key]).map(([, mark]) => mark);
      const all = [...marks, ...(each.raised ? [each.raised] : []), ...(each.language ? [each.language] : [])];
      return [`${all.join(' ')}${all.length > 0 ? ':' : ''}${each.text}`];
    })
    .join('|');
}

/** How often each kind of remark was made. */
export function remarks(manuscript: RawManuscript): Record<string, number> {
  return Object.fromEntries(manuscript.remarks.map((each) => [each.kind, each.count]));
}

/** All text of the blocks without notes, a space where something else stands. */
function textOf(blocks: readonly RawBlock[]): string {
  return blocks
    .map((block) => {
      if (block.kind === 'frame') return textOf(block.blocks);
      if (block.kind === 'table') return block.rows.map((row) => row.map(textOf).join('\n')).join('\n');
      return block.inlines.map((each) => (each.kind === 'text' ? each.text : each.kind === 'note' ? '' : ' ')).join('');
    })
    .join('\n');
}

/** The text of a main part by plain search: deletions, fallbacks and hidden runs cut out, then every w:t. */
function acceptedText(xml: string): string {
  const kept = xml
    .replace(/<w:(del|moveFrom)( [^>]*[^/])?>.*?<\/w:\1>/gs, '')
    .replace(/<mc:Fallback>.*?<\/mc:Fallback>/gs, '')
    .replace(/<w:p>(?:(?!<\/w:p>).)*?<w:rPr><w:del [^>]*\/><\/w:rPr>.*?<\/w:p>/gs, (all) => all.slice(0, -6))
    .replace(/<w:r>(?:(?!<\/w:r>).)*?<w:vanish\/>.*?<\/w:r>/gs, '');
  const tokens = kept.matchAll(
    /<w:t(?: [^>]*)?>([^<]*)<\/w:t>|<\/w:p>|<(?:w:p|w:tab|w:br|w:cr|w:tc|w:noBreakHyphen)[ />]/g,
  );
  const text = [...tokens].map((each) => each[1] ?? '\n').join('');
  return text
    .replace(/&#(x?)([0-9a-f]+);/gi, (_, hex, digits) => String.fromCodePoint(Number.parseInt(digits, hex ? 16 : 10)))
    .replace(/&(lt|gt|quot|amp);/g, (_, name: string) => ({ lt: '<', gt: '>', quot: '"' })[name] ?? '&');
}

/** Words in a settled order, as frames stand elsewhere than in the file. */
function wordsOf(text: string): readonly string[] {
  return (text.match(/[\p{L}\p{M}\p{N}]+/gu) ?? []).sort();
}
