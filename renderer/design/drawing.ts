/**
 * A drawing of the author's own between scenes. In: an SVG file, which may be anyone's; out: the outlines of its filled shapes
 * as one path in one colour, which print, proof and ebook draw alike, or one sentence why it can't be had.
 */
import { failure, type Outcome, success } from '#base';
import { isOutline, LONGEST_DRAWING, type OwnMark } from '#design';
import { readPath, type Segment } from '#print';
import { faces as words } from '../ui/texts/faces.en.ts';
import { type Matrix, matrixOf, multiplied } from './drawingMatrix.ts';
import { bounds, clockwise, countMoves, moved, pointsOf, rounded, written } from './drawingOutline.ts';
import { shapePath } from './drawingShapes.ts';
import { Styles } from './drawingStyles.ts';

export type Drawing = Pick<Extract<OwnMark, { readonly kind: 'drawing' }>, 'name' | 'path' | 'viewBox'>;

/** Elements that draw nothing by themselves. */
const SILENT: ReadonlySet<string> = new Set(['defs', 'title', 'desc', 'metadata', 'style', 'symbol', 'namedview']);
const GROUPS: ReadonlySet<string> = new Set(['svg', 'g', 'a', 'switch']);

/** The drawing's long side in units of the outlines that are kept: a thousandth of it is finer than any press. */
const SIDE = 1000;

class Refused extends Error {}

export function readDrawing(name: string, root: Element): Outcome<Drawing> {
  try {
    const reader = new DrawingReader(root);
    reader.walk(root, [1, 0, 0, 1, 0, 0]);
    return reader.finished(name);
  } catch (problem) {
    if (problem instanceof Refused) return failure(words.drawingRefused(name, problem.message));
    // Path data that is none.
    if (problem instanceof RangeError) return failure(words.drawingRefused(name, words.drawingBroken));
    throw problem;
  }
}

class DrawingReader {
  private readonly segments: Segment[] = [];
  private readonly styles: Styles;
  private colour: string | null = null;

  constructor(root: Element) {
    if (root.localName !== 'svg') throw new Refused(words.drawingBroken);
    this.styles = new Styles(root);
  }

  walk(element: Element, outer: Matrix): void {
    const name = element.localName;
    if (SILENT.has(name) || this.styles.valueOf(element, 'display') === 'none') return;
    const matrix = multiplied(outer, matrixOf(element.getAttribute('transform') ?? ''));
    if (GROUPS.has(name)) for (const child of element.children) this.walk(child, matrix);
    else this.shape(element, matrix);
  }

  finished(name: string): Outcome<Drawing> {
    const points = this.segments.flatMap(pointsOf);
    const [left, right] = bounds(points.map(([x]) => x));
    const [top, bottom] = bounds(points.map(([, y]) => y));
    if (!(right > left && bottom > top)) throw new Refused(words.drawingEmpty);
    const scale = SIDE / Math.max(right - left, bottom - top);
    const path = this.segments
      .map((each) => written(each, ([x, y]) => [(x - left) * scale, (y - top) * scale]))
      .join('');
    if (path.length > LONGEST_DRAWING) throw new Refused(words.drawingLong);
    if (!isOutline(path)) throw new Refused(words.drawingBroken);
    const viewBox = { width: rounded((right - left) * scale), height: rounded((bottom - top) * scale) };
    return success({ name, path, viewBox });
  }

  private shape(element: Element, matrix: Matrix): void {
    const data = shapePath(element);
    if (data === null) throw new Refused(words.drawingHolds(element.localName));
    const fill = this.styles.valueOf(element, 'fill') ?? 'black';
    const stroke = this.styles.valueOf(element, 'stroke') ?? 'none';
    if (stroke !== 'none') throw new Refused(words.drawingStroked);
    for (const property of ['clip-path', 'mask', 'filter']) {
      if ((this.styles.valueOf(element, property) ?? 'none') !== 'none')
        throw new Refused(words.drawingHolds(property));
    }
    if (fill === 'none') return;
    if (fill.startsWith('url(')) throw new Refused(words.drawingHolds('gradient'));
    this.colour ??= fill;
    if (fill !== this.colour) throw new Refused(words.drawingColoured);
    const segments = readPath(data).map((each) => moved(each, matrix));
    if (this.styles.valueOf(element, 'fill-rule') === 'evenodd' && countMoves(segments) > 1) {
      throw new Refused(words.drawingEvenOdd);
    }
    this.segments.push(...clockwise(segments));
  }
}
