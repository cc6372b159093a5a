/**
 * The notes of one page as it grows. In: notes that run on from the page before, and those of the page's rows; out: what
 * stands at its foot, and what runs on.
 */
import type { NoteId } from '#base';
import type { Flow, Row } from '../flow.ts';

/** Least lines of a note on each page that it stands on. */
const NOTE_SHARE = 2;
/** Lines that notes running on leave to the text. */
const TEXT_BESIDE_NOTES = 3;

/** Lines of the grid that notes take, with the white and the rule above them. */
export function noteLines(rows: number, { noteLeading, grid }: Pick<Flow, 'noteLeading' | 'grid'>): number {
  return rows === 0 ? 0 : Math.ceil(1.5 + ((rows - 1) * noteLeading) / grid.leading - 0.001);
}

const NO_ROWS: readonly Row[] = [];
const NOTHING = { notes: NO_ROWS, carried: NO_ROWS } as const;

/** A state to come back to. */
export interface Mark {
  readonly rows: number;
  readonly lastLength: number;
}

const EMPTY: Mark = { rows: 0, lastLength: 0 };

export class FootNotes {
  private readonly rows: Row[];
  /** Rows of the last note that a row of this page refers to. */
  private lastLength = 0;
  /** Rows that stand here where not even those from the page before find room: what else comes runs on. */
  private readonly limit: number;

  constructor(
    private readonly flow: Flow,
    carried: readonly Row[],
  ) {
    this.rows = [...carried];
    const now = this.fitting(flow.grid.lines - TEXT_BESIDE_NOTES);
    this.limit = now < carried.length ? Math.max(1, now) : Number.POSITIVE_INFINITY;
  }

  /** Lines of the grid that the notes take whole. */
  get lines(): number {
    return noteLines(this.shown, this.flow);
  }

  /** Lines that they take at least: the last one may run on. */
  get leastLines(): number {
    const spared = this.limit < this.rows.length ? 0 : Math.max(0, this.lastLength - NOTE_SHARE);
    return noteLines(this.shown - (this.lastLength < 2 * NOTE_SHARE ? 0 : spared), this.flow);
  }

  take(notes: readonly NoteId[]): void {
    for (const id of notes) {
      const rows = this.flow.notes.get(id)?.rows ?? NO_ROWS;
      for (const row of rows) this.rows.push(row);
      this.lastLength = rows.length;
    }
  }

  mark(): Mark {
    return this.rows.length === 0 ? EMPTY : { rows: this.rows.length, lastLength: this.lastLength };
  }

  backTo(mark: Mark): void {
    this.rows.length = mark.rows;
    this.lastLength = mark.lastLength;
  }

  /** Most rows in some lines of the grid such that only the last note runs on, or null where it can't be divided so. */
  share(lines: number): number | null {
    if (this.limit < this.rows.length || this.lastLength < 2 * NOTE_SHARE) return null;
    const before = this.rows.length - this.lastLength;
    const share = Math.min(this.lastLength - NOTE_SHARE, this.fitting(lines) - before);
    return share < NOTE_SHARE ? null : before + share;
  }

  /** Most rows in some lines of the grid, divided well where that can be. */
  mostIn(lines: number): number {
    const most = Math.min(this.shown, this.fitting(lines));
    return most === this.shown ? most : (this.share(lines) ?? most);
  }

  private fitting(lines: number): number {
    let count = this.rows.length;
    while (count > 0 && noteLines(count, this.flow) > lines) count--;
    return count;
  }

  /** The first `shown` rows for this page, the others for the next. */
  divided(shown: number = this.shown): { readonly notes: readonly Row[]; readonly carried: readonly Row[] } {
    if (this.rows.length === 0) return NOTHING;
    return { notes: this.rows.slice(0, shown), carried: this.rows.slice(shown) };
  }

  private get shown(): number {
    return Math.min(this.limit, this.rows.length);
  }
}
