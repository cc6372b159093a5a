/**
 * The lines of the printed text, read back from pages. In: a view and its pages; out: each paragraph's lines in order,
 * with the page that each stands on. Headings, notes, contents and furniture are left out.
 */

import type { Node } from 'prosemirror-model';
import type { BlockId, SectionId } from '#base';
import type { EditionView } from '#book';
import type { GlyphRun, Page } from '#page';

export interface ProofLine {
  readonly page: Page;
  readonly block: BlockId;
  /** Flat-text offset of the line's first character. */
  readonly offset: number;
  /** The line ends inside a word that the breaker divided. */
  readonly divided: boolean;
  /** The line ends in a hyphen of any kind. */
  readonly hyphen: boolean;
}

export interface ProofParagraph {
  readonly block: BlockId;
  readonly section: SectionId;
  readonly lines: readonly ProofLine[];
}

/** The paragraphs and verse lines of the running text as they stand on the pages, in the order of the pages. */
export function proofParagraphs(view: EditionView, pages: readonly Page[]): readonly ProofParagraph[] {
  const sections = runningText(view);
  const paragraphs: { block: BlockId; section: SectionId; lines: ProofLine[] }[] = [];
  const open = new Map<BlockId, (typeof paragraphs)[number]>();
  for (const line of pages.flatMap(linesOf)) {
    const section = sections.get(line.block);
    if (section === undefined) continue;
    const known = open.get(line.block);
    if (known && continues(known.lines[known.lines.length - 1]!, line)) known.lines.push(line);
    else {
      const paragraph = { block: line.block, section, lines: [line] };
      paragraphs.push(paragraph);
      open.set(line.block, paragraph);
    }
  }
  return paragraphs;
}

/** A block that is shown again elsewhere (as a contents entry is) begins anew. */
function continues(before: ProofLine, after: ProofLine): boolean {
  return after.offset > before.offset && after.page.index - before.page.index <= 1;
}

/** The text blocks whose lines the rules hold for, with their sections. */
function runningText(view: EditionView): ReadonlyMap<BlockId, SectionId> {
  const blocks = new Map<BlockId, SectionId>();
  const collect = (node: Node, section: SectionId): void => {
    if (node.type.name === 'paragraph' || node.type.name === 'verseLine') {
      blocks.set(node.attrs['id'] as BlockId, section);
    } else if (!node.isTextblock) {
      for (const child of node.children) collect(child, section);
    }
  };
  for (const section of view.sections) {
    for (const block of section.blocks) collect(block, section.id);
  }
  return blocks;
}

/**
 * The lines of a page: runs of one block that follow each other from left to right at about one height. A drop cap has no
 * text of its own: it is read with the line beside it.
 */
function linesOf(page: Page): readonly ProofLine[] {
  const lines: ProofLine[] = [];
  let first: GlyphRun | null = null;
  let last: GlyphRun | null = null;
  const close = (): void => {
    if (first?.at && last) {
      const end = last.text.trimEnd().at(-1);
      const divided = end === '\u00AD';
      const hyphen = divided || end === '-' || end === '\u2010';
      lines.push({ page, block: first.at.block, offset: first.at.offset, divided, hyphen });
    }
    first = null;
  };
  for (const item of page.items) {
    if (item.kind !== 'glyphs' || item.furniture || !item.at || item.text === '') continue;
    if (last && first && startsLine(last, item)) close();
    first ??= item;
    last = item;
  }
  close();
  return lines;
}

/** A raised or lowered mark stays on its line. */
function startsLine(before: GlyphRun, after: GlyphRun): boolean {
  if (before.at?.block !== after.at?.block || after.x <= before.x) return true;
  return after.y - before.y > 0.7 * Math.min(before.size, after.size);
}
