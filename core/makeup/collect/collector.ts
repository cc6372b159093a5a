/**
 * Collects one section: a growing list of flow items, the white between them, and what came before, on which the indent
 * of the next paragraph depends. The kinds of block add themselves through it.
 */
import type { Anchor, NoteId } from '#base';
import type { ViewSection } from '#book';
import type { Look, PrintDesign } from '#design';
import type { BrokenParagraph, MissingCharacter } from '#paragraph';
import { type FlowItem, FORBIDDEN, fixedItem, type Row, rowCount, spaceRow } from '../flow.ts';
import type { Workshop } from '../workshop.ts';
import type { Stance } from './forms.ts';
import { withPenalty } from './rows.ts';

/** Where text may stand, and in what look. */
export interface Column {
  readonly left: number;
  readonly measure: number;
  readonly look: Look;
}

export interface Picture {
  readonly pixels: { readonly width: number; readonly height: number } | null;
}

export interface CollectContext {
  readonly shop: Workshop;
  readonly section: ViewSection;
  readonly picture: (asset: string) => Picture | null;
}

export class Collector {
  readonly shop: Workshop;
  readonly section: ViewSection;
  readonly design: PrintDesign;
  readonly items: FlowItem[] = [];
  readonly missing: MissingCharacter[] = [];
  readonly overfull: Anchor[] = [];
  readonly picture: CollectContext['picture'];
  /** True where the next paragraph stands flush: after an opening, a heading or a scene break (FACTS T-06). */
  flush = true;
  /** True right below a subhead. */
  belowHeading = false;
  /** True at the head of an item of a list: items keep together even where paragraphs are told apart by white. */
  inItem = false;
  /** True until the first paragraph of running text has taken the section's lead-in. */
  leadInWaits = false;
  /** After a centred paragraph the width of its lines, else null: white parts such lines from running text. */
  centred: number | null = null;
  /** How paragraphs without an alignment of their own stand; null for running text. */
  stance: Stance | null = null;
  /** First-line indent of the next paragraph, where something stands before its first word. */
  nextIndent: number | null = null;
  private space = 0;
  private keep = false;
  private whiteEnough = false;
  private readonly numbers: ReadonlyMap<NoteId, number>;

  constructor(context: CollectContext) {
    this.shop = context.shop;
    this.section = context.section;
    this.design = context.shop.design;
    this.picture = context.picture;
    this.numbers = new Map(context.section.notes.map((note) => [note.id, note.number]));
  }

  /** The whole text block. */
  get column(): Column {
    return { left: 0, measure: this.design.frame.measure, look: this.design.text };
  }

  readonly numberOf = (note: NoteId): number => {
    const number = this.numbers.get(note);
    if (number === undefined) throw new RangeError(`section ${this.section.id} has no note ${note}`);
    return number;
  };

  /** Lines of white before whatever comes next; of several requests the greatest counts. */
  white(lines: number): void {
    if (this.items.length > 0 && !this.whiteEnough) this.space = Math.max(this.space, lines);
  }

  /** The white that waits, which the caller makes its own. */
  takeWhite(): number {
    const { space } = this;
    this.space = 0;
    return space;
  }

  /** Adds what brings its own white, and takes no more after it: an opening, a scene break. */
  addAiry(...rows: readonly Row[]): void {
    this.addAiryItem(fixedItem(...rows));
  }

  /** The same of an item that may be of other lengths. */
  addAiryItem(item: FlowItem): void {
    this.add(item);
    this.whiteEnough = true;
  }

  /** White that stays at the head of a page: a sink. */
  sink(lines: number): void {
    if (lines > 0) this.addAiry(spaceRow(lines, true));
  }

  /** Holds what comes next on the page of what came last. */
  keepWithNext(): void {
    this.keep = true;
  }

  /** Adds an item after the white that waits. */
  add(item: FlowItem): void {
    if (rowCount(item) === 0) return;
    if (this.keep) this.bindLast();
    if (this.space > 0) this.items.push(fixedItem(spaceRow(this.space)));
    this.space = 0;
    this.keep = false;
    this.whiteEnough = false;
    this.items.push(item);
  }

  /** Adds rows of one length. */
  addRows(rows: readonly Row[]): void {
    this.add(fixedItem(...rows));
  }

  /** Takes note of what a broken paragraph could not do. */
  watch(broken: BrokenParagraph): BrokenParagraph {
    for (const each of broken.missing) this.missing.push(each);
    if (!broken.runsOver) return broken;
    for (const line of broken.lines) {
      if (line.overfull > 0.5) this.overfull.push({ block: broken.block, offset: line.from });
    }
    return broken;
  }

  /** Holds the first two lines, and the last two, of what was added since `from` together. */
  holdEdges(from: number): void {
    // Rows may be made anew each time that they are asked for.
    const added = this.items.slice(from).map((item) => item.rows);
    const lines = added.flat().filter((row) => row.kind === 'line');
    const held = new Set([lines[0], lines.at(-2)].filter((row) => row !== undefined && row !== lines.at(-1)));
    added.forEach((rows, index) => {
      if (!rows.some((row) => held.has(row))) return;
      const item = this.items[from + index]!;
      const bound = rows.map((row) => (held.has(row) ? withPenalty(row, FORBIDDEN) : row));
      this.items[from + index] = { ...item, rows: bound, variants: rows.length > 1 ? item.variants : null };
    });
  }

  /** Where all that was added since `from` are single lines, a page end among them costs: it reads as a poem or a sign. */
  holdLines(from: number, cost: number): void {
    const added = this.items.slice(from);
    if (added.length < 2 || added.some((item) => item.rows.length !== 1 || item.rows[0]?.kind !== 'line')) return;
    added.slice(0, -1).forEach((item, index) => {
      const rows = item.rows.map((row) => withPenalty(row, Math.max(row.penalty, cost)));
      this.items[from + index] = { ...item, rows };
    });
  }

  private bindLast(): void {
    const last = this.items.pop();
    if (!last) return;
    const rows = [...last.rows];
    const row = rows.pop();
    if (row) rows.push(withPenalty(row, FORBIDDEN));
    this.items.push({ rows, demerits: last.demerits, variants: null });
  }
}
