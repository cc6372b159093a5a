/**
 * Numbered and bulleted lists (w:numbering). In: the numbering part; out: for each numbered paragraph, asked in the
 * order of the text, its list and the label that stands before it.
 */
import type { RawParagraph } from '../raw.ts';
import { formatNumber } from './numberFormats.ts';
import { type ParagraphProperties, ParagraphPropertyScope } from './paragraphProperties.ts';
import { integer, isOn } from './values.ts';
import type { Scope, Tag } from './xml.ts';

export interface Level {
  start: number;
  format: string;
  text: string;
  /** All numbers in the label are shown as plain figures. */
  legal: boolean;
  /** The level count (from 1) at or above which a new number restarts this level; null means any above it, 0 none. */
  restart: number | null;
  style: string | null;
  paragraph: ParagraphProperties;
}

interface Abstract {
  readonly levels: (Level | undefined)[];
  /** Another style's list is meant. */
  styleLink: string | null;
}

interface Instance {
  abstract: string;
  readonly starts: Map<number, number>;
  readonly levels: Map<number, Level>;
}

export interface Numbered {
  readonly list: RawParagraph['list'];
  readonly label: string | null;
}

const LEVELS = 9;

export class Numbering implements Scope {
  private readonly abstracts = new Map<string, Abstract>();
  private readonly instances = new Map<number, Instance>();
  /** Counts so far, by abstract list: instances of one list go on counting together. */
  private readonly counts = new Map<string, (number | undefined)[]>();
  private readonly begun = new Set<number>();

  /** `numberingOfStyle` gives the instance that a numbering style names. */
  constructor(private readonly numberingOfStyle: (style: string) => number | null) {}

  open(name: string, tag: Tag): Scope | null {
    if (name === 'w:numbering') return this;
    if (name === 'w:abstractNum') {
      const abstract: Abstract = { levels: [], styleLink: null };
      this.abstracts.set(tag.get('w:abstractNumId') ?? '', abstract);
      return new AbstractScope(abstract);
    }
    if (name !== 'w:num') return null;
    const instance: Instance = { abstract: '', starts: new Map(), levels: new Map() };
    this.instances.set(integer(tag.get('w:numId')) ?? -1, instance);
    return new InstanceScope(instance);
  }

  /** The level of an instance, or null where the part defines none. */
  level(id: number, level: number): Level | null {
    const instance = this.instances.get(id);
    return instance?.levels.get(level) ?? this.abstractOf(id)?.levels[level] ?? null;
  }

  /** The level that belongs to a paragraph style, as headings are numbered. */
  levelOfStyle(id: number, style: string): number | null {
    const at = this.abstractOf(id)?.levels.findIndex((each) => each?.style === style) ?? -1;
    return at < 0 ? null : at;
  }

  /** Counts the next paragraph of a list. */
  next(id: number, at: number): Numbered {
    const level = this.level(id, at);
    if (!level) return { list: null, label: null };
    const counts = this.count(id, at);
    const ordered = level.format !== 'bullet' && level.format !== 'none';
    const start = this.startOf(id, at);
    const label = level.format === 'bullet' ? '' : this.label(id, level, counts);
    const list = level.format === 'none' && label === '' ? null : { ordered, level: at, start, id: String(id) };
    return { list, label: label.trim() === '' ? null : label };
  }

  private abstractOf(id: number): Abstract | null {
    const abstract = this.abstracts.get(this.instances.get(id)?.abstract ?? '');
    if (!abstract) return null;
    if (abstract.styleLink === null || abstract.levels.length > 0) return abstract;
    const linked = this.numberingOfStyle(abstract.styleLink);
    return this.abstracts.get(this.instances.get(linked ?? -1)?.abstract ?? '') ?? abstract;
  }

  private startOf(id: number, at: number): number {
    return this.instances.get(id)?.starts.get(at) ?? this.level(id, at)?.start ?? 1;
  }

  private count(id: number, at: number): (number | undefined)[] {
    const instance = this.instances.get(id)!;
    const counts = this.counts.get(instance.abstract) ?? [];
    this.counts.set(instance.abstract, counts);
    if (!this.begun.has(id)) {
      this.begun.add(id);
      for (const level of instance.starts.keys()) counts[level] = undefined;
    }
    counts[at] = (counts[at] ?? this.startOf(id, at) - 1) + 1;
    for (let deeper = at + 1; deeper < LEVELS; deeper++) {
      const restart = this.level(id, deeper)?.restart ?? null;
      if (restart === null || at < restart) counts[deeper] = undefined;
    }
    return counts;
  }

  private label(id: number, level: Level, counts: readonly (number | undefined)[]): string {
    return level.text.replace(/%([1-9])/g, (_, digit: string) => {
      const at = Number(digit) - 1;
      const format = level.legal ? 'decimal' : (this.level(id, at)?.format ?? 'decimal');
      return formatNumber(counts[at] ?? this.startOf(id, at), format);
    });
  }
}

class AbstractScope implements Scope {
  constructor(private readonly abstract: Abstract) {}

  open(name: string, tag: Tag): Scope | null {
    if (name === 'w:numStyleLink') this.abstract.styleLink = tag.get('w:val') ?? null;
    if (name !== 'w:lvl') return null;
    const level = newLevel();
    const at = integer(tag.get('w:ilvl')) ?? 0;
    if (at >= 0 && at < LEVELS) this.abstract.levels[at] = level;
    return new LevelScope(level);
  }
}

class InstanceScope implements Scope {
  private at = 0;

  constructor(private readonly instance: Instance) {}

  open(name: string, tag: Tag): Scope | null {
    switch (name) {
      case 'w:abstractNumId':
        this.instance.abstract = tag.get('w:val') ?? '';
        return null;
      case 'w:lvlOverride':
        this.at = integer(tag.get('w:ilvl')) ?? 0;
        return this;
      case 'w:startOverride':
        this.instance.starts.set(this.at, integer(tag.get('w:val')) ?? 1);
        return null;
      case 'w:lvl': {
        const level = newLevel();
        this.instance.levels.set(this.at, level);
        return new LevelScope(level);
      }
      default:
        return null;
    }
  }
}

function newLevel(): Level {
  return { start: 1, format: 'decimal', text: '', legal: false, restart: null, style: null, paragraph: {} };
}

class LevelScope implements Scope {
  constructor(private readonly level: Level) {}

  open(name: string, tag: Tag): Scope | null {
    const { level } = this;
    const value = tag.get('w:val');
    switch (name) {
      case 'w:start':
        level.start = integer(value) ?? 1;
        return null;
      case 'w:numFmt':
        level.format = value ?? 'decimal';
        return null;
      case 'w:lvlText':
        level.text = value ?? '';
        return null;
      case 'w:isLgl':
        level.legal = isOn(tag);
        return null;
      case 'w:lvlRestart':
        level.restart = integer(value);
        return null;
      case 'w:pStyle':
        level.style = value ?? null;
        return null;
      case 'w:pPr':
        return new ParagraphPropertyScope((scope) => {
          level.paragraph = scope.properties;
        });
      default:
        return null;
    }
  }
}
