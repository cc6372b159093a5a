/** Balances short ragged lines: the narrowest measure that takes no more lines makes them alike in length. */
import type { BrokenParagraph, ParagraphShape, StyledText } from '#paragraph';
import type { Workshop } from '../workshop.ts';

/** Halvings of the range between a third of the measure and the whole: lines come within half a per cent. */
const STEPS = 7;

export interface Balanced {
  readonly broken: BrokenParagraph;
  /** Where the narrower measure begins inside the whole one. */
  readonly left: number;
}

const known = new WeakMap<StyledText, { readonly shape: ParagraphShape; readonly found: Balanced }>();

/** Breaks display text into lines of like length. What was found last for a text is kept with it. */
export function balanced(shop: Workshop, text: StyledText, shape: ParagraphShape): Balanced {
  const last = known.get(text);
  if (last && isSame(last.shape, shape)) return last.found;
  const found = balance(shop, text, shape);
  known.set(text, { shape, found });
  return found;
}

/** Whether ragged shapes are the same: they differ in nothing else. */
function isSame(one: ParagraphShape, other: ParagraphShape): boolean {
  return one === other || RAGGED.every((each) => one[each] === other[each]);
}

const RAGGED = ['size', 'measure', 'align', 'indentFirst', 'indentRest'] as const;

function balance(shop: Workshop, text: StyledText, shape: ParagraphShape): Balanced {
  const whole = shop.break(text, shape);
  const { lineCount } = whole;
  if (lineCount < 2 || lineCount > 6) return { broken: whole, left: 0 };
  let [narrow, wide] = [shape.measure / 3, shape.measure];
  for (let step = 0; step < STEPS; step++) {
    const measure = (narrow + wide) / 2;
    if (shop.setter.countLines(text, { ...shape, measure }) > lineCount) narrow = measure;
    else wide = measure;
  }
  const broken = wide === shape.measure ? whole : shop.break(text, { ...shape, measure: wide });
  const room = shape.measure - wide;
  return { broken, left: shape.align === 'center' ? room / 2 : shape.align === 'end' ? room : 0 };
}
