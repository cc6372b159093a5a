/**
 * Run properties (w:rPr). In: the element's children; out: what one level of formatting says, and how levels add up to
 * the look of a run.
 */
import type { Points } from '#base';
import { halfPoints, isOn, length } from './values.ts';
import type { Scope, Tag } from './xml.ts';

/** Bits of `RunProperties.set`, `RunProperties.on` and `Look.flags`. */
export const ITALIC = 1;
export const BOLD = 2;
export const SMALL_CAPS = 4;
export const ALL_CAPS = 8;
export const STRIKE = 16;
export const DOUBLE_STRIKE = 32;
export const HIDDEN = 64;
export const UNDERLINE = 128;

type Raised = 'superscript' | 'subscript' | 'baseline';

/** What one level (defaults, a style, direct formatting) says; undefined where it says nothing. */
export interface RunProperties {
  /** Bits that this level decides. */
  set: number;
  /** Of those, the ones switched on. */
  on: number;
  size?: Points;
  raised?: Raised;
  /** Shift above the baseline. */
  position?: Points;
  language?: string;
  font?: string;
  style?: string;
  /** The paragraph mark carrying these properties is deleted. */
  markDeleted?: boolean;
}

/** What a run finally looks like. */
export interface Look {
  readonly flags: number;
  readonly size: Points;
  readonly raised: 'superscript' | 'subscript' | null;
  readonly language: string | null;
  readonly font: string | null;
}

export const NO_RUN_PROPERTIES: RunProperties = { set: 0, on: 0 };

const FLAG_OF: Readonly<Record<string, number>> = {
  'w:i': ITALIC,
  'w:b': BOLD,
  'w:smallCaps': SMALL_CAPS,
  'w:caps': ALL_CAPS,
  'w:strike': STRIKE,
  'w:dstrike': DOUBLE_STRIKE,
  'w:vanish': HIDDEN,
};

export class RunPropertyScope implements Scope {
  readonly properties: RunProperties = { set: 0, on: 0 };

  constructor(private readonly done: ((properties: RunProperties) => void) | null = null) {}

  open(name: string, tag: Tag): null {
    const flag = FLAG_OF[name];
    if (flag !== undefined) this.switch(flag, isOn(tag));
    else this.take(name, tag);
    return null;
  }

  close(): void {
    this.done?.(this.properties);
  }

  private switch(flag: number, on: boolean): void {
    const { properties } = this;
    properties.set |= flag;
    properties.on = on ? properties.on | flag : properties.on & ~flag;
  }

  private take(name: string, tag: Tag): void {
    const { properties } = this;
    const value = tag.get('w:val');
    switch (name) {
      case 'w:rStyle':
        if (value !== undefined) properties.style = value;
        return;
      case 'w:u':
        this.switch(UNDERLINE, value !== 'none');
        return;
      case 'w:sz': {
        const size = halfPoints(value);
        if (size !== null && size > 0) properties.size = size;
        return;
      }
      case 'w:vertAlign':
        if (value === 'superscript' || value === 'subscript' || value === 'baseline') properties.raised = value;
        return;
      case 'w:position': {
        const position = length(value, 2);
        if (position !== null) properties.position = position;
        return;
      }
      case 'w:lang':
        if (value && value !== 'x-none') properties.language = value;
        return;
      case 'w:rFonts': {
        const font = tag.get('w:ascii') ?? tag.get('w:hAnsi');
        if (font !== undefined) properties.font = font;
        return;
      }
      case 'w:del':
      case 'w:moveFrom':
        properties.markDeleted = true;
    }
  }
}

/** One level over another: what `upper` says wins. */
export function overlay(lower: RunProperties, upper: RunProperties): RunProperties {
  return {
    ...lower,
    ...upper,
    set: lower.set | upper.set,
    on: (lower.on & ~upper.set) | (upper.on & upper.set),
  };
}

/** A run's look from the levels of style; direct formatting comes on top by `withDirect`. */
export function lookOf(defaults: RunProperties, paragraph: RunProperties, character: RunProperties): Look {
  const merged = overlay(overlay(defaults, paragraph), character);
  // ECMA-376 part 1, 17.7.3: a toggle set by both paragraph and character style cancels out; defaults only add.
  const toggled = defaults.on | (paragraph.on ^ character.on);
  const flags = (toggled & ~UNDERLINE) | (merged.on & UNDERLINE);
  return finish(merged, flags, paragraph.size ?? defaults.size ?? DEFAULT_SIZE);
}

/** The size where nothing gives one (ECMA-376 part 1, 17.3.2.38). */
const DEFAULT_SIZE = 10;

/** A look with a run's own properties over it. */
export function withDirect(look: Look, direct: RunProperties): Look {
  return {
    flags: (look.flags & ~direct.set) | direct.on,
    size: direct.size ?? look.size,
    raised: raisedBy(direct, direct.size ?? look.size, look.size) ?? (direct.raised ? null : look.raised),
    language: direct.language ?? look.language,
    font: direct.font ?? look.font,
  };
}

function finish(merged: RunProperties, flags: number, textSize: Points): Look {
  const size = merged.size ?? DEFAULT_SIZE;
  return {
    flags,
    size,
    raised: raisedBy(merged, size, textSize),
    language: merged.language ?? null,
    font: merged.font ?? null,
  };
}

/** Raised by name; or by hand, as letters that are both shifted and smaller than the text around. */
function raisedBy(properties: RunProperties, size: Points, textSize: Points): 'superscript' | 'subscript' | null {
  const { raised, position = 0 } = properties;
  if (raised !== undefined) return raised === 'baseline' ? null : raised;
  if (Math.abs(position) < 2 || size > textSize * 0.85) return null;
  return position > 0 ? 'superscript' : 'subscript';
}

/** Equal but for the language, of which only the main part counts. */
export function sameLook(a: Look, b: Look): boolean {
  return a === b || (a.flags === b.flags && a.size === b.size && a.raised === b.raised);
}
