/**
 * The style sheet (w:styles). In: the styles part; out: what a paragraph or run of a given style looks like, with every
 * basedOn chain followed once.
 */
import { type ParagraphProperties, ParagraphPropertyScope } from './paragraphProperties.ts';
import {
  type Look,
  lookOf,
  NO_RUN_PROPERTIES,
  overlay,
  type RunProperties,
  RunPropertyScope,
} from './runProperties.ts';
import { englishStyleName } from './styleNames.ts';
import { isOn } from './values.ts';
import type { Scope, Tag } from './xml.ts';

interface Style {
  readonly id: string;
  readonly type: string;
  isDefault: boolean;
  name: string;
  basedOn: string | null;
  run: RunProperties;
  paragraph: ParagraphProperties;
}

/** A paragraph style with everything it inherits. */
export interface ResolvedStyle {
  /** As the author sees it, English for built-in styles. */
  readonly name: string | null;
  readonly paragraph: ParagraphProperties;
  readonly run: RunProperties;
  /** The style in the chain that gives the numbering: levels are tied to its id. */
  readonly numberedBy: string | null;
}

const CHAIN_LIMIT = 64;

export class Styles implements Scope {
  private readonly byId = new Map<string, Style>();
  private readonly defaults: { run: RunProperties; paragraph: ParagraphProperties } = {
    run: NO_RUN_PROPERTIES,
    paragraph: {},
  };
  private defaultParagraph: string | null = null;
  private defaultCharacter: string | null = null;
  private readonly resolved = new Map<string, ResolvedStyle>();
  private readonly looks = new Map<string, Look>();

  open(name: string, tag: Tag): Scope | null {
    switch (name) {
      case 'w:styles':
      case 'w:docDefaults':
      case 'w:rPrDefault':
      case 'w:pPrDefault':
        return this;
      case 'w:rPr':
        return new RunPropertyScope((run) => {
          this.defaults.run = run;
        });
      case 'w:pPr':
        return new ParagraphPropertyScope((scope) => {
          this.defaults.paragraph = scope.properties;
        });
      case 'w:style':
        return this.openStyle(tag);
      default:
        return null;
    }
  }

  /** A paragraph style; the default one for null. An id that the sheet lacks looks like the default but keeps its name. */
  paragraphStyle(id: string | null): ResolvedStyle {
    const key = id ?? this.defaultParagraph ?? '';
    let found = this.resolved.get(key);
    if (!found) {
      found = this.resolve(key);
      this.resolved.set(key, found);
    }
    return found;
  }

  /** The numbering id that a numbering style stands for. */
  numberingOf(styleId: string): number | null {
    return this.byId.get(styleId)?.paragraph.numbering ?? null;
  }

  /** The look of a run by its styles alone. */
  look(paragraph: string | null, character: string | null): Look {
    const key = `${paragraph ?? ''}\n${character ?? ''}`;
    let look = this.looks.get(key);
    if (!look) {
      const own = character ?? this.defaultCharacter;
      look = lookOf(this.defaults.run, this.paragraphStyle(paragraph).run, this.characterProperties(own));
      this.looks.set(key, look);
    }
    return look;
  }

  private openStyle(tag: Tag): Scope {
    const id = tag.get('w:styleId') ?? '';
    const type = tag.get('w:type') ?? 'paragraph';
    const style: Style = { id, type, isDefault: false, name: id, basedOn: null, run: { set: 0, on: 0 }, paragraph: {} };
    const value = tag.get('w:default');
    style.isDefault = value === '1' || value === 'true' || value === 'on';
    return new StyleScope(style, () => this.add(style));
  }

  private add(style: Style): void {
    style.name = englishStyleName(style.name);
    this.byId.set(style.id, style);
    if (style.isDefault && style.type === 'paragraph') this.defaultParagraph = style.id;
    if (style.isDefault && style.type === 'character') this.defaultCharacter = style.id;
  }

  private characterProperties(id: string | null): RunProperties {
    let merged: RunProperties = NO_RUN_PROPERTIES;
    for (const style of this.chain(id, 'character')) merged = overlay(style.run, merged);
    return merged;
  }

  private resolve(id: string): ResolvedStyle {
    if (this.byId.get(id)?.type !== 'paragraph' && id !== '') return this.resolveUnknown(id);
    let paragraph: ParagraphProperties = {};
    let run: RunProperties = NO_RUN_PROPERTIES;
    let numberedBy: string | null = null;
    for (const style of this.chain(id, 'paragraph')) {
      paragraph = { ...impliedOutline(style.name), ...style.paragraph, ...paragraph };
      run = overlay(style.run, run);
      if (style.paragraph.numbering !== undefined) numberedBy ??= style.id;
    }
    const name = this.byId.get(id)?.name ?? null;
    return { name, paragraph: { ...this.defaults.paragraph, ...paragraph }, run, numberedBy };
  }

  private resolveUnknown(id: string): ResolvedStyle {
    const fallback = this.resolve(this.defaultParagraph ?? '');
    const name = englishStyleName(id);
    return { ...fallback, name, paragraph: { ...fallback.paragraph, ...impliedOutline(name) } };
  }

  /** The style and what it is based on, nearest first. */
  private *chain(id: string | null, type: string): Generator<Style> {
    let next = id === null ? undefined : this.byId.get(id);
    for (let steps = 0; next && next.type === type && steps < CHAIN_LIMIT; steps++) {
      yield next;
      next = next.basedOn === null ? undefined : this.byId.get(next.basedOn);
    }
  }
}

/** Built-in headings have their outline level even where the sheet leaves it unsaid. */
function impliedOutline(name: string): ParagraphProperties {
  const level = /^heading ([1-9])$/.exec(name)?.[1];
  return level === undefined ? {} : { outline: Number(level) - 1 };
}

class StyleScope implements Scope {
  constructor(
    private readonly style: Style,
    private readonly done: () => void,
  ) {}

  open(name: string, tag: Tag): Scope | null {
    const { style } = this;
    switch (name) {
      case 'w:name':
        style.name = tag.get('w:val') ?? style.name;
        return null;
      case 'w:basedOn':
        style.basedOn = tag.get('w:val') ?? null;
        return null;
      case 'w:default':
        style.isDefault = isOn(tag);
        return null;
      case 'w:rPr':
        return new RunPropertyScope((run) => {
          style.run = run;
        });
      case 'w:pPr':
        return new ParagraphPropertyScope((scope) => {
          style.paragraph = scope.properties;
        });
      default:
        return null;
    }
  }

  close(): void {
    this.done();
  }
}
