/**
 * The shapes of a design's paragraphs. In: a look, a measure and an indent; out: shapes, the very same object for the same
 * wish, because a setter knows its work again by it.
 */
import type { Points } from '#base';
import type { Look, PrintDesign } from '#design';
import type { ParagraphShape } from '#paragraph';

/** Shapes kept for one look: a book has a handful, tables and figures bring more. */
const MOST_SHAPES = 32;

export class Shapes {
  private readonly justified = new WeakMap<Look, ParagraphShape[]>();
  private readonly loose = new WeakMap<Look, ParagraphShape[]>();

  constructor(private readonly design: PrintDesign) {}

  /** The shape of running text. */
  running(look: Look, measure: Points, indentFirst: Points): ParagraphShape {
    const shapes = shapesOf(this.justified, look);
    for (const known of shapes) if (known.measure === measure && known.indentFirst === indentFirst) return known;
    return keep(shapes, this.made(look, measure, indentFirst));
  }

  /** The shape of lines that are not justified. */
  ragged(look: Look, measure: Points, align: 'start' | 'center' | 'end'): ParagraphShape {
    const shapes = shapesOf(this.loose, look);
    const known = shapes.find((each) => each.measure === measure && each.align === align);
    return known ?? keep(shapes, { ...this.made(look, measure, 0), align, hang: false, scaling: 0, lastLineMin: 0 });
  }

  private made({ size }: Look, measure: Points, indentFirst: Points): ParagraphShape {
    const { text, hang, scaling, indent } = this.design;
    // FACTS T-17: a last line of at least one and a half indents.
    const lastLineMin = indent * 1.5;
    return { size, measure, indentFirst, indentRest: 0, notch: null, align: text.align, hang, scaling, lastLineMin };
  }
}

function shapesOf(known: WeakMap<Look, ParagraphShape[]>, look: Look): ParagraphShape[] {
  const shapes = known.get(look) ?? [];
  known.set(look, shapes);
  return shapes;
}

function keep(shapes: ParagraphShape[], shape: ParagraphShape): ParagraphShape {
  if (shapes.length >= MOST_SHAPES) shapes.length = 0;
  shapes.push(shape);
  return shape;
}
