/**
 * Fits a book to a wanted number of pages by the smallest change that a reader could see: first the leading (with as many
 * lines to the page as it gives), then the size, then the measure. In: a layout as a function of settings; out: the
 * settings that were found, with the layout made by them and what to tell the author.
 *
 * Each setting moves the page count nearly one way, so each is searched by halving; a book of 300 pages takes some ten
 * layouts.
 */
import type { Finding, Points } from '#base';
import type { Fit, PrintEdition } from '#book';
import { type DesignSettings, frozenSettings, MEAN_CHARACTER } from '#design';

/** What fitting needs of a layout. */
export interface Fittable {
  readonly pages: { readonly length: number };
}

export interface Fitted<Layout> {
  readonly layout: Layout;
  readonly settings: DesignSettings;
  readonly finding: Finding;
}

export interface FitRequest<Layout> {
  readonly fit: Fit;
  readonly edition: PrintEdition;
  readonly settings: DesignSettings;
  /** The layout of the settings as they are. */
  readonly layout: Layout;
  readonly layOut: (settings: DesignSettings) => Layout;
}

/** Leading as a share of the size: 118 to 145 per cent (FACTS T-03). */
const LEADING = { least: 1.18, most: 1.45 };
/** Text sizes of a book, and how far one is moved from the design's: half a point either way (FACTS T-04). */
const SIZE = { least: 9.5, most: 13, reach: 0.5, step: 0.1 };
/** Characters to the line, 45 to 75 (FACTS T-01), and how far the measure is moved. */
const CHARACTERS = { least: 45, most: 75 };
const MEASURE = { reach: 12, step: 1 };
/** No side margin is narrowed below half an inch. */
const LEAST_MARGIN = 36;

/** How a trial departs from the design. */
interface Trial {
  readonly lines: number;
  readonly size: number;
  /** Points wider (positive) or narrower than the design's measure. */
  readonly wider: number;
}

/** Fits a layout. The result is the same for the same book and wish. */
export function fitPages<Layout extends Fittable>(request: FitRequest<Layout>): Fitted<Layout> {
  const search = new FitSearch(request);
  return request.fit.kind === 'fewest' ? search.fewest() : search.reach(wantedPages(request.fit));
}

/** Whether a page count is wanted, and which one lies nearest. */
interface Wish {
  readonly met: (pages: number) => boolean;
  readonly nearest: (pages: number) => number;
}

function wantedPages(fit: Exclude<Fit, { readonly kind: 'fewest' }>): Wish {
  if (fit.kind === 'pages') return { met: (pages) => pages === fit.pages, nearest: () => fit.pages };
  return {
    met: (pages) => pages % fit.of === 0,
    nearest: (pages) => Math.max(fit.of, Math.round(pages / fit.of) * fit.of),
  };
}

class FitSearch<Layout extends Fittable> {
  private readonly base: DesignSettings;
  private readonly own: Trial;
  private readonly depth: Points;
  private readonly known = new Map<string, Layout>();

  constructor(private readonly request: FitRequest<Layout>) {
    const { settings, edition, layout } = request;
    const frozen = frozenSettings(settings, edition, layout.pages.length);
    this.base = frozen.settings;
    this.depth = (frozen.lines - 1) * frozen.settings.text.leading;
    this.own = { lines: frozen.lines, size: frozen.settings.text.size, wider: 0 };
    this.known.set(JSON.stringify(this.own), layout);
  }

  /** The nearest to a wanted count. */
  reach(wish: Wish): Fitted<Layout> {
    if (wish.met(this.pages(this.own))) return this.unchanged();
    const target = wish.nearest(this.pages(this.own));
    const met = (trial: Trial): boolean => this.pages(trial) === target;
    const lines = this.closest(this.linesChoices(this.own.size), target);
    for (const first of this.around(lines, target)) {
      if (met(first)) return this.changed(first, target);
      const sized = this.closest(this.sizeChoices(first), target);
      if (met(sized)) return this.changed(sized, target);
      const measured = this.closest(this.measureChoices(sized), target);
      if (met(measured)) return this.changed(measured, target);
    }
    return this.missed(target);
  }

  /** As few pages as the limits of reading allow. */
  fewest(): Fitted<Layout> {
    const size = this.sizeChoices(this.own)[0]?.size ?? this.own.size;
    const most = this.linesChoices(size).at(-1) ?? this.own;
    const widest = this.measureChoices(most).at(-1) ?? most;
    const best = this.pages(widest) <= this.pages(most) ? widest : most;
    return this.pages(best) < this.pages(this.own) ? this.changed(best, this.pages(best)) : this.unchanged();
  }

  /** The choice whose page count lies nearest the target, found by halving; the design's own side wins a tie. */
  private closest(choices: readonly Trial[], target: number): Trial {
    let low = 0;
    let high = choices.length - 1;
    const rising = this.pages(choices[0] ?? this.own) <= this.pages(choices[high] ?? this.own);
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      const pages = this.pages(choices[middle] ?? this.own);
      if (pages === target) return this.nearestHit(choices, middle, target);
      if (pages < target === rising) low = middle;
      else high = middle;
    }
    const [one, other] = [choices[low] ?? this.own, choices[high] ?? this.own];
    return this.missOf(one, target) <= this.missOf(other, target) ? one : other;
  }

  /** Of neighbouring choices that meet the target, the one nearest the design. */
  private nearestHit(choices: readonly Trial[], from: number, target: number): Trial {
    const toward = Math.sign(this.distance(choices[from - 1]) - this.distance(choices[from + 1])) || 1;
    let at = from;
    for (let next = at + toward; ; next += toward) {
      const choice = choices[next];
      if (!choice || this.pages(choice) !== target || this.distance(choice) >= this.distance(choices[at])) break;
      at = next;
    }
    return choices[at] ?? this.own;
  }

  private distance(trial: Trial | undefined): number {
    if (!trial) return Number.POSITIVE_INFINITY;
    const { lines, size, wider } = trial;
    return Math.abs(lines - this.own.lines) + Math.abs(size - this.own.size) * 10 + Math.abs(wider);
  }

  /** The best number of lines, then its neighbours toward the target. */
  private around(best: Trial, target: number): readonly Trial[] {
    const all = this.linesChoices(best.size);
    const at = all.findIndex((each) => each.lines === best.lines);
    const beside = [all[at - 1], all[at + 1]].filter((each) => each !== undefined);
    return [best, ...beside.sort((one, other) => this.missOf(one, target) - this.missOf(other, target))];
  }

  private missOf(trial: Trial, target: number): number {
    return Math.abs(this.pages(trial) - target);
  }

  /** Every number of lines that keeps the leading readable at a size, fewest first. */
  private linesChoices(size: Points): readonly Trial[] {
    const choices: Trial[] = [];
    for (let lines = 2; ; lines++) {
      const leading = this.leadingFor(lines);
      if (leading < LEADING.least * size) break;
      if (leading <= LEADING.most * size) choices.push({ lines, size, wider: 0 });
    }
    return choices.length > 0 ? choices : [this.own];
  }

  private sizeChoices(from: Trial): readonly Trial[] {
    const choices: Trial[] = [];
    const steps = Math.round(SIZE.reach / SIZE.step);
    for (let step = -steps; step <= steps; step++) {
      const size = Math.round((this.own.size + step * SIZE.step) * 100) / 100;
      const share = this.leadingFor(from.lines) / size;
      const fits = share >= LEADING.least && share <= LEADING.most && size >= SIZE.least && size <= SIZE.most;
      if (fits && this.reads(size, 0)) choices.push({ ...from, size });
    }
    return choices.length > 0 ? choices : [from];
  }

  private measureChoices(from: Trial): readonly Trial[] {
    const choices: Trial[] = [];
    for (let wider = -MEASURE.reach; wider <= MEASURE.reach; wider += MEASURE.step) {
      if (wider === 0 || this.reads(from.size, wider)) choices.push({ ...from, wider });
    }
    return choices;
  }

  /** Whether a line of that size holds a readable number of characters, inside margins that a thumb needs. */
  private reads(size: Points, wider: Points): boolean {
    const { inner, outer } = this.base.margins;
    const characters = (this.base.trim.width - inner - outer + wider) / (size * MEAN_CHARACTER);
    const margins = Math.min(inner, outer) - Math.max(0, wider) / 2 >= LEAST_MARGIN;
    return characters >= CHARACTERS.least && characters <= CHARACTERS.most && (wider <= 0 || margins);
  }

  /** The leading that sets so many lines to the depth of the design's text block, in twentieths of a point. */
  private leadingFor(lines: number): Points {
    if (lines === this.own.lines) return this.base.text.leading;
    return Math.floor((this.depth / (lines - 1)) * 20) / 20;
  }

  private settingsOf({ lines, size, wider }: Trial): DesignSettings {
    const { text, margins } = this.base;
    const leading = this.leadingFor(lines);
    return {
      ...this.base,
      text: { ...text, size, leading },
      margins: { ...margins, inner: margins.inner - wider / 2, outer: margins.outer - wider / 2 },
    };
  }

  private pages(trial: Trial): number {
    return this.layoutOf(trial).pages.length;
  }

  private layoutOf(trial: Trial): Layout {
    const key = JSON.stringify(trial);
    const known = this.known.get(key);
    if (known) return known;
    const layout = this.request.layOut(this.settingsOf(trial));
    this.known.set(key, layout);
    return layout;
  }

  private unchanged(): Fitted<Layout> {
    const { settings, layout } = this.request;
    const message = `The design makes ${layout.pages.length} pages as it is; nothing was changed to fit.`;
    return { layout, settings, finding: { rule: 'fit/unchanged', severity: 'note', message } };
  }

  private changed(trial: Trial, pages: number): Fitted<Layout> {
    const message = `${this.describe(trial)} to make ${pages} pages.`;
    return this.result(trial, { rule: 'fit/changed', severity: 'note', message });
  }

  /** The nearest of all that was tried. */
  private missed(target: number): Fitted<Layout> {
    const tried = [...this.known.keys()].map((key) => JSON.parse(key) as Trial);
    const nearest = tried.reduce((best, each) => (this.missOf(each, target) < this.missOf(best, target) ? each : best));
    const message =
      `${target} pages can't be reached by leading, size and measure that read well; ` +
      `the nearest is ${this.pages(nearest)}: ${lowered(this.describe(nearest))}.`;
    return this.result(nearest, { rule: 'fit/missed', severity: 'warning', message });
  }

  private result(trial: Trial, finding: Finding): Fitted<Layout> {
    return { layout: this.layoutOf(trial), settings: this.settingsOf(trial), finding };
  }

  private describe(trial: Trial): string {
    const { text } = this.base;
    const is = `${figure(trial.size)} on ${figure(this.leadingFor(trial.lines))} points`;
    const was = `${figure(text.size)} on ${figure(text.leading)}`;
    const measure =
      trial.wider === 0
        ? ''
        : `, lines ${figure(Math.abs(trial.wider))} points ${trial.wider > 0 ? 'wider' : 'narrower'},`;
    return `Set in ${is}${measure} instead of ${was}`;
  }
}

function figure(value: number): string {
  return String(Math.round(value * 100) / 100);
}

function lowered(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
