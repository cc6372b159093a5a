/**
 * What fitting may try. In: a design as it comes out for an edition; out: every size, leading and measure near it that
 * reads well, and the settings that each of them means.
 */
import type { Points } from '#base';
import type { PrintEdition } from '#book';
import { type DesignSettings, frozenSettings } from '#design';

/** Leading as a share of the size: 118 to 145 per cent (FACTS T-03). */
const LEADING = { least: 1.18, most: 1.45 };
/** Text sizes of a book, and how far one is moved from the design's: half a point either way (FACTS T-04). */
const SIZE = { least: 9.5, most: 13, reach: 0.5, step: 0.1 };
/** Characters to the line, 45 to 75 (FACTS T-01), and how far the measure is moved. */
const CHARACTERS = { least: 45, most: 75 };
const MEASURE = { reach: 12, step: 1 };
/** No side margin is narrowed below half an inch. */
const LEAST_MARGIN = 36;

/** Large print keeps its size and leading, or grows (FACTS T-29). */
const LARGE_LEADING = { least: 1.5, most: 1.75 };

/** The limits in words, for an author whose wish lies beyond them. */
export function limitsOf({ largePrint }: PrintEdition): string {
  const { least, most } = largePrint ? LARGE_LEADING : LEADING;
  const size = largePrint ? `a size of ${largePrint} points or half a point more` : 'a size within half a point';
  const leading = `leading of ${Math.round(least * 100)} to ${Math.round(most * 100)} per cent of it`;
  return `${size}, ${leading}, ${CHARACTERS.least} to ${CHARACTERS.most} characters to the line`;
}

/** How a trial departs from the design. */
export interface Trial {
  /** Lines to the page, from which the leading follows. */
  readonly lines: number;
  readonly size: Points;
  /** Points wider (positive) or narrower than the design's measure. */
  readonly wider: number;
}

export class Trials {
  readonly own: Trial;
  /** The design's settings, drawn for the edition's very trim. */
  readonly base: DesignSettings;
  private readonly depth: Points;
  private readonly leadings: { readonly least: number; readonly most: number };
  private readonly sizes: { readonly least: Points; readonly most: Points };

  constructor(settings: DesignSettings, edition: PrintEdition, pages: number) {
    const frozen = frozenSettings(settings, edition, pages);
    this.base = frozen.settings;
    this.depth = (frozen.lines - 1) * frozen.settings.text.leading;
    const large = edition.largePrint ?? null;
    this.leadings = large ? LARGE_LEADING : LEADING;
    this.sizes = large ? { least: large, most: large + SIZE.reach } : SIZE;
    this.own = { lines: frozen.lines, size: frozen.settings.text.size, wider: 0 };
  }

  /** All trials, the design's own among them: other leadings, then other sizes as well, then other measures as well. */
  all(): readonly Trial[] {
    const trials: Trial[] = [];
    const steps = Math.round(SIZE.reach / SIZE.step);
    for (let step = -steps; step <= steps; step++) {
      const size = Math.round((this.own.size + step * SIZE.step) * 100) / 100;
      if (step !== 0 && (size < this.sizes.least || size > this.sizes.most)) continue;
      for (const lines of this.linesFor(size)) {
        for (let wider = -MEASURE.reach; wider <= MEASURE.reach; wider += MEASURE.step) {
          if (this.reads(size, wider)) trials.push({ lines, size, wider });
        }
      }
    }
    return trials;
  }

  settingsOf({ lines, size, wider }: Trial): DesignSettings {
    const { text, margins } = this.base;
    return {
      ...this.base,
      text: { ...text, size, leading: this.leadingFor(lines) },
      margins: { ...margins, inner: margins.inner - wider / 2, outer: margins.outer - wider / 2 },
    };
  }

  /** Characters that a page holds, on average: what its page count goes by. */
  capacity({ lines, size, wider }: Trial): number {
    return (lines * this.measure(wider)) / size;
  }

  /** How plain to see the change is: a line of the page counts as much as a tenth of a point of size, or two of measure. */
  distance({ lines, size, wider }: Trial): number {
    return Math.abs(lines - this.own.lines) + Math.abs(size - this.own.size) * 10 + Math.abs(wider) / 2;
  }

  describe({ lines, size, wider }: Trial): string {
    const { text } = this.base;
    const is = `${figure(size)} on ${figure(this.leadingFor(lines))} points`;
    const was = `${figure(text.size)} on ${figure(text.leading)}`;
    const by = Math.abs(wider) === 1 ? 'a point' : `${figure(Math.abs(wider))} points`;
    const measure = wider === 0 ? '' : `, lines ${by} ${wider > 0 ? 'wider' : 'narrower'},`;
    return `Set in ${is}${measure} instead of ${was}`;
  }

  /** Every number of lines that keeps the leading readable at a size, fewest first; the design's own at its own size. */
  private linesFor(size: Points): readonly number[] {
    const found: number[] = [];
    for (let lines = 2; this.leadingFor(lines) >= this.leadings.least * size; lines++) {
      if (this.leadingFor(lines) <= this.leadings.most * size) found.push(lines);
    }
    const { own } = this;
    return size === own.size && !found.includes(own.lines) ? [...found, own.lines] : found;
  }

  /** Whether a line of that size holds a readable number of characters, inside margins that a thumb needs. */
  private reads(size: Points, wider: Points): boolean {
    const { inner, outer } = this.base.margins;
    const characters = this.measure(wider) / (size * this.base.text.character);
    const margins = Math.min(inner, outer) - Math.max(0, wider) / 2 >= LEAST_MARGIN;
    const kept = size === this.own.size && wider === 0;
    return kept || (characters >= CHARACTERS.least && characters <= CHARACTERS.most && (wider <= 0 || margins));
  }

  private measure(wider: Points): Points {
    const { inner, outer } = this.base.margins;
    return this.base.trim.width - inner - outer + wider;
  }

  /** The leading that sets so many lines to the depth of the design's text block, in twentieths of a point. */
  private leadingFor(lines: number): Points {
    if (lines === this.own.lines) return this.base.text.leading;
    return Math.floor((this.depth / (lines - 1)) * 20) / 20;
  }
}

function figure(value: number): string {
  return String(Math.round(value * 100) / 100);
}
