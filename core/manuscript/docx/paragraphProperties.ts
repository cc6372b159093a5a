/** Paragraph properties (w:pPr). In: the element's children; out: what one level of formatting says. */
import type { Points } from '#base';
import type { RawParagraph } from '../raw.ts';
import { type RunProperties, RunPropertyScope } from './runProperties.ts';
import { integer, isOn, twips } from './values.ts';
import type { Scope, Tag } from './xml.ts';

export interface ParagraphProperties {
  style?: string;
  align?: RawParagraph['align'];
  first?: Points;
  start?: Points;
  end?: Points;
  /** Indents in characters override lengths where they are not 0. */
  firstChars?: number;
  startChars?: number;
  endChars?: number;
  before?: Points;
  after?: Points;
  pageBreakBefore?: boolean;
  /** From 0; 9 is body text. */
  outline?: number;
  numbering?: number;
  level?: number;
  rule?: boolean;
  /** The paragraph is a drop cap that belongs to the next one. */
  dropCap?: boolean;
}

/** What only a paragraph itself can say, never a style. */
export interface ParagraphOwn {
  /** Properties of the paragraph mark. */
  mark?: RunProperties;
  /** The paragraph ends this section. */
  sectionEnd?: Section;
}

/** A section, as the properties at its end describe it. */
export interface Section {
  /** The kind of break that it began with. */
  readonly type: string;
  /** How many headers and footers it names. */
  readonly furniture: number;
}

/** A line of automatic spacing, and the space that "auto" stands for (common practice, no source). */
const LINE: Points = 12;
const AUTO_SPACE: Points = 14;

export class ParagraphPropertyScope implements Scope {
  readonly properties: ParagraphProperties = {};
  readonly own: ParagraphOwn = {};

  constructor(private readonly done: ((scope: ParagraphPropertyScope) => void) | null = null) {}

  open(name: string, tag: Tag): Scope | null {
    const { properties } = this;
    switch (name) {
      case 'w:pStyle':
        return this.put('style', tag.get('w:val') ?? null);
      case 'w:jc':
        return this.put('align', alignmentOf(tag.get('w:val')));
      case 'w:ind':
        return this.takeIndents(tag);
      case 'w:spacing':
        return this.takeSpacing(tag);
      case 'w:pageBreakBefore':
        return this.put('pageBreakBefore', isOn(tag));
      case 'w:outlineLvl':
        return this.put('outline', integer(tag.get('w:val')));
      case 'w:numPr':
        return new NumberingReference(properties);
      case 'w:pBdr':
        return new Borders(properties);
      case 'w:framePr':
        return this.put('dropCap', ['drop', 'margin'].includes(tag.get('w:dropCap') ?? ''));
      case 'w:rPr':
        return new RunPropertyScope((mark) => {
          this.own.mark = mark;
        });
      case 'w:sectPr':
        return new SectionScope((section) => {
          this.own.sectionEnd = section;
        });
      default:
        return null;
    }
  }

  close(): void {
    this.done?.(this);
  }

  private put<K extends keyof ParagraphProperties>(key: K, value: ParagraphProperties[K] | null): null {
    if (value !== null && value !== undefined) this.properties[key] = value;
    return null;
  }

  private takeIndents(tag: Tag): null {
    this.put('start', twips(tag.get('w:start') ?? tag.get('w:left')));
    this.put('end', twips(tag.get('w:end') ?? tag.get('w:right')));
    this.put('startChars', integer(tag.get('w:startChars') ?? tag.get('w:leftChars')));
    this.put('endChars', integer(tag.get('w:endChars') ?? tag.get('w:rightChars')));
    const hanging = twips(tag.get('w:hanging'));
    this.put('first', hanging === null ? twips(tag.get('w:firstLine')) : 0 - hanging);
    const hangingChars = integer(tag.get('w:hangingChars'));
    return this.put('firstChars', hangingChars ? -hangingChars : integer(tag.get('w:firstLineChars')));
  }

  private takeSpacing(tag: Tag): null {
    this.put('before', spaceOf(tag, 'before'));
    return this.put('after', spaceOf(tag, 'after'));
  }
}

function spaceOf(tag: Tag, side: 'before' | 'after'): Points | null {
  const auto = tag.get(`w:${side}Autospacing`);
  if (auto === '1' || auto === 'true' || auto === 'on') return AUTO_SPACE;
  const lines = integer(tag.get(`w:${side}Lines`));
  return lines ? (lines / 100) * LINE : twips(tag.get(`w:${side}`));
}

function alignmentOf(value: string | undefined): RawParagraph['align'] | null {
  switch (value) {
    case undefined:
      return null;
    case 'center':
      return 'center';
    case 'right':
    case 'end':
      return 'end';
    case 'left':
    case 'start':
    case 'numTab':
      return 'start';
    default:
      // both, distribute and the kashida and thai kinds all fill the measure.
      return 'justify';
  }
}

class NumberingReference implements Scope {
  constructor(private readonly properties: ParagraphProperties) {}

  open(name: string, tag: Tag): null {
    const value = integer(tag.get('w:val'));
    if (value !== null && name === 'w:numId') this.properties.numbering = value;
    if (value !== null && name === 'w:ilvl') this.properties.level = Math.min(8, Math.max(0, value));
    return null;
  }
}

/** A line above or below; a box around the paragraph is not a rule. */
class Borders implements Scope {
  private readonly sides = new Set<string>();

  constructor(private readonly properties: ParagraphProperties) {}

  open(name: string, tag: Tag): null {
    const kind = tag.get('w:val');
    if (kind !== undefined && kind !== 'nil' && kind !== 'none') this.sides.add(name);
    return null;
  }

  close(): void {
    const has = (side: string) => this.sides.has(`w:${side}`);
    const box = (has('left') || has('start')) && (has('right') || has('end'));
    this.properties.rule = (has('top') || has('bottom')) && !box;
  }
}

/** w:sectPr: how the section began (`nextPage` where it does not say). */
export class SectionScope implements Scope {
  private type = 'nextPage';
  private furniture = 0;

  constructor(private readonly done: (section: Section) => void) {}

  open(name: string, tag: Tag): null {
    if (name === 'w:type') this.type = tag.get('w:val') ?? this.type;
    if (name === 'w:headerReference' || name === 'w:footerReference') this.furniture++;
    return null;
  }

  close(): void {
    this.done({ type: this.type, furniture: this.furniture });
  }
}
