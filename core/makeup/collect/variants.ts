/**
 * The other lengths of a paragraph. In: a paragraph at its best; out: a way to ask for it a line or two longer or shorter,
 * null where its last line leaves no hope of that. What was asked once is remembered with the paragraph.
 */
import type { BrokenParagraph, ParagraphSetter, ParagraphShape, StyledText } from '#paragraph';
import { mostDemerits } from '../fill/costs.ts';
import type { FlowItem, Row, TextLines, Variant } from '../flow.ts';
import { ParagraphLines, type RowRules } from './rows.ts';

/** Lines that a paragraph may be set longer or shorter by, to mend a page. */
const REACH = 2;
/** Paragraphs of fewer lines have no other length. */
const LEAST_LINES = 3;
/**
 * Those of more have page ends enough inside them; the search for their lengths, which grows with the square of their lines,
 * would take seconds where a whole book is one paragraph.
 */
const MOST_LINES = 300;
/**
 * Most that the lines of a paragraph give on average without looking bad, as shares of the measure. Ragged lines are never
 * full: set longer, they are a little less so.
 */
const GIVE = { justified: { longer: 0.035, shorter: 0.013 }, ragged: { longer: 0.12, shorter: 0 } };
/** Beyond this ratio of its stretch a line is loose: up to it, letterspacing takes what spaces should not. */
const LOOSE = 1.25;

export interface VariantRequest {
  readonly setter: ParagraphSetter;
  readonly text: StyledText;
  readonly shape: ParagraphShape;
  readonly broken: BrokenParagraph;
  readonly rules: RowRules;
}

/** The other lengths. */
export function variantsOf(request: VariantRequest): FlowItem['variants'] {
  const { broken, shape } = request;
  const changes = likelyChanges(broken, shape);
  if (changes.length === 0) return null;
  let made: readonly Variant[] = [];
  let madeFor = 0;
  return (dearest) => {
    if (dearest > madeFor) {
      made = make(request, changes, dearest);
      madeFor = dearest;
    }
    return made;
  };
}

function make(
  { setter, text, shape, broken, rules }: VariantRequest,
  changes: readonly number[],
  dearest: number,
): readonly Variant[] {
  const least = broken.linesLooserThan(LOOSE);
  const count = broken.lineCount;
  const most = mostDemerits(count + REACH, broken.demerits, dearest);
  return setter
    .lengths({ text, shape, most })
    .filter(({ lines }) => changes.includes(lines - count))
    .map(({ lines, demerits, set }) => {
      const other = set();
      const loose = Math.max(0, other.linesLooserThan(LOOSE) - least);
      return new ParagraphLength(other, rules, { change: lines - count, demerits, loose });
    });
}

/** A paragraph at another length. */
class ParagraphLength implements Variant {
  readonly change: number;
  readonly demerits: number;
  readonly loose: number;
  private readonly kept: ParagraphLines;
  private readonly plain: TextLines | undefined;

  constructor(broken: BrokenParagraph, rules: RowRules, of: Pick<Variant, 'change' | 'demerits' | 'loose'>) {
    ({ change: this.change, demerits: this.demerits, loose: this.loose } = of);
    this.kept = new ParagraphLines(broken, rules);
    this.plain = this.kept.plain;
  }

  get rows(): readonly Row[] {
    return this.kept.rows;
  }

  get lines(): TextLines | undefined {
    return this.plain;
  }
}

/** Changes of length that the lines could give, by the natural width of the text. */
function likelyChanges({ lineCount: count, textWidth }: BrokenParagraph, shape: ParagraphShape): readonly number[] {
  const { measure, lastLineMin, indentFirst, align } = shape;
  if (count < LEAST_LINES || count > MOST_LINES || align === 'center' || align === 'end') return [];
  const give = align === 'justify' ? GIVE.justified : GIVE.ragged;
  const text = indentFirst + textWidth;
  const changes: number[] = [];
  for (let change = 1; change <= REACH; change++) {
    const longer = count + change - 1;
    if (longer * measure + lastLineMin - text <= give.longer * measure * longer) changes.push(change);
    const shorter = count - change;
    if (shorter >= 2 && text - shorter * measure <= give.shorter * measure * shorter) changes.push(-change);
  }
  return changes;
}
