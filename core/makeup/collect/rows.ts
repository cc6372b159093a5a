/**
 * From broken paragraphs to rows. In: a broken paragraph and where page ends may fall in it; out: rows of the grid.
 */
import type { Anchor, NoteId, Points } from '#base';
import type { PageBuilder } from '#page';
import type { BrokenParagraph } from '#paragraph';
import { FORBIDDEN, type LineRules, type Paint, type Row, type RowKind, type TextLines } from '../flow.ts';

export interface RowRules extends Partial<LineRules> {
  /** Moves the lines to the right. */
  readonly left?: Points;
}

const kept = new WeakMap<BrokenParagraph, { readonly rules: RowRules; readonly rows: readonly Row[] }>();

/** The rows of a paragraph: the very same ones under the same rules, so that an untouched page is known again. */
export function rowsOf(broken: BrokenParagraph, rules: RowRules = {}): readonly Row[] {
  const known = kept.get(broken);
  if (known && isSame(known.rules, rules)) return known.rows;
  const rows = makeRows(broken, rules);
  kept.set(broken, { rules, rows });
  return rows;
}

/** The rows of a paragraph, made for whoever keeps them. */
export function makeRows(broken: BrokenParagraph, rules: RowRules): readonly Row[] {
  return rowsOfLines(new ParagraphLines(broken, rules));
}

function rowsOfLines(lines: ParagraphLines): readonly Row[] {
  const { broken } = lines;
  const rows: Row[] = [];
  for (let line = 0; line < lines.count; line++) {
    const notes = broken.hasNotes ? broken.lines[line]!.notes : NO_NOTES;
    const { kind, height, penalty, paint, start, hyphenated, edge } = lines.row(line);
    rows.push({ kind, height, penalty, paint, line, start, hyphenated, notes, edge });
  }
  return rows;
}

/** The lines of a broken paragraph under rules; no rows of `TextLines` where they have notes. */
export class ParagraphLines implements TextLines {
  readonly count: number;
  readonly rules: LineRules;
  readonly paint: Paint;
  private readonly left: Points;
  private made: readonly Row[] | null = null;

  constructor(
    readonly broken: BrokenParagraph,
    private readonly given: RowRules,
  ) {
    this.count = broken.lineCount;
    this.rules = filledIn(given);
    this.left = given.left ?? 0;
    this.paint = this.left === 0 ? broken : new Moved(broken, this.left);
  }

  isUnder(given: RowRules): boolean {
    return isSame(this.given, given);
  }

  /** These lines, unless they have notes. */
  get plain(): TextLines | undefined {
    return this.broken.hasNotes ? undefined : this;
  }

  /** The lines as rows that can be taken apart: the very same ones each time where notes make them dear. */
  get rows(): readonly Row[] {
    if (this.plain) return rowsOfLines(this);
    this.made ??= rowsOfLines(this);
    return this.made;
  }

  isHyphenated(line: number): boolean {
    return this.broken.isHyphenated(line);
  }

  row(line: number): Row {
    return new LineRow(this, line);
  }
}

/** What holds where nothing else is asked for. */
const PLAIN: Required<RowRules> = { height: 1, orphans: 2, widows: 2, inside: 0, after: 0, left: 0 };
const RULES = ['height', 'orphans', 'widows', 'inside', 'after', 'left'] as const;

/** Whether rules come to the same. */
function isSame(one: RowRules, other: RowRules): boolean {
  return one === other || RULES.every((rule) => (one[rule] ?? PLAIN[rule]) === (other[rule] ?? PLAIN[rule]));
}

function filledIn(given: RowRules): LineRules {
  const isPlain = RULES.every((rule) => rule === 'left' || given[rule] === undefined);
  return isPlain ? PLAIN : { ...PLAIN, ...given };
}

const NO_NOTES: readonly NoteId[] = [];

/** A line of text, which tells what it is asked. */
class LineRow implements Row {
  constructor(
    private readonly of: ParagraphLines,
    readonly line: number,
  ) {}

  get kind(): RowKind {
    return 'line';
  }

  get height(): number {
    return this.of.rules.height;
  }

  get penalty(): number {
    const { rules, count } = this.of;
    const lines = this.line + 1;
    if (lines === count) return rules.after;
    return lines < rules.orphans || count - lines < rules.widows ? FORBIDDEN : rules.inside;
  }

  get paint(): Paint {
    return this.of.paint;
  }

  get start(): Anchor {
    const { broken } = this.of;
    return { block: broken.block, offset: broken.startOf(this.line) };
  }

  get hyphenated(): boolean {
    return this.of.isHyphenated(this.line);
  }

  get notes(): readonly NoteId[] {
    return NO_NOTES;
  }

  get edge(): null {
    return null;
  }
}

/** A paint whose lines stand further to the right. */
export class Moved implements Paint {
  constructor(
    private readonly inner: Paint,
    private readonly left: Points,
  ) {}

  place(line: number, x: Points, y: Points, page: PageBuilder): void {
    this.inner.place(line, x + this.left, y, page);
  }
}

/** Several paints as one, each at its own place from the row's. */
export class Together implements Paint {
  constructor(private readonly parts: readonly { readonly paint: Paint; readonly x: Points; readonly y: Points }[]) {}

  place(line: number, x: Points, y: Points, page: PageBuilder): void {
    for (const part of this.parts) part.paint.place(line, x + part.x, y + part.y, page);
  }
}

/** The same row with another cost of ending a page after it. */
export function withPenalty(row: Row, penalty: number): Row {
  return row.penalty === penalty ? row : { ...row, penalty };
}
