/**
 * From broken paragraphs to rows. In: a broken paragraph and where page ends may fall in it; out: rows of the grid.
 */
import type { Points } from '#base';
import type { PageBuilder } from '#page';
import type { BrokenParagraph } from '#paragraph';
import { FORBIDDEN, type Paint, type Row } from '../flow.ts';

export interface RowRules {
  /** Whole grid lines to a line of text. */
  readonly height?: number;
  /** Least lines of a paragraph at the foot and at the head of a page (FACTS T-13: two each). */
  readonly orphans?: number;
  readonly widows?: number;
  /** Cost of a page end inside, where it is allowed. */
  readonly inside?: number;
  /** Cost of a page end after the last line; `FORBIDDEN` to keep with what follows. */
  readonly after?: number;
  /** Moves the lines to the right. */
  readonly left?: Points;
}

const kept = new WeakMap<BrokenParagraph, { readonly key: string; readonly rows: readonly Row[] }>();

/** The rows of a paragraph: the very same ones under the same rules, so that an untouched page is known again. */
export function rowsOf(broken: BrokenParagraph, rules: RowRules = {}): readonly Row[] {
  const key = keyOfRules(rules);
  const known = kept.get(broken);
  if (known?.key === key) return known.rows;
  const rows = makeRows(broken, rules);
  kept.set(broken, { key, rows });
  return rows;
}

/** Rules that come to the same have the same key. */
export function keyOfRules(rules: RowRules): string {
  const { height = 1, orphans = 2, widows = 2, inside = 0, after = 0, left = 0 } = rules;
  return `${height}|${orphans}|${widows}|${inside}|${after}|${left}`;
}

/** The rows of a paragraph, made for whoever keeps them. */
export function makeRows(broken: BrokenParagraph, given: RowRules): readonly Row[] {
  const { height = 1, orphans = 2, widows = 2, inside = 0, after = 0, left = 0 } = given;
  const rules = { orphans, widows, inside, after };
  const paint = left === 0 ? broken : new Moved(broken, left);
  const count = broken.lines.length;
  // Written out, since a book has some twenty thousand of them: `lineRow` takes three times as long.
  return broken.lines.map(({ hyphenated, notes, from }, line) => ({
    kind: 'line',
    height,
    hyphenated,
    notes,
    edge: null,
    paint,
    line,
    start: { block: broken.block, offset: from },
    penalty: penaltyAfter(line + 1, count, rules),
  }));
}

type EndRules = Required<Pick<RowRules, 'orphans' | 'widows' | 'inside' | 'after'>>;

function penaltyAfter(lines: number, count: number, rules: EndRules): number {
  if (lines === count) return rules.after;
  return lines < rules.orphans || count - lines < rules.widows ? FORBIDDEN : rules.inside;
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
