/**
 * The pages of a section found by trying everything: the model of `core/makeup/fill` once more, written as plainly as it
 * can be, to hold the fast search to. Also first-fit filling, which looks at one page at a time.
 */
import type { Flow, FlowItem, Row } from '#makeup';
import type { Side } from '#page';
import {
  costOfVariant,
  FORCED,
  HYPHEN_AT_FOLD,
  HYPHEN_AT_TURN,
  LONE_PAIR,
  LONG,
  NOTE_RUNS_ON,
  SCANT_LAST,
  SHORT,
  SHORTER_BY_THE_LINE,
  UNEQUAL,
  UNEVEN_SPREADS,
} from '../../core/makeup/fill/costs.ts';
import { FORBIDDEN } from '../../core/makeup/flow.ts';

/** A place between two rows; inside a block it knows at which length the block is set. */
interface Place {
  readonly item: number;
  readonly row: number;
  readonly rows: readonly Row[];
}

/** A page that can be. */
interface Leaf {
  readonly rows: readonly Row[];
  readonly next: Place;
  readonly natural: boolean;
  readonly used: number;
  readonly short: number;
  readonly foot: number;
  readonly hyphenated: boolean;
  readonly last: boolean;
  readonly notes: readonly Row[];
  readonly carried: readonly Row[];
  readonly cost: number;
}

export interface Book {
  readonly flow: Flow;
  readonly side: Side;
}

/** The least cost of all fillings. */
export function leastCost(book: Book): number {
  let best = Number.POSITIVE_INFINITY;
  const go = (page: number, place: Place, carried: readonly Row[], before: Leaf | null, cost: number): void => {
    for (const leaf of leaves(book.flow, place, carried)) {
      const total = cost + costOfLeaf(book, leaf, page, before);
      if (total >= best) continue;
      if (leaf.last) best = total;
      else go(page + 1, leaf.next, leaf.carried, leaf, total);
    }
  };
  go(0, startOf(book.flow), [], null, 0);
  return best;
}

/** The cost of filling each page as far as it goes, blocks at their own lengths. */
export function firstFitCost(book: Book): number {
  let place = startOf(book.flow);
  let carried: readonly Row[] = [];
  let before: Leaf | null = null;
  let cost = 0;
  for (let page = 0; ; page++) {
    const own = leaves(book.flow, place, carried).filter((leaf) => leaf.natural);
    const leaf: Leaf = own.filter(({ short }) => short >= 0).at(-1) ?? own.at(-1)!;
    cost += costOfLeaf(book, leaf, page, before);
    if (leaf.last) return cost;
    [place, carried, before] = [leaf.next, leaf.carried, leaf];
  }
}

/** A page as the search gives it. */
export interface GivenPage {
  readonly rows: readonly Row[];
  readonly notes: readonly Row[];
  readonly carried: readonly Row[];
  readonly short: number;
}

/** The cost of given pages, each of which must be one that can be. */
export function costOfPages(book: Book, pages: readonly GivenPage[]): number {
  let place = startOf(book.flow);
  let carried: readonly Row[] = [];
  let before: Leaf | null = null;
  let cost = 0;
  for (const [page, given] of pages.entries()) {
    const leaf = leaves(book.flow, place, carried)
      .filter((each) => isGiven(each, given))
      .reduce<Leaf | null>((best, each) => (best && best.cost <= each.cost ? best : each), null);
    if (!leaf || leaf.last !== (page === pages.length - 1)) throw new Error(`page ${page} can't be`);
    cost += costOfLeaf(book, leaf, page, before);
    [place, carried, before] = [leaf.next, leaf.carried, leaf];
  }
  return cost;
}

function isGiven(leaf: Leaf, given: GivenPage): boolean {
  const isSame = (one: readonly Row[], other: readonly Row[]): boolean =>
    one.length === other.length && one.every((row, index) => row === other[index]);
  return (
    leaf.short === given.short &&
    isSame(leaf.rows, given.rows) &&
    isSame(leaf.notes, given.notes) &&
    isSame(leaf.carried, given.carried)
  );
}

function startOf(flow: Flow): Place {
  return { item: 0, row: 0, rows: flow.items[0]?.rows ?? [] };
}

function costOfLeaf({ side }: Book, leaf: Leaf, page: number, before: Leaf | null): number {
  const here: Side = (side === 'recto') === (page % 2 === 0) ? 'recto' : 'verso';
  const pair = before ? costOfPair(here, before.foot, leaf) : 0;
  return leaf.cost + pair + costOfFoot({ ...leaf, side: here, first: page === 0 });
}

/** The cost of a page by itself, the penalty of its last row left out. */
function costOfFoot({ side, short, hyphenated, first, last, used }: Leaf & { side: Side; first: boolean }): number {
  if (last) return (short < 0 ? LONG : 0) + (first ? 0 : (SCANT_LAST[used] ?? 0));
  const hyphen = hyphenated ? (side === 'recto' ? HYPHEN_AT_TURN : HYPHEN_AT_FOLD) : 0;
  return hyphen + (short < 0 ? LONG * -short : (SHORT[short] ?? SHORTER_BY_THE_LINE * (short - 2)));
}

/** The cost of a page beside the one before it, by the lines between the last ink and the foot of the frame. */
function costOfPair(side: Side, before: number, { foot, last }: Leaf): number {
  if (last && (side === 'verso' || foot >= before)) return 0;
  const apart = Math.abs(before - foot);
  if (side === 'recto') return UNEQUAL[Math.min(apart, 3)]!;
  return apart > 1 ? UNEVEN_SPREADS * Math.min(apart - 1, 3) : 0;
}

/** Lines of the grid that so many rows of notes take, with the white and the rule above them. */
function noteLines(rows: number, { noteLeading, grid }: Flow): number {
  return rows === 0 ? 0 : Math.ceil(1.5 + ((rows - 1) * noteLeading) / grid.leading - 0.001);
}

/** All pages that can begin at a place. */
function leaves(flow: Flow, from: Place, carried: readonly Row[]): readonly Leaf[] {
  const start = headOf(flow, from);
  const trial = new Trial(flow, carried);
  if (start.item >= flow.items.length) return [trial.notesAlone(start)];
  trial.grow({ place: start, rows: [], change: 0, other: 0, broken: start.row > 0, natural: true });
  return trial.chosen(start);
}

/** Rows of white at the head of a page are left out. */
function headOf(flow: Flow, place: Place): Place {
  let { item, row, rows } = place;
  for (;;) {
    if (row >= rows.length) {
      if (item + 1 >= flow.items.length) return { item: flow.items.length, row: 0, rows: [] };
      item++;
      row = 0;
      rows = flow.items[item]!.rows;
    } else if (rows[row]!.kind === 'space') row++;
    else return { item, row, rows };
  }
}

/** A page as it grows. */
interface Growth {
  readonly place: Place;
  readonly rows: readonly Row[];
  /** Lines by which whole blocks are longer. */
  readonly change: number;
  /** Costs of other lengths. */
  readonly other: number;
  /** Whether the block at `place` was begun on an earlier page, or is begun at another length. */
  readonly broken: boolean;
  readonly natural: boolean;
}

class Trial {
  private readonly good: Leaf[] = [];
  private readonly scant: Leaf[] = [];

  constructor(
    private readonly flow: Flow,
    private readonly carried: readonly Row[],
  ) {}

  chosen(start: Place): readonly Leaf[] {
    if (this.good.some((leaf) => leaf.natural)) return this.good;
    const fullest = Math.max(...this.scant.map((leaf) => leaf.used));
    return [...this.good, this.scant.find((leaf) => leaf.used === fullest) ?? this.forced(start)];
  }

  notesAlone(place: Place): Leaf {
    const shown = this.shownCarried();
    return this.leaf({ rows: [], place, shown, cost: 0, natural: true });
  }

  /** Takes the row at the place, weighs the end after it, and goes on; at the start of a block tries all its lengths. */
  grow(growth: Growth): void {
    const { place } = growth;
    this.takeRow(growth, place.rows, 0);
    if (place.row > 0) return;
    const item = this.flow.items[place.item]!;
    for (const variant of item.variants?.(Infinity) ?? []) {
      const cost = costOfVariant({ ...variant, lines: variant.rows.length }, item.demerits);
      if (Number.isFinite(cost)) this.takeRow(growth, variant.rows, variant.change, cost);
    }
  }

  private takeRow(growth: Growth, rows: readonly Row[], change: number, cost = 0): void {
    const { item } = growth.place;
    const natural = growth.natural && change === 0;
    let taken = growth.rows;
    for (let row = growth.place.row; row < rows.length; row++) {
      taken = [...taken, rows[row]!];
      const whole = row === rows.length - 1;
      const at = { rows: taken, place: { item, row: row + 1, rows }, natural };
      const sum = growth.change + (whole ? change : 0);
      if (this.leastUsed(taken) - 4 > this.flow.grid.lines + this.flow.grid.extra) return;
      if (Math.abs(sum) <= 3) this.weigh({ ...at, other: growth.other + cost });
      if (!whole || item + 1 >= this.flow.items.length) continue;
      const place = { item: item + 1, row: 0, rows: this.flow.items[item + 1]!.rows };
      this.grow({ place, rows: taken, change: sum, other: growth.other + cost, broken: false, natural });
    }
  }

  private weigh(at: { rows: readonly Row[]; place: Place; natural: boolean; other: number }): void {
    const penalty = this.penaltyAt(at.place);
    if (!Number.isFinite(penalty)) return;
    const all = this.notesOf(at.rows).length;
    const shown = this.shownCarried() < this.carried.length ? this.shownCarried() : all;
    const cost = penalty + at.other;
    const leaf = this.leaf({ ...at, shown, cost });
    if (leaf.short >= -this.flow.grid.extra) this.keep(leaf);
    if (leaf.short >= 0 || !at.natural) return;
    const share = this.shareOf(at.rows, this.flow.grid.lines - this.bodyOf(at.rows, at.place));
    if (share !== null) this.keep(this.leaf({ ...at, shown: share, cost }));
  }

  private keep(leaf: Leaf): void {
    if (leaf.short <= 4 || leaf.last) this.good.push(leaf);
    else if (leaf.natural) this.scant.push(leaf);
  }

  private leaf(of: { rows: readonly Row[]; place: Place; shown: number; cost: number; natural: boolean }): Leaf {
    const { flow } = this;
    const notes = this.notesOf(of.rows);
    const used = this.bodyOf(of.rows, of.place) + noteLines(of.shown, flow);
    const short = flow.grid.lines - used;
    const carried = notes.slice(of.shown);
    return {
      rows: of.rows,
      next: of.place,
      natural: of.natural,
      used,
      short,
      foot: of.shown > 0 ? Math.min(0, short) : short,
      hyphenated: of.rows.at(-1)?.hyphenated ?? false,
      last: this.endsAt(of.place) && carried.length === 0,
      notes: notes.slice(0, of.shown),
      carried,
      cost: of.cost + (carried.length > 0 ? NOTE_RUNS_ON : 0),
    };
  }

  private forced(start: Place): Leaf {
    let place = start;
    let best: { rows: readonly Row[]; place: Place } | null = null;
    for (let rows: readonly Row[] = []; ; ) {
      rows = [...rows, place.rows[place.row]!];
      place = { ...place, row: place.row + 1 };
      const last = this.lastNoteLength(rows);
      const least = this.notesOf(rows).length - (last >= 4 ? last - 2 : 0);
      const held = this.shownCarried() < this.carried.length;
      const lines = this.bodyOf(rows, place) + noteLines(held ? this.shownCarried() : least, this.flow);
      if (best && lines > this.flow.grid.lines) break;
      best = { rows, place };
      if (this.endsAt(place)) break;
      if (place.row === place.rows.length)
        place = { item: place.item + 1, row: 0, rows: this.itemAt(place.item + 1).rows };
    }
    const { rows } = best;
    const room = this.flow.grid.lines - this.bodyOf(rows, best.place);
    const held = this.shownCarried() < this.carried.length;
    const all = held ? this.shownCarried() : this.notesOf(rows).length;
    let most = all;
    while (most > 0 && noteLines(most, this.flow) > room) most--;
    const shown = most === all ? all : (this.shareOf(rows, room) ?? most);
    return this.leaf({ ...best, shown, cost: FORCED, natural: true });
  }

  private itemAt(item: number): FlowItem {
    return this.flow.items[item]!;
  }

  /** Whether nothing but white follows. */
  private endsAt(place: Place): boolean {
    return headOf(this.flow, place).item >= this.flow.items.length;
  }

  private penaltyAt(place: Place): number {
    if (this.endsAt(place)) return 0;
    const { rows, row } = place;
    const lone = rows[row - 2]?.penalty === FORBIDDEN || rows[row]?.penalty === FORBIDDEN;
    return rows[row - 1]!.penalty + (lone && row < rows.length ? LONE_PAIR : 0);
  }

  /** Lines of the text; scene breaks at the edges of the page show their ornaments. */
  private bodyOf(rows: readonly Row[], place: Place): number {
    return rows.reduce((sum, row, index) => {
      const atFoot = index === rows.length - 1 && !this.endsAt(place);
      return sum + (row.edge && (index === 0 || atFoot) ? row.edge.height : row.height);
    }, 0);
  }

  private leastUsed(rows: readonly Row[]): number {
    return rows.reduce((sum, row) => sum + Math.min(row.height, row.edge?.height ?? row.height), 0);
  }

  private notesOf(rows: readonly Row[]): readonly Row[] {
    return [...this.carried, ...rows.flatMap((row) => row.notes.flatMap((id) => this.flow.notes.get(id)!.rows))];
  }

  private lastNoteLength(rows: readonly Row[]): number {
    const last = rows.flatMap((row) => row.notes).at(-1);
    return last === undefined ? 0 : this.flow.notes.get(last)!.rows.length;
  }

  /** Rows that run on from the page before and stand here: three lines are left to the text. */
  private shownCarried(): number {
    let count = this.carried.length;
    while (count > 1 && noteLines(count, this.flow) > this.flow.grid.lines - 3) count--;
    return count;
  }

  /** The last note divided, two lines at least on each page. */
  private shareOf(rows: readonly Row[], room: number): number | null {
    const last = this.lastNoteLength(rows);
    if (last < 4 || this.shownCarried() < this.carried.length) return null;
    const others = this.notesOf(rows).length - last;
    for (let share = last - 2; share >= 2; share--)
      if (noteLines(others + share, this.flow) <= room) return others + share;
    return null;
  }
}
