/** Other lengths of paragraphs: where they are worth asking for. */
import { describe, expect, it } from 'vitest';
import type { ParagraphShape, StyledText, TextStyle } from '#paragraph';
import { variantsOf } from '../../core/makeup/collect/variants.ts';
import { costOfVariant } from '../../core/makeup/fill/costs.ts';
import { type FlowItem, rowCount } from '../../core/makeup/flow.ts';
import { mobyDickParagraphs } from '../paragraph/mobyDick.ts';
import { at, openShop, styled } from '../paragraph/setting.ts';
import { PITCH, typewriter } from './typewriter.ts';

/** Sixty characters to the line. */
const MEASURE = 60 * PITCH;

/** Lines of so many characters: two words fill one, and a third does not fit. */
function paragraph(count: number, length: number): StyledText {
  const word = 'x'.repeat((length - 1) / 2);
  const text = Array.from({ length: count * 2 }, () => word).join(' ');
  const style = { size: 1, rise: 0, letterspace: 0 } as TextStyle;
  return { block: 'b1', spans: [{ kind: 'text', text, offset: 0, style, href: null }] };
}

function changes(text: StyledText, align: ParagraphShape['align']): readonly number[] | null {
  const setter = typewriter();
  const shape: ParagraphShape = {
    size: 1,
    measure: MEASURE,
    indentFirst: 0,
    indentRest: 0,
    notch: null,
    align,
    hang: false,
    scaling: 0,
    lastLineMin: 0,
  };
  const broken = setter.break({ text, shape, looseness: 0 });
  const variants = variantsOf({ setter, text, shape, broken, rules: {} });
  return variants ? variants(Infinity).map(({ change }) => change) : null;
}

describe('a paragraph', () => {
  it('may be a line longer where its lines have little to lose, more so where they are ragged', () => {
    expect(changes(paragraph(8, 59), 'justify')).toContain(1);
    expect(changes(paragraph(8, 55), 'justify')).toBeNull();
    expect(changes(paragraph(8, 55), 'start')).toContain(1);
    expect(changes(paragraph(8, 47), 'start')).not.toContain(1);
  });

  it('has one length where it is short, or stands in the middle', () => {
    expect(changes(paragraph(2, 59), 'start')).toBeNull();
    expect(changes(paragraph(8, 59), 'center')).toBeNull();
  });

  it('has one length where it goes on for many pages', () => {
    expect(changes(paragraph(200, 59), 'start')).toContain(1);
    expect(changes(paragraph(320, 59), 'start')).toBeNull();
  });
});

describe('asked for lengths below a cost', () => {
  /** The changes that cost less, and their costs. */
  function below(dearest: number, variants: NonNullable<FlowItem['variants']>, base: number, askedFor = dearest) {
    return variants(askedFor)
      .map((each) => {
        const cost = costOfVariant({ demerits: each.demerits, lines: rowCount(each), loose: each.loose }, base);
        return { change: each.change, cost };
      })
      .filter(({ cost }) => cost < dearest);
  }

  it('a paragraph has all that there are, whatever was asked before', async () => {
    const { setter, style } = await openShop();
    let [found, left] = [0, 0];
    for (const words of mobyDickParagraphs().slice(0, 400)) {
      const text = styled(words, style);
      const shape = at(270, { indentFirst: 12, hang: true, scaling: 0.01, lastLineMin: 18 });
      const broken = setter.break({ text, shape, looseness: 0 });
      const [one, other] = [0, 1].map(() => variantsOf({ setter, text, shape, broken, rules: {} }));
      if (!one || !other) continue;
      const { demerits } = broken;
      if (one(8).length < other(Number.POSITIVE_INFINITY).length) left++;
      for (const dearest of [8, 30, 12, 60]) {
        const expected = below(dearest, other, demerits, Number.POSITIVE_INFINITY);
        expect(below(dearest, one, demerits)).toEqual(expected);
        found += expected.length;
      }
    }
    expect(found).toBeGreaterThan(50);
    expect(left).toBeGreaterThan(3);
  });
});
