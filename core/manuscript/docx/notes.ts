/** Footnotes and endnotes. In: their part; out: each note's paragraphs, without its own mark and the space after it. */
import type { RawBlock, RawInline, RawParagraph } from '../raw.ts';
import { BlockScope } from './blocks.ts';
import type { NotePlace, Story } from './story.ts';
import { integer } from './values.ts';
import type { Scope, Tag } from './xml.ts';

export class NotesScope implements Scope {
  constructor(
    private readonly story: Story,
    private readonly place: NotePlace,
    /** By place and id, `foot 2`. */
    private readonly found: Map<string, readonly RawParagraph[]>,
  ) {}

  open(name: string, tag: Tag): Scope | null {
    if (name !== `w:${this.place}note`) return name === `w:${this.place}notes` ? this : null;
    const type = tag.get('w:type') ?? 'normal';
    if (type !== 'normal') return null;
    const key = `${this.place} ${integer(tag.get('w:id')) ?? ''}`;
    return new BlockScope(this.story, (blocks) => this.found.set(key, withoutLead(paragraphsOf(blocks))));
  }
}

/** Tables and frames inside a note are taken as the paragraphs in them. */
function paragraphsOf(blocks: readonly RawBlock[]): readonly RawParagraph[] {
  return blocks.flatMap(paragraphsIn);
}

function paragraphsIn(block: RawBlock): readonly RawParagraph[] {
  switch (block.kind) {
    case 'paragraph':
      return [block];
    case 'frame':
      return paragraphsOf(block.blocks);
    case 'table':
      return block.rows.flatMap((row) => row.flatMap(paragraphsOf));
  }
}

function withoutLead(paragraphs: readonly RawParagraph[]): readonly RawParagraph[] {
  const [first, ...rest] = paragraphs;
  return first ? [{ ...first, inlines: trimmed(first.inlines) }, ...rest] : paragraphs;
}

function trimmed(inlines: readonly RawInline[]): readonly RawInline[] {
  const [first, ...rest] = inlines;
  if (first?.kind === 'tab') return trimmed(rest);
  if (first?.kind !== 'text') return inlines;
  const text = first.text.replace(/^[\s\u00a0]+/, '');
  return text === '' ? trimmed(rest) : [{ ...first, text }, ...rest];
}
