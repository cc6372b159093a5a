/**
 * What collecting a section yields and filling pages reads: rows whose heights are whole lines of a grid, each with the
 * cost of ending a page after it. Nothing here knows where on a page a row will stand.
 */
import type { Anchor, NoteId, Points, Size } from '#base';
import type { PageBuilder } from '#page';
import type { MissingCharacter } from '#paragraph';

/** Something that can put one of its lines on a page; a broken paragraph is one. */
export interface Paint {
  /** @param x left edge of the text block. @param y the baseline of the row's last grid line. */
  place(line: number, x: Points, y: Points, page: PageBuilder): void;
}

/** The cost of a page end that must not be. */
export const FORBIDDEN = Number.POSITIVE_INFINITY;

/**
 * `line` and `solid` stand as they are; `space` is dropped at the head and the foot of a page; `break` is a scene break,
 * which shows its ornament at an edge of a page and may be white elsewhere (FACTS T-26).
 */
export type RowKind = 'line' | 'solid' | 'space' | 'break';

/**
 * A picture that runs over the trimmed edges of its page: at the head and the outer side, and at the foot where nothing
 * stands below it. It is placed when its page is finished, for it depends on the page's side.
 */
export interface Plate {
  readonly asset: string;
  readonly alt: string;
  readonly at: Anchor;
  /** Its proportions. */
  readonly shape: Size;
  readonly toFoot: boolean;
}

export interface Row {
  readonly kind: RowKind;
  /** Whole lines of the grid. */
  readonly height: number;
  /** Cost of ending a page after this row; `FORBIDDEN` where it must not end. */
  readonly penalty: number;
  readonly paint: Paint | null;
  /** Which of the paint's lines this row is. */
  readonly line: number;
  /** First character on the row, null for what is no text of the book. */
  readonly start: Anchor | null;
  /** True for a line that ends in a hyphen made by dividing a word. */
  readonly hyphenated: boolean;
  /** Notes to stand at the foot of the page that holds this row. */
  readonly notes: readonly NoteId[];
  /** Of a scene break: what it shows, and how high it is, at the head or the foot of a page. */
  readonly edge: Edge | null;
  readonly plate?: Plate;
}

/** Where page ends may fall in the lines of a paragraph, and how high they are. */
export interface LineRules {
  /** Whole grid lines to a line of text. */
  readonly height: number;
  /** Least lines of a paragraph at the foot and at the head of a page (FACTS T-13: two each). */
  readonly orphans: number;
  readonly widows: number;
  /** Cost of a page end inside, where it is allowed. */
  readonly inside: number;
  /** Cost of a page end after the last line; `FORBIDDEN` to keep with what follows. */
  readonly after: number;
}

/**
 * Lines of a paragraph without notes. A book has tens of thousands of them: what filling asks of them is told in one, and
 * rows are made of those that are looked at.
 */
export interface TextLines {
  readonly count: number;
  readonly rules: LineRules;
  readonly paint: Paint;
  /** Whether a line ends in a hyphen made by dividing a word. */
  isHyphenated(line: number): boolean;
  row(line: number): Row;
}

/** Rows that belong together. */
export interface RowStretch {
  readonly rows: readonly Row[];
  /** The same rows, where they are plain lines of text. A property of the class: rows changed by hand lose it. */
  readonly lines?: TextLines | undefined;
}

/** Rows of one block that stand on a page: from one of them to before another. */
export interface Part {
  readonly of: RowStretch;
  readonly from: number;
  readonly to: number;
}

/** How many rows there are, and one of them. */
export function rowCount(of: RowStretch): number {
  return of.lines ? of.lines.count : of.rows.length;
}

export function rowAt(of: RowStretch, index: number): Row {
  return of.lines ? of.lines.row(index) : of.rows[index]!;
}

export interface Edge {
  readonly head: Paint;
  readonly foot: Paint;
  readonly height: number;
}

/** Another number of lines for the same paragraph. */
export interface Variant extends RowStretch {
  /** Lines more or fewer than the rows first given. */
  readonly change: number;
  readonly demerits: number;
  /** Loose lines that it has more of than the rows first given. */
  readonly loose: number;
  /** What it costs, where that is no matter of its lines' looks. */
  readonly price?: number;
}

/** A stretch of rows that belong to one block: a paragraph, a stanza, a figure with its caption. */
export interface FlowItem extends RowStretch {
  /** Demerits of the rows as given. */
  readonly demerits: number;
  /**
   * Other lengths that the block can be set to, two lines more or fewer at most; null for what has one length only. Those
   * that cost as much as `dearest` or more (`fill/costs.ts`) may be left out.
   */
  readonly variants: ((dearest: number) => readonly Variant[]) | null;
  /** Other lengths that it has in need alone, instead of those. */
  readonly inNeed?: readonly Variant[];
  /** True for a figure: where it doesn't fit, the text after it may go before it to fill the page. */
  readonly floats?: boolean;
}

/** The lines that a section's rows stand on. */
export interface FlowGrid {
  readonly leading: Points;
  /** Lines to a page. */
  readonly lines: number;
  /** Lines that there is room for below these, where both pages of a spread want one more. */
  readonly extra: number;
  /** Whether a page that is not full stands at the head or at the foot of the text block. */
  readonly align: 'head' | 'foot';
}

export interface Footnote {
  readonly id: NoteId;
  readonly rows: readonly Row[];
}

export interface Flow {
  readonly grid: FlowGrid;
  readonly items: readonly FlowItem[];
  /** The notes that stand at the foot of pages, by id. */
  readonly notes: ReadonlyMap<NoteId, Footnote>;
  /** Leading of the notes. */
  readonly noteLeading: Points;
  readonly missing: readonly MissingCharacter[];
  /** Lines that run over their measure. */
  readonly overfull: readonly Anchor[];
}

const NO_NOTES: readonly NoteId[] = [];

/** A row of text. */
export function lineRow(row: Pick<Row, 'paint' | 'line' | 'start' | 'penalty'> & Partial<Row>): Row {
  return { kind: 'line', height: 1, hyphenated: false, notes: NO_NOTES, edge: null, ...row };
}

/** White of some lines, dropped at the head and the foot of a page unless `kept`. No page ends after it. */
export function spaceRow(height: number, kept = false): Row {
  return {
    kind: kept ? 'solid' : 'space',
    height,
    penalty: FORBIDDEN,
    paint: null,
    line: 0,
    start: null,
    hyphenated: false,
    notes: NO_NOTES,
    edge: null,
  };
}

/** Something painted that is no line of text: a figure, an ornament, a row of a table. */
export function solidRow(row: { readonly height: number; readonly paint: Paint } & Partial<Row>): Row {
  return { ...lineRow({ line: 0, start: null, penalty: 0, ...row }), kind: 'solid' };
}

/** An item of one length. */
export function fixedItem(...rows: readonly Row[]): FlowItem {
  return { rows, demerits: 0, variants: null };
}
