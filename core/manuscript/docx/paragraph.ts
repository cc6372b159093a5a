/**
 * Paragraphs (w:p). In: runs, wrappers of runs, links, tracked changes, simple fields; out: one RawParagraph to the
 * container, and after it the frames that it anchors.
 */
import type { RawBlock, RawInline } from '../raw.ts';
import type { Carried, ParagraphContainer } from './carry.ts';
import { ControlScope } from './controls.ts';
import { DrawingScope } from './drawing.ts';
import { type InlineSink, TextScope } from './inlines.ts';
import { type ParagraphOwn, type ParagraphProperties, ParagraphPropertyScope } from './paragraphProperties.ts';
import { paragraphOf } from './rawParagraph.ts';
import { RunScope } from './run.ts';
import { HIDDEN, type Look, sameLook } from './runProperties.ts';
import type { Story } from './story.ts';
import { StrayScope } from './stray.ts';
import type { Scope, Tag } from './xml.ts';

export class ParagraphScope implements Scope, InlineSink {
  private properties: ParagraphProperties = {};
  private own: ParagraphOwn = {};
  private readonly inlines: RawInline[];
  private readonly frames: RawBlock[];
  private typed = '';
  private look: Look | null = null;
  private href: string | null = null;
  private language: string | null = null;
  private dropCap: string;
  private readonly links: (string | null)[] = [];
  private inContents: boolean;
  private readonly beganInContents: boolean;
  private sawHidden = false;
  private ruled = false;
  private readonly carried: Carried | null;
  private readonly carriedLength: number;

  constructor(
    readonly story: Story,
    private readonly container: ParagraphContainer,
  ) {
    const carried = container.takeCarried();
    this.inlines = carried?.inlines ?? [];
    this.frames = carried?.frames ?? [];
    this.dropCap = carried?.dropCap ?? '';
    this.inContents = carried?.contents ?? false;
    this.carried = carried;
    this.carriedLength = this.inlines.length;
    this.beganInContents = story.inContents;
  }

  open(name: string, tag: Tag): Scope | null {
    const { story } = this;
    switch (name) {
      case 'w:r':
        return new RunScope(this);
      case 'w:pPr':
        return new ParagraphPropertyScope((scope) => {
          this.properties = scope.properties;
          this.own = scope.own;
        });
      case 'w:hyperlink':
        this.links.push(this.hrefOf(tag));
        return this;
      case 'w:fldSimple':
        story.fields.beginSimple(tag.get('w:instr') ?? '');
        return this;
      case 'w:ins':
        story.shared.remarks.add('tracked-insertion');
        return this;
      case 'w:del':
      case 'w:moveFrom':
        story.shared.remarks.add('tracked-deletion');
        return null;
      case 'm:oMath':
        story.shared.remarks.add('equation');
        return this;
      case 'w:t':
      case 'm:t':
        return new TextScope(this, this.styleLook(null));
      case 'w:rPr':
      case 'm:rPr':
      case 'm:ctrlPr':
        return null;
      case 'w:sdt':
        return new ControlScope(this, story);
      case 'w:drawing':
      case 'w:pict':
      case 'w:object':
        return new DrawingScope(this, false);
      case 'w:p':
      case 'w:tbl':
        // Blocks inside a paragraph are against the schema; their words still count.
        return this.openStray(name, tag);
      default:
        return this;
    }
  }

  close(name: string): void {
    if (name === 'w:hyperlink') this.links.pop();
    else if (name === 'w:fldSimple') this.story.fields.end();
    else if (name === 'w:p') this.finish();
  }

  /** The look that styles alone give to a run of this paragraph. */
  styleLook(characterStyle: string | null): Look {
    return this.story.shared.styles.look(this.properties.style ?? null, characterStyle);
  }

  /** Adds what was typed; line ends in the XML are spaces, tabs are tabs. */
  addText(text: string, look: Look): void {
    if (look.flags & HIDDEN) this.sawHidden = true;
    if (!this.shows(look) || text === '') return;
    const parts = text.split('\t');
    parts.forEach((part, index) => {
      if (index > 0) this.addInline({ kind: 'tab' }, look);
      if (part !== '') this.append(part.includes('\n') ? part.replace(/\n+/g, ' ') : part, look);
    });
  }

  addInline(inline: RawInline, look: Look): void {
    if (!this.shows(look)) return;
    this.flush();
    this.inlines.push(inline);
    if (this.story.inContents) this.inContents = true;
  }

  addFrame(blocks: readonly RawBlock[]): void {
    if (blocks.some(holdsContent)) this.frames.push({ kind: 'frame', blocks });
  }

  /** A drawn line across the measure. */
  addRule(): void {
    this.ruled = true;
  }

  private openStray(name: string, tag: Tag): Scope | null {
    const { story } = this;
    const blocks = story.shared.openBlocks(story, (found) => this.frames.push(...found));
    const content = blocks.open(name, tag);
    return content && new StrayScope(content, () => blocks.close?.('w:body'));
  }

  private shows(look: Look): boolean {
    return !(look.flags & HIDDEN) && !this.story.fields.hidden;
  }

  private append(text: string, look: Look): void {
    const href = this.links[this.links.length - 1] ?? this.story.fields.href;
    const language = this.story.shared.texts.count(look.language, text.length);
    if (this.look === null || href !== this.href || language !== this.language || !sameLook(this.look, look)) {
      this.flush();
      this.look = look;
      this.href = href;
      this.language = language;
    }
    this.typed += this.dropCap + text;
    this.dropCap = '';
    if (this.story.inContents) this.inContents = true;
  }

  private flush(): void {
    if (this.look !== null && this.typed !== '') {
      this.inlines.push(
        this.story.shared.texts.make(this.typed, this.look, { href: this.href, language: this.language }),
      );
    }
    this.typed = '';
    this.look = null;
  }

  private hrefOf(tag: Tag): string | null {
    const anchor = tag.get('w:anchor');
    const target = this.story.relationships.get(tag.get('r:id') ?? '')?.target ?? '';
    const whole = anchor ? `${target}#${anchor}` : target;
    return whole === '' ? null : this.story.safe(whole);
  }

  private finish(): void {
    if (this.dropCap !== '') this.append('', this.styleLook(null));
    this.flush();
    const empty = this.inlines.length === 0;
    const contents = this.inContents || (empty && (this.beganInContents || this.story.inContents));
    const { mark } = this.own;
    if (mark?.markDeleted) {
      this.story.shared.remarks.add('tracked-deletion');
      this.carry(this.inlines, '', contents);
    } else if (this.isDropCap()) {
      this.carry([], this.inlines.map((each) => (each.kind === 'text' ? each.text : '')).join(''), contents);
    } else {
      const hidden = empty && this.sawHidden && ((mark?.on ?? 0) & HIDDEN) !== 0;
      if (!hidden || this.frames.length > 0) this.emit(contents);
      if (this.own.sectionEnd) this.story.endSection(this.own.sectionEnd);
    }
    this.story.fields.endParagraph();
  }

  private isDropCap(): boolean {
    const onlyText = this.inlines.length > 0 && this.inlines.every((each) => each.kind === 'text');
    return this.properties.dropCap === true && onlyText;
  }

  private carry(inlines: RawInline[], dropCap: string, contents: boolean): void {
    const { properties, frames } = this;
    this.container.carry({ properties, inlines, frames, dropCap, contents });
  }

  private emit(contents: boolean): void {
    // Of a joined paragraph the last mark counts, as it is the one left; but an empty rest adds nothing to a heading.
    const joined = this.carried && this.carried.inlines.length > 0 && this.inlines.length === this.carriedLength;
    const properties = joined ? this.carried.properties : this.properties;
    const paragraph = paragraphOf(this.story, properties, this.inlines, contents);
    if (this.ruled) paragraph.rule = true;
    this.container.add(paragraph);
    for (const frame of this.frames) this.container.add(frame);
  }
}

function holdsContent(block: RawBlock): boolean {
  return block.kind !== 'paragraph' || block.inlines.length > 0;
}
