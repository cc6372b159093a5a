/**
 * The best pages of a section. In: its strip and the side of its first page; out: the pages whose costs are the least in
 * all. The search runs in the kernel (`kernel/assembly/search.ts`): here is what goes in and comes out.
 */
import type { Side } from '#page';
import type { Flow, Row, RowStretch, Variant } from '../flow.ts';
import { rowCount } from '../flow.ts';
import { type FillKernel, startKernel } from '../kernel/kernel.ts';
import { costOfVariant, PRICES } from './costs.ts';
import type { End } from './end.ts';
import { partsOf, rowsOf } from './rows.ts';
import type { Strip } from './strip.ts';

/** A section filled. */
export interface Filling {
  readonly ends: readonly End[];
  readonly cost: number;
}

// An end in the kernel's memory (`kernel/assembly/ends.ts`), in numbers of 32 bits.
const END = 14;
const FROM = 2;
const TO = 3;
const NEXT = 4;
const SHORT = 6;
const CHANGE = 8;
const PARTIAL = 9;
const SHOWN = 10;
const CARRIED = 11;
const FLAGS = 12;
const LAST = 1;

// Flags of a row (`kernel/assembly/rows.ts`).
const WHITE = 1;
const HYPHENATED = 2;
const NO_EDGE = -1;

/** The cheapest pages of a section. */
export function bestFilling(strip: Strip, side: Side): Filling {
  const filling = cheaperFilling(strip, side, Number.POSITIVE_INFINITY);
  if (!filling) throw new RangeError('a section could not be filled into pages');
  return filling;
}

/** The cheapest pages of a section, null where they cost so much or more. */
export function cheaperFilling(strip: Strip, side: Side, than: number): Filling | null {
  pageSearch ??= new PageSearch();
  return pageSearch.fill(strip, side, than);
}

/** One section at a time. */
class PageSearch {
  private readonly kernel: FillKernel;
  private strip: Strip | null = null;

  constructor() {
    this.kernel = startKernel({ askLengths: (item) => this.addLengths(item) });
    this.kernel.numbers.set(PRICES, this.kernel.calls.pricesAt() >> 3);
  }

  fill(strip: Strip, side: Side, than: number): Filling | null {
    const { calls } = this.kernel;
    const { items, grid, noteLeading } = strip.flow;
    this.strip = strip;
    calls.startStrip();
    for (let at = 0; at < items.length; at++) {
      calls.startItem(strip.variantsOf(at) !== null);
      this.addRows(items[at]!, strip.flow);
      calls.endItem();
    }
    calls.endStrip();
    calls.startEnds(grid.lines, grid.extra, noteLeading, grid.leading);
    const pages = calls.fill(side === 'recto', than);
    this.kernel.renew();
    this.strip = null;
    if (pages < 0) return null;
    return { ends: this.endsOf(strip, pages), cost: calls.costOfPath() };
  }

  private addRows(of: RowStretch, flow: Flow): void {
    const { calls } = this.kernel;
    const { lines } = of;
    if (!lines) {
      for (const row of of.rows) this.addRow(row, flow);
      return;
    }
    const { count, rules } = lines;
    calls.addLines(count, rules.height, rules.orphans, rules.widows, rules.inside, rules.after);
    for (let line = 0; line < count; line++) if (lines.isHyphenated(line)) calls.hyphenate(line);
  }

  private addRow({ kind, height, penalty, edge, hyphenated, notes }: Row, flow: Flow): void {
    const { calls } = this.kernel;
    const flags = (kind === 'space' ? WHITE : 0) | (hyphenated ? HYPHENATED : 0);
    calls.addRow(height, penalty, edge ? edge.height : NO_EDGE, flags);
    for (const note of notes) calls.addNote(flow.notes.get(note)?.rows.length ?? 0);
  }

  /** The kernel asks for the other lengths of a block: for those that cost less than the pages known so far. */
  private addLengths(at: number): void {
    const { calls } = this.kernel;
    const strip = this.strip!;
    const { demerits } = strip.items[at]!;
    const dearest = calls.costBound();
    for (const variant of strip.variantsOf(at)?.(dearest) ?? []) {
      const cost = costOf(variant, demerits);
      if (variant.change === 0 || cost >= dearest) continue;
      strip.addStretch(at, variant, cost);
      calls.startStretch(at, variant.change, cost);
      this.addRows(variant, strip.flow);
      calls.endStretch();
    }
  }

  private endsOf(strip: Strip, pages: number): readonly End[] {
    const { calls, words } = this.kernel;
    const path = calls.pathAt() >> 2;
    const ends: End[] = [];
    let carried: readonly Row[] = NO_ROWS;
    for (let page = pages - 1; page >= 0; page--) {
      const at = (calls.endsAt() >> 2) + words[path + page]! * END;
      const partial = words[at + PARTIAL]!;
      const end: End = {
        from: words[at + FROM]!,
        to: words[at + TO]!,
        next: words[at + NEXT]!,
        last: (words[at + FLAGS]! & LAST) !== 0,
        short: words[at + SHORT]!,
        change: words[at + CHANGE]!,
        partial: partial < 0 ? null : strip.stretch(partial),
        notes: NO_ROWS,
        carried: NO_ROWS,
      };
      const shown = words[at + SHOWN]!;
      if (shown + words[at + CARRIED]! === 0) ends.push(end);
      else {
        const notes = [...carried, ...notesOn(strip, end)];
        ends.push({ ...end, notes: notes.slice(0, shown), carried: notes.slice(shown) });
      }
      ({ carried } = ends.at(-1)!);
    }
    return ends;
  }
}

let pageSearch: PageSearch | null = null;

const NO_ROWS: readonly Row[] = [];

function costOf(variant: Variant, demerits: number): number {
  if (variant.price !== undefined) return variant.price;
  return costOfVariant({ demerits: variant.demerits, lines: rowCount(variant), loose: variant.loose }, demerits);
}

/** The rows of the notes that the rows of a page refer to. */
function notesOn(strip: Strip, end: End): readonly Row[] {
  const notes = rowsOf(partsOf(strip, end)).flatMap((row) => row.notes);
  return notes.flatMap((note) => strip.flow.notes.get(note)?.rows ?? NO_ROWS);
}
