/**
 * A story: a stretch of text with its own part (the main text, the footnotes, the endnotes), and what all its scopes
 * share while it is read.
 */
import type { RawBlock, RawInline, RawParagraph } from '../raw.ts';
import { Fields } from './fields.ts';
import type { Images } from './images.ts';
import { safeHref } from './links.ts';
import type { Mutable } from './mutable.ts';
import type { Numbering } from './numbering.ts';
import type { Relationships } from './package.ts';
import type { Section } from './paragraphProperties.ts';
import type { Remarks } from './remarks.ts';
import type { Styles } from './styles.ts';
import type { Texts } from './texts.ts';
import type { Scope } from './xml.ts';

export type NotePlace = 'foot' | 'end';

/** What all stories of one file share. */
export interface Shared {
  readonly styles: Styles;
  readonly numbering: Numbering;
  readonly images: Images;
  readonly remarks: Remarks;
  readonly texts: Texts;
  /** A scope for blocks within blocks: cells, text boxes. */
  readonly openBlocks: (story: Story, done: (blocks: readonly RawBlock[]) => void) => Scope;
}

export class Story {
  readonly fields = new Fields((target) => this.safe(target));
  /** Depth of generated contents lists marked by a content control. */
  contentsControls = 0;
  /** Depth of frames: their paragraphs stand beside the flow. */
  frames = 0;
  private sectionFirst: Mutable<RawParagraph> | null = null;
  private sectionsEnded = 0;
  /** Paragraphs taken for contents because of the field that is open now. */
  private readonly byField: Mutable<RawParagraph>[] = [];

  constructor(
    readonly shared: Shared,
    readonly relationships: Relationships,
    private readonly notes: ReadonlyMap<string, readonly RawParagraph[]>,
  ) {}

  get inContents(): boolean {
    return this.contentsControls > 0 || this.fields.inContents;
  }

  /** Every paragraph of the flow, in order. */
  noteParagraph(paragraph: RawParagraph): void {
    if (this.frames === 0) this.sectionFirst ??= paragraph;
    if (!this.fields.inContents) this.byField.length = 0;
    else if (paragraph.inContentsField && this.contentsControls === 0) this.byField.push(paragraph);
  }

  /** A section ends here; how it began is only known now. */
  endSection({ type, furniture }: Section): void {
    this.shared.remarks.add('header-footer', furniture);
    if (this.sectionsEnded > 0 && type !== 'continuous' && this.sectionFirst) {
      this.sectionFirst.sectionBreakBefore = true;
    }
    this.sectionsEnded++;
    this.sectionFirst = null;
  }

  /**
   * The text is over. A contents field that never ended (its end may have been deleted) must not claim the whole book:
   * only what is styled as contents stays so.
   */
  end(): void {
    if (!this.fields.inContents) return;
    for (const each of this.byField) each.inContentsField = /^toc /i.test(each.style ?? '');
  }

  /** A link's target as an address to keep; null, with a remark, where it leads nowhere a reader could go. */
  safe(target: string): string | null {
    const href = safeHref(target);
    if (href === null) this.shared.remarks.add('unsafe-link');
    return href;
  }

  noteInline(place: NotePlace, id: string): RawInline | null {
    const paragraphs = this.notes.get(`${place} ${id}`);
    if (!paragraphs) this.shared.remarks.add('missing-note');
    return paragraphs ? { kind: 'note', place, paragraphs } : null;
  }
}
