/**
 * Where a page may end. In: the row it begins with and the notes that run on from the page before; out: the ends worth
 * weighing, each with what the page then holds.
 */
import type { Row } from '../flow.ts';
import { FORCED, NOTE_RUNS_ON } from './costs.ts';
import type { Stretch, Strip } from './strip.ts';

/** A possible page. */
export interface End {
  /** First and last row. */
  readonly from: number;
  readonly to: number;
  /** The row from which the next page goes on. */
  readonly next: number;
  readonly used: number;
  /** White lines at the foot. */
  readonly short: number;
  readonly notes: readonly Row[];
  readonly carried: readonly Row[];
  readonly stretch: Stretch | null;
  /** Penalties of the rows, of notes that run on, of another length. */
  readonly penalty: number;
}

/** Ends that leave more white than this are weighed only where there is no better. */
const MOST_SHORT = 4;
/** Below this nothing is weighed at all while there is something better. */
const FAR = 8;
const ANY = Number.POSITIVE_INFINITY;
/** Ends weighed for one page beside those at another length. */
const MOST_ENDS = 6;
/** Least lines of a note on each page that it stands on. */
const NOTE_SHARE = 2;

/** Lines of the grid that notes take, with the white and the rule above them. */
export function noteLines(rows: number, noteLeading: number, leading: number): number {
  return rows === 0 ? 0 : Math.ceil(1.5 + ((rows - 1) * noteLeading) / leading - 0.001);
}

/** Where a page begins. */
export interface PageStart {
  readonly start: number;
  /** Notes that run on from the page before. */
  readonly carried: readonly Row[];
  /** Whether a paragraph may be a line longer or shorter. */
  readonly elastic: boolean;
}

/** Finds the ends of pages; what it has found for a row it keeps. */
export class EndFinder {
  private readonly capacity: number;
  private readonly known = new Map<number, readonly End[]>();

  constructor(private readonly strip: Strip) {
    this.capacity = strip.flow.grid.lines;
  }

  /** The ends of a page. */
  of(page: PageStart): readonly End[] {
    if (page.carried.length > 0) return this.search(page, FAR);
    const key = page.elastic ? -1 - page.start : page.start;
    const ends = this.known.get(key) ?? this.search(page, FAR);
    this.known.set(key, ends);
    return ends;
  }

  /** Walks down the page; ends that leave more than `far` lines white are passed over while there are others. */
  private search(start: PageStart, far: number): readonly End[] {
    const page = new Growing(this.strip, this.strip.head(start.start), this.fitting(start.carried));
    const ends: End[] = [];
    while (page.grow() && page.over <= 1) {
      if (Number.isFinite(page.penalty) && (page.over >= -far || page.ended)) this.weigh(page, ends, start.elastic);
    }
    const good = ends.filter((end) => end.short <= MOST_SHORT || end.next >= this.strip.rows.length);
    if (good.length > 0) return good.slice(-MOST_ENDS);
    if (far !== ANY) return this.search(start, ANY);
    return ends.length > 0 ? ends.slice(-1) : [this.forced(start)];
  }

  /** The end taken where none is allowed: after the last row that fits, or after the first where none does. */
  private forced(start: PageStart): End {
    const first = this.strip.head(start.start);
    const trial = new Growing(this.strip, first, this.fitting(start.carried));
    let fitting = 0;
    while (trial.grow() && trial.over <= 0) fitting++;
    const page = new Growing(this.strip, first, this.fitting(start.carried));
    for (let count = 0; count < Math.max(1, fitting); count++) page.grow();
    return { ...page.end(null), penalty: FORCED };
  }

  private weigh(page: Growing, into: End[], elastic: boolean): void {
    const { over } = page;
    if (over <= 0) into.push(page.end(null));
    if (page.ended || !elastic) return;
    const change = over === 1 ? -1 : over === -1 ? 1 : 0;
    const stretch = change === 0 ? null : page.stretch(change);
    if (stretch) into.push(page.end(stretch));
  }

  /** Notes that run on take at most the page less three lines of text; the rest runs on again. */
  private fitting(carried: readonly Row[]): { readonly now: readonly Row[]; readonly later: readonly Row[] } {
    const { noteLeading, grid } = this.strip.flow;
    let count = carried.length;
    while (count > 1 && noteLines(count, noteLeading, grid.leading) > this.capacity - 3) count--;
    return { now: carried.slice(0, count), later: carried.slice(count) };
  }
}

/** A page that takes one row after another. */
class Growing {
  private row: number;
  private body = 0;
  private notes: readonly Row[];
  private later: readonly Row[];
  private readonly capacity: number;

  constructor(
    private readonly strip: Strip,
    private readonly first: number,
    carried: { readonly now: readonly Row[]; readonly later: readonly Row[] },
  ) {
    this.row = first - 1;
    this.notes = carried.now;
    this.later = carried.later;
    this.capacity = strip.flow.grid.lines;
  }

  /** Takes the next row; false where there is none. */
  grow(): boolean {
    const row = this.strip.rows[this.row + 1];
    if (!row) return false;
    this.row++;
    this.body += this.row === this.first && row.edge ? row.edge.height : row.height;
    if (row.notes.length > 0) this.takeNotes(row);
    return true;
  }

  /** Lines beyond the page; negative for white. */
  get over(): number {
    return this.lines - this.capacity;
  }

  get ended(): boolean {
    return this.strip.endsAfter(this.row);
  }

  get penalty(): number {
    return this.strip.penalty(this.row);
  }

  stretch(change: number): Stretch | null {
    return this.strip.stretch(this.first, this.row, change);
  }

  end(stretch: Stretch | null): End {
    const lines = this.lines + (stretch?.variant.change ?? 0);
    return {
      from: this.first,
      to: this.row,
      next: this.ended && this.later.length === 0 ? this.strip.rows.length : this.row + 1,
      used: lines,
      short: this.capacity - lines,
      notes: this.notes,
      carried: this.later,
      stretch,
      penalty: this.penalty + (this.later.length > 0 ? NOTE_RUNS_ON : 0) + (stretch?.cost ?? 0),
    };
  }

  private get lines(): number {
    const last = this.strip.rows[this.row];
    const foot = last?.edge && this.row > this.first && !this.ended ? last.edge.height - last.height : 0;
    const { noteLeading, grid } = this.strip.flow;
    return this.body + foot + noteLines(this.notes.length, noteLeading, grid.leading);
  }

  /** Adds a row's notes: whole where they fit, else a first share, the rest to run on. */
  private takeNotes(row: Row): void {
    const { flow } = this.strip;
    for (const id of row.notes) {
      const rows = flow.notes.get(id)?.rows ?? [];
      if (this.later.length > 0) {
        this.later = [...this.later, ...rows];
        continue;
      }
      const share = this.shareOf(rows);
      this.notes = [...this.notes, ...rows.slice(0, share)];
      this.later = rows.slice(share);
    }
  }

  private shareOf(rows: readonly Row[]): number {
    const { noteLeading, grid } = this.strip.flow;
    const fits = (count: number): boolean =>
      this.body + noteLines(this.notes.length + count, noteLeading, grid.leading) <= this.capacity;
    if (fits(rows.length) || rows.length < 2 * NOTE_SHARE) return rows.length;
    let share = rows.length - NOTE_SHARE;
    while (share > NOTE_SHARE && !fits(share)) share--;
    return fits(share) ? share : rows.length;
  }
}
