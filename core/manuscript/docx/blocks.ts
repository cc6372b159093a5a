/** Block-level content: the body, a table cell, a text box, a note. In: paragraphs and tables as they come; out: RawBlocks. */
import type { RawBlock } from '../raw.ts';
import type { Carried, ParagraphContainer } from './carry.ts';
import { ControlScope } from './controls.ts';
import { ParagraphScope } from './paragraph.ts';
import { SectionScope } from './paragraphProperties.ts';
import { paragraphOf } from './rawParagraph.ts';
import type { Story } from './story.ts';
import { StrayScope } from './stray.ts';
import { TableScope } from './table.ts';
import type { Scope, Tag } from './xml.ts';

/** What belongs inside a paragraph; at this level only equations are by the schema. */
const INLINE = new Set(['w:r', 'w:t', 'w:hyperlink', 'w:fldSimple', 'm:oMathPara', 'm:oMath']);

/** Elements whose content never belongs to the text. */
const DROPPED = new Set(['w:del', 'w:moveFrom', 'w:tcPr', 'w:sdtEndPr']);

export class BlockScope implements Scope, ParagraphContainer {
  private readonly blocks: RawBlock[] = [];
  private carried: Carried | null = null;
  private level = 0;

  constructor(
    protected readonly story: Story,
    private readonly done: (blocks: readonly RawBlock[]) => void,
  ) {}

  open(name: string, tag: Tag): Scope | null {
    switch (name) {
      case 'w:p':
        return new ParagraphScope(this.story, this);
      case 'w:tbl':
        this.settleCarried();
        return new TableScope(this.story, (table) => this.add(table));
      case 'w:sdt':
        return new ControlScope(this, this.story);
      case 'w:sectPr':
        return new SectionScope((section) => this.story.endSection(section));
      case 'w:altChunk':
      case 'w:subDoc':
        this.story.shared.remarks.add('embedded-document');
        return null;
      default:
        if (DROPPED.has(name)) return null;
        if (INLINE.has(name)) return this.openInline(name, tag);
        this.level++;
        return this;
    }
  }

  close(): void {
    if (this.level > 0) {
      this.level--;
      return;
    }
    this.settleCarried();
    this.done(this.blocks);
  }

  add(block: RawBlock): void {
    if (block.kind === 'paragraph') this.story.noteParagraph(block);
    this.blocks.push(block);
  }

  /** Keeps what a paragraph hands on to the next one of this container. */
  carry(what: Carried): void {
    this.carried = what;
  }

  takeCarried(): Carried | null {
    const { carried } = this;
    this.carried = null;
    return carried;
  }

  private openInline(name: string, tag: Tag): Scope | null {
    const paragraph = new ParagraphScope(this.story, this);
    const content = paragraph.open(name, tag);
    return content && new StrayScope(content, () => paragraph.close('w:p'));
  }

  /** No paragraph follows to take it: what is carried becomes one of its own. */
  private settleCarried(): void {
    const { carried } = this;
    if (!carried) return;
    this.carried = null;
    const { properties, inlines, frames, contents, dropCap } = carried;
    if (dropCap !== '') {
      const look = this.story.shared.styles.look(properties.style ?? null, null);
      inlines.push(this.story.shared.texts.make(dropCap, look, { href: null, language: null }));
    }
    if (inlines.length > 0) this.add(paragraphOf(this.story, properties, inlines, contents));
    for (const frame of frames) this.add(frame);
  }
}
