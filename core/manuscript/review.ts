/**
 * The manuscript line by line, to be read beside what was made of it. In: a raw manuscript and where its blocks went; out:
 * one line for each paragraph as it came, empty ones too.
 */
import type { SectionId } from '#base';
import type { RawBlock, RawInline, RawManuscript, RawParagraph, RawText } from './raw.ts';

export interface ReviewLine {
  readonly text: string;
  readonly align: RawParagraph['align'];
  readonly bold: boolean;
  readonly italic: boolean;
  /** Points, of most letters; null where the manuscript says nothing. */
  readonly size: number | null;
  readonly pageBreakBefore: boolean;
  /** The section that it went to; null where it was left out or stands for space. */
  readonly section: SectionId | null;
}

/** A line longer than any paragraph that a person reads through is shown in part. */
const LONGEST = 20_000;

export function reviewLines(raw: RawManuscript, placed: ReadonlyMap<RawBlock, SectionId>): readonly ReviewLine[] {
  return raw.blocks.flatMap((block) => linesOf(block, placed.get(block) ?? null));
}

function linesOf(block: RawBlock, section: SectionId | null): readonly ReviewLine[] {
  switch (block.kind) {
    case 'paragraph':
      return [lineOf(block, section)];
    case 'frame':
      return block.blocks.flatMap((each) => linesOf(each, section));
    case 'table':
      return block.rows.flatMap((row) => row.flatMap((cell) => cell.flatMap((each) => linesOf(each, section))));
  }
}

function lineOf(paragraph: RawParagraph, section: SectionId | null): ReviewLine {
  const { inlines, align, pageBreakBefore, sectionBreakBefore, numberText } = paragraph;
  const number = numberText ? `${numberText}\t` : '';
  return {
    text: `${number}${inlines.map(textOf).join('')}`.slice(0, LONGEST),
    align,
    ...looksOf(inlines),
    pageBreakBefore: pageBreakBefore || sectionBreakBefore || inlines[0]?.kind === 'pageBreak',
    section,
  };
}

function textOf(inline: RawInline): string {
  switch (inline.kind) {
    case 'text':
      return inline.text;
    case 'tab':
      return '\t';
    case 'lineBreak':
      return '\n';
    case 'pageBreak':
    case 'note':
    case 'image':
      return '';
  }
}

/** How most letters of the paragraph look. */
function looksOf(inlines: readonly RawInline[]): Pick<ReviewLine, 'bold' | 'italic' | 'size'> {
  const runs = inlines.filter((inline): inline is RawText => inline.kind === 'text' && inline.text.trim() !== '');
  const all = lettersIn(runs);
  const most = (has: (run: RawText) => boolean): boolean => all > 0 && lettersIn(runs.filter(has)) >= 0.9 * all;
  const size = runs[0]?.size ?? null;
  return {
    bold: most((run) => run.bold === true),
    italic: most((run) => run.italic === true),
    size: size !== null && most((run) => run.size === size) ? size : null,
  };
}

function lettersIn(runs: readonly RawText[]): number {
  return runs.reduce((sum, run) => sum + run.text.length, 0);
}
