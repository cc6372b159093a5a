/**
 * Fits a book to a wanted number of pages by the smallest change that a reader could see: by the leading alone where that
 * does it (with as many lines to the page as it gives), else by the size as well, else by the measure as well. In: a page
 * count as a function of settings; out: the settings that were found, and what to tell the author.
 *
 * To count pages is to make the book up, so few counts are taken: they go nearly straight with what a page holds, and
 * after each the line through those taken says what to try next.
 */
import type { Finding } from '#base';
import type { Fit, PrintEdition } from '#book';
import type { DesignSettings } from '#design';
import { limitsOf, type Trial, Trials } from './trials.ts';

export interface Fitted {
  readonly settings: DesignSettings;
  readonly pages: number;
  readonly finding: Finding;
}

export interface FitRequest {
  readonly fit: Fit;
  readonly edition: PrintEdition;
  readonly settings: DesignSettings;
  /** Pages by the settings as they are. */
  readonly pages: number;
  /** Pages by other settings. */
  readonly count: (settings: DesignSettings) => number;
}

/** Counts taken for each degree of freedom. */
const MOST_COUNTS = { leading: 3, size: 5, measure: 7 };
/** Share of the pages by which a prediction may be off. */
const DOUBT = 0.012;
/** Pages that hang on the text at all: chapter ends and matter take the rest. A first guess. */
const RUNNING_SHARE = 0.87;

/** Fits a page count. The result is the same for the same book and wish. */
export function fitPages(request: FitRequest): Fitted {
  return new Search(request).run();
}

class Search {
  private readonly trials: Trials;
  private readonly counts = new Map<string, { readonly trial: Trial; readonly pages: number }>();

  constructor(private readonly request: FitRequest) {
    const { settings, edition, pages } = request;
    this.trials = new Trials(settings, edition, pages);
    this.counts.set(keyOf(this.trials.own), { trial: this.trials.own, pages });
  }

  run(): Fitted {
    const { fit, pages, settings } = this.request;
    if (fit.kind === 'fewest') return this.fewest();
    const target = fit.kind === 'pages' ? fit.pages : nearestMultiple(pages, fit.of);
    if (pages !== target) return this.reach(target);
    const message = `The design makes ${pages} pages as it is; nothing was changed to fit.`;
    return { settings, pages, finding: { rule: 'fit/unchanged', severity: 'note', message } };
  }

  private reach(target: number): Fitted {
    const all = this.trials.all();
    const { own } = this.trials;
    const sized = all.filter((each) => each.wider === 0);
    const led = sized.filter((each) => each.size === own.size);
    const found =
      this.among(led, target, MOST_COUNTS.leading) ??
      this.among(sized, target, MOST_COUNTS.size) ??
      this.among(all, target, MOST_COUNTS.measure);
    return found ? this.changed(found) : this.missed(target);
  }

  /** Tries what comes nearest by prediction, until a count is met or no trial is left that might meet it. */
  private among(trials: readonly Trial[], target: number, most: number): Trial | null {
    for (let tries = 0; tries < most; tries++) {
      const next = this.nextOf(trials, target);
      if (!next) return null;
      if (this.pages(next) === target) return next;
    }
    return null;
  }

  /** Of the trials whose pages should be the target, give or take what a prediction may be off, the best to count next. */
  private nextOf(trials: readonly Trial[], target: number): Trial | null {
    let best: Trial | null = null;
    let least = Number.POSITIVE_INFINITY;
    const predict = this.prediction();
    for (const trial of trials) {
      const miss = Math.abs(predict(trial) - target);
      if (miss > Math.max(2, target * DOUBT) || this.counts.has(keyOf(trial))) continue;
      // Pages come in pairs: whatever is nearer than one is as good as met, and the smaller change is tried first.
      const rank = Math.max(0, miss - 1) * 1000 + this.trials.distance(trial);
      if (rank < least) [best, least] = [trial, rank];
    }
    return best;
  }

  /** As few pages as the limits of reading allow. */
  private fewest(): Fitted {
    const best = this.fullest();
    const { own } = this.trials;
    const { pages, settings } = this.request;
    if (this.pages(best) < pages) return this.changed(best);
    const message = `The design makes ${pages} pages, and no size, leading and measure that read well make fewer.`;
    return { settings, pages: this.pages(own), finding: { rule: 'fit/unchanged', severity: 'note', message } };
  }

  /** The trial whose pages hold most. */
  private fullest(): Trial {
    const { trials } = this;
    return trials.all().reduce((best, each) => (trials.capacity(each) > trials.capacity(best) ? each : best));
  }

  private emptiest(): Trial {
    const { trials } = this;
    return trials.all().reduce((best, each) => (trials.capacity(each) < trials.capacity(best) ? each : best));
  }

  /** What the counts taken so far say of those that were not. */
  private prediction(): (trial: Trial) => number {
    const points = [...this.counts.values()].map(({ trial, pages }) => ({ x: this.bulk(trial), pages }));
    const slope = slopeOf(points) ?? RUNNING_SHARE * this.request.pages;
    return (trial) => {
      const x = this.bulk(trial);
      const near = points.reduce((best, each) => (Math.abs(each.x - x) < Math.abs(best.x - x) ? each : best));
      return near.pages + slope * (x - near.x);
    };
  }

  /** Pages that the text takes for each that it takes by the design. */
  private bulk(trial: Trial): number {
    return this.trials.capacity(this.trials.own) / this.trials.capacity(trial);
  }

  private pages(trial: Trial): number {
    const key = keyOf(trial);
    const known = this.counts.get(key)?.pages;
    if (known !== undefined) return known;
    const pages = this.request.count(this.trials.settingsOf(trial));
    this.counts.set(key, { trial, pages });
    return pages;
  }

  private changed(trial: Trial): Fitted {
    const pages = this.pages(trial);
    const message = `${this.trials.describe(trial)} to make ${pages} pages.`;
    return this.result(trial, { rule: 'fit/changed', severity: 'note', message });
  }

  /** The nearest of all that was counted, the farthest that can be gone to among them. */
  private missed(target: number): Fitted {
    this.pages(target < this.request.pages ? this.fullest() : this.emptiest());
    const miss = (pages: number) => Math.abs(pages - target);
    const counts = [...this.counts.values()];
    const nearest = counts.reduce((best, each) => (miss(each.pages) < miss(best.pages) ? each : best));
    const how = this.trials.describe(nearest.trial);
    const set = nearest.trial === this.trials.own ? 'as designed' : how.charAt(0).toLowerCase() + how.slice(1);
    const message = `${target} pages can't be reached with ${limitsOf(this.request.edition)}; the nearest is ${nearest.pages}, ${set}.`;
    return this.result(nearest.trial, { rule: 'fit/missed', severity: 'warning', message });
  }

  private result(trial: Trial, finding: Finding): Fitted {
    const own = trial === this.trials.own;
    const settings = own ? this.request.settings : this.trials.settingsOf(trial);
    return { settings, pages: this.pages(trial), finding };
  }
}

function nearestMultiple(pages: number, of: number): number {
  return Math.max(of, Math.round(pages / of) * of);
}

function keyOf({ lines, size, wider }: Trial): string {
  return `${lines} ${size} ${wider}`;
}

/** The slope of the line that lies nearest to points; null for fewer than two. */
function slopeOf(points: readonly { readonly x: number; readonly pages: number }[]): number | null {
  const count = points.length;
  const meanX = points.reduce((sum, { x }) => sum + x, 0) / count;
  const meanPages = points.reduce((sum, { pages }) => sum + pages, 0) / count;
  let [along, apart] = [0, 0];
  for (const { x, pages } of points) {
    along += (x - meanX) * (pages - meanPages);
    apart += (x - meanX) ** 2;
  }
  return apart > 1e-6 && along > 0 ? along / apart : null;
}
