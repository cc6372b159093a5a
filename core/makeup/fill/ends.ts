/**
 * Where a page may end. In: the row it begins with and the notes that run on from the page before; out: the ends worth
 * weighing, each with what the page then holds. The blocks that lie whole on a page may take other lengths, for each change
 * in all the cheapest of them; the block that the page ends in may take one as well.
 */
import type { Flow, Row } from '../flow.ts';
import { Changes, mostShorter } from './changes.ts';
import { FORCED, NOTE_RUNS_ON } from './costs.ts';
import type { End } from './end.ts';
import { FootNotes, type Mark, noteLines } from './footNotes.ts';
import type { FlowChanges, Stretch, Strip } from './strip.ts';
import type { Trail } from './trail.ts';

/** Ends that leave more white than this count only where blocks at their own length offer no other. */
const MOST_SHORT = 4;

/** Where a page begins. */
export interface PageStart {
  readonly start: number;
  /** Notes that run on from the page before. */
  readonly carried: readonly Row[];
  /** Whether blocks may take other lengths. */
  readonly elastic: boolean;
}

/** Ends, and the first block that had no part in finding them. */
interface FoundEnds {
  readonly ends: readonly End[];
  readonly upTo: number;
  /** The finder's revision when they were found. */
  readonly revision: number;
}

/** Finds the ends of pages; what it has found for a row it keeps. */
export class EndFinder {
  private readonly known = new Map<number, FoundEnds>();
  /** What the last searches came upon, by their kind. */
  readonly trails = new Map<string, Trail>();
  /** Counts the flows gone over to. */
  revision = 0;

  constructor(readonly strip: Strip) {}

  /** Goes over to another flow, forgetting what its changes touch; null where too much changed. */
  follow(flow: Flow): FlowChanges | null {
    const changed = this.strip.follow(flow);
    if (!changed) return null;
    this.revision++;
    for (const [key, { upTo }] of this.known) {
      if (upTo >= changed.from && this.strip.itemAt(key >> 1) < changed.to) this.known.delete(key);
    }
    return changed;
  }

  /** Whether the ends of a page were found by a revision, and are what they were. Notes that run on leave no certainty. */
  hasKept(page: PageStart, revision: number): boolean {
    return page.carried.length === 0 && (this.known.get(keyOf(page))?.revision ?? Number.POSITIVE_INFINITY) <= revision;
  }

  /** The ends of a page, in the order of the text. */
  of(page: PageStart): readonly End[] {
    if (page.carried.length > 0) return new Walk(this.strip, page).ends();
    const key = keyOf(page);
    const known = this.known.get(key);
    if (known) return known.ends;
    const walk = new Walk(this.strip, page);
    const ends = walk.ends();
    this.known.set(key, { ends, upTo: walk.upTo, revision: this.revision });
    return ends;
  }
}

function keyOf({ start, elastic }: PageStart): number {
  return start * 2 + (elastic ? 1 : 0);
}

/** One walk down a page. */
class Walk {
  private readonly lines: number;
  private readonly extra: number;
  private readonly first: number;
  private readonly found: End[] = [];
  private readonly notes: FootNotes;
  private readonly begun: Mark;
  /** The fullest end with a note that runs on and yet too much white. */
  private scant: End | null = null;
  private readonly changes = new Changes();
  private body = 0;
  private natural = false;
  private reached = 0;

  constructor(
    private readonly strip: Strip,
    private readonly page: PageStart,
  ) {
    const { grid } = strip.flow;
    this.lines = grid.lines;
    this.extra = grid.extra;
    this.first = strip.head(page.start);
    this.notes = new FootNotes(strip.flow, page.carried);
    this.begun = this.notes.mark();
  }

  ends(): readonly End[] {
    if (this.first === this.strip.count) return [this.notesAlone()];
    let item = this.strip.itemAt(this.first);
    if (this.first !== this.strip.firstOf(item)) {
      this.takeRest(item);
      item++;
    }
    for (; item < this.strip.items.length && !this.isFull(); item++) this.takeItem(item);
    this.reached = item;
    if (!this.natural) this.found.push(this.scantEnd() ?? this.forced());
    return this.found;
  }

  /** The first block that had no part in what was found: the next page may begin with it. */
  get upTo(): number {
    return this.strip.itemAt(this.strip.head(this.strip.firstOf(this.reached)));
  }

  /** The rows of a block that the page before began. */
  private takeRest(item: number): void {
    for (let row = this.pass(this.first); this.strip.itemAt(row) === item; row = this.strip.after(row)) {
      this.take(row);
      this.weigh(row, null);
    }
  }

  private takeItem(item: number): void {
    const { strip } = this;
    const stretches = this.page.elastic ? strip.stretchesOf(item) : [];
    for (const stretch of stretches) this.tryStretch(stretch);
    const spare = mostShorter(stretches);
    const end = strip.firstOf(item + 1);
    for (let row = this.pass(strip.firstOf(item)); row < end; row++) {
      this.take(row);
      if (row === end - 1) this.changes.add(stretches);
      this.weigh(row, null);
      if (this.isFull(spare)) return;
    }
  }

  /** Ends inside a block at another length; the one after its last row comes with the block as a whole. */
  private tryStretch(stretch: Stretch): void {
    const { body } = this;
    const mark = this.notes.mark();
    const end = stretch.first + stretch.variant.rows.length - 1;
    for (let row = this.pass(stretch.first); row < end && !this.isFull(); row++) {
      this.take(row);
      this.weigh(row, stretch);
    }
    this.body = body;
    this.notes.backTo(mark);
  }

  /** Takes the rows from one on that are too far from the foot for a page to end after them; gives the next. */
  private pass(from: number): number {
    const { strip } = this;
    const room = this.lines - MOST_SHORT - this.changes.longer - this.notes.lines;
    let row = from;
    for (let height = strip.quiet(row); height >= 0 && this.body + height < room; height = strip.quiet(row)) {
      this.body += height;
      row++;
    }
    return row;
  }

  private take(row: number): void {
    const taken = this.strip.rows[row]!;
    this.body += row === this.first && taken.edge ? taken.edge.height : taken.height;
    if (taken.notes.length > 0) this.notes.take(taken.notes);
  }

  /** Whether no row more can be on the page, `spare` lines more given. */
  private isFull(spare = 0): boolean {
    return this.body + this.notes.leastLines - this.changes.shorter - spare > this.lines + this.extra;
  }

  /** Notes the ends of the page after a row. */
  private weigh(row: number, partial: Stretch | null): void {
    const penalty = this.strip.penalty(row);
    if (!Number.isFinite(penalty)) return;
    const own = this.body + this.footOf(row);
    const { changes } = this;
    const most = own + changes.longer + this.notes.lines;
    if (most < this.lines - MOST_SHORT && !this.strip.endsAfter(row)) return;
    for (let change = -changes.shorter; change <= changes.longer; change++) {
      const cost = changes.costOf(change);
      if (!Number.isFinite(cost)) continue;
      const used = own + change + this.notes.lines;
      if (used > this.lines + this.extra) continue;
      this.keep(this.end(row, { used, change, partial, cost: penalty + cost + (partial?.cost ?? 0) }));
    }
    if (own + this.notes.lines > this.lines && !partial) this.weighRunningOn(row, own, penalty);
  }

  /** An end with a last note that runs on. */
  private weighRunningOn(row: number, own: number, penalty: number): void {
    const shown = this.notes.share(this.lines - own);
    if (shown === null) return;
    const used = own + noteLines(shown, this.strip.flow);
    this.keep(this.end(row, { used, change: 0, partial: null, cost: penalty, shown }));
  }

  /** Height that a scene break takes more at the foot of a page than inside it. */
  private footOf(row: number): number {
    const { edge, height } = this.strip.rows[row]!;
    return edge && row !== this.first && !this.strip.endsAfter(row) ? edge.height - height : 0;
  }

  private keep(end: End): void {
    const own = end.change === 0 && end.partial === null;
    if (end.short <= MOST_SHORT || end.last) {
      this.found.push(end);
      if (own) this.natural = true;
    } else if (end.carried.length > 0 && end.used > (this.scant?.used ?? -1)) this.scant = end;
  }

  /** The fullest end that leaves too much white: looked for where there is no better, which few pages need. */
  private scantEnd(): End | null {
    const { strip, notes } = this;
    let best: { row: number; used: number; mark: Mark } | null = null;
    this.body = 0;
    notes.backTo(this.begun);
    for (let row = this.first; row !== strip.count; row = strip.after(row)) {
      this.take(row);
      if (this.body + notes.leastLines > this.lines) break;
      const used = this.body + this.footOf(row) + notes.lines;
      const short = this.lines - used;
      if (short <= MOST_SHORT || used <= (best?.used ?? -1) || !Number.isFinite(strip.penalty(row))) continue;
      best = { row, used, mark: notes.mark() };
    }
    if (!best || best.used < (this.scant?.used ?? -1)) return this.scant;
    notes.backTo(best.mark);
    return this.end(best.row, { used: best.used, change: 0, partial: null, cost: strip.penalty(best.row) });
  }

  private end(
    row: number,
    of: { used: number; change: number; partial: Stretch | null; cost: number; shown?: number },
  ): End {
    const { strip, lines } = this;
    const { notes, carried } = this.notes.divided(of.shown);
    const ended = this.first === strip.count || strip.endsAfter(row);
    const short = lines - of.used;
    return {
      from: this.first,
      to: row,
      next: ended ? strip.count : strip.head(strip.after(row)),
      last: ended && carried.length === 0,
      used: of.used,
      short,
      foot: notes.length > 0 ? Math.min(0, short) : short,
      hyphenated: strip.rows[row]?.hyphenated ?? false,
      change: of.change,
      partial: of.partial,
      notes,
      carried,
      cost: of.cost + (carried.length > 0 ? NOTE_RUNS_ON : 0),
    };
  }

  private notesAlone(): End {
    const used = this.notes.lines;
    return this.end(this.first, { used, change: 0, partial: null, cost: 0 });
  }

  /** The end taken where none is allowed: after the last row that fits, or after the first where none does. */
  private forced(): End {
    const { strip } = this;
    this.body = 0;
    this.notes.backTo(this.begun);
    let last = this.first;
    this.take(last);
    while (!strip.endsAfter(last)) {
      const { body } = this;
      const mark = this.notes.mark();
      const next = strip.after(last);
      this.take(next);
      if (this.body + this.footOf(next) + this.notes.leastLines > this.lines) {
        this.body = body;
        this.notes.backTo(mark);
        break;
      }
      last = next;
    }
    const own = this.body + this.footOf(last);
    const shown = this.notes.mostIn(this.lines - own);
    const used = own + noteLines(shown, strip.flow);
    return this.end(last, { used, change: 0, partial: null, cost: FORCED, shown });
  }
}
