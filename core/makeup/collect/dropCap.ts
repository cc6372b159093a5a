/**
 * A paragraph around a drop cap of n lines, whose base stands on the nth baseline and whose top meets the capitals of the
 * first line (FACTS T-24). An opening quotation mark hangs in the margin at the text size. In: a chapter's first paragraph;
 * out: its rows, and nothing where the paragraph has no letter to drop or is too short for it.
 */
import type { Mark, Node } from 'prosemirror-model';
import type { Points } from '#base';
import { flatText } from '#book';
import { leadInLength } from '#design';
import { type OpenRun, PACKED, PageBuilder, type RunStart } from '#page';
import type { FontFace } from '#type';
import { lineRow, type Paint } from '../flow.ts';
import { faceOf } from '../styler.ts';
import type { Collector, Column } from './collector.ts';
import { once } from './once.ts';
import { rowsOf, Together } from './rows.ts';

/** Gap between a drop cap's ink and the text beside it, in ems of the text. */
const DROP_GAP = 0.18;
/** What a cap's ink stands out into the margin, as a share of its size: serifs and slants seem to stand back. */
const DROP_HANG = 0.015;

/** An opening quotation mark, with the fixed space that French sets after it, and the letter. */
const OPENING = /^((?:["'\u201C\u2018\u00AB\u201E\u201A\u00BB\u203A]\s?)?)(\p{L})/u;

/** Scripts that begin at the other side, where no letter is dropped. */
const RIGHT_TO_LEFT = /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}]/u;

/** Adds the paragraph; false where it can't have a drop cap. */
export function addDropCap(collector: Collector, node: Node, column: Column): boolean {
  const match = OPENING.exec(flatText(node));
  if (!match || RIGHT_TO_LEFT.test(match[2] ?? '')) return false;
  const [all = '', quote = '', letter = ''] = match;
  const { shop, design } = collector;
  const lines = design.leadIn.dropLines;
  const face = faceOf(shop.styler.style(column.look, marksAt(node, quote.length)));
  const size = capSize(face, column.look.size, (lines - 1) * design.frame.leading);
  const glyph = face.glyphOf(letter.toUpperCase().codePointAt(0) ?? 0);
  const scale = size / face.unitsPerEm;
  const [inkLeft, , inkRight] = face.inkOf(glyph) ?? [0, 0, face.advanceOf(glyph), 0];
  const x = column.left - inkLeft * scale - DROP_HANG * size;
  const width = x - column.left + inkRight * scale;
  const shape = {
    ...shop.running(column.look, column.measure, 0),
    notch: { lines, width: width + column.look.size * DROP_GAP },
  };
  // The words after the cap lead over to the text (FACTS T-23).
  const leadIn = design.leadIn.afterDrop ? { look: design.leadIn.look, length: leadInLength(flatText(node)) } : null;
  const text = shop.spans.of({ node, look: column.look, numberOf: collector.numberOf, skip: all.length, leadIn });
  const broken = collector.watch(shop.break(text, shape));
  if (glyph === 0 || broken.lines.length < lines) return false;
  const rows = rowsOf(broken, { left: column.left, orphans: lines });
  const [first] = rows;
  if (!first?.paint) return false;
  const block = String(node.attrs['id']);
  const start: RunStart = {
    face: face.id,
    size,
    x,
    y: (lines - 1) * design.frame.leading,
    at: { block, offset: quote.length },
  };
  const parts: { paint: Paint; x: Points; y: Points }[] = [
    { paint: capPaint({ start, glyph, width: face.advanceOf(glyph) * scale, letter, first: first.paint }), x: 0, y: 0 },
  ];
  if (quote !== '') {
    const mark = shop.line(quote, column.look, block);
    parts.unshift({ paint: once(mark), x: column.left - mark.width - DROP_HANG * size, y: 0 });
  }
  collector.addRows([lineRow({ ...first, paint: new Together(parts), start: { block, offset: 0 } }), ...rows.slice(1)]);
  return true;
}

/** The marks of the character at an offset. */
function marksAt(node: Node, offset: number): readonly Mark[] {
  let at = 0;
  for (const child of node.children) {
    at += child.nodeSize;
    if (offset < at) return child.marks;
  }
  return [];
}

/** The size at which capitals reach from a baseline to the capitals of a line `depth` above it. */
function capSize(face: FontFace, size: Points, depth: Points): Points {
  const capital = face.capHeight / face.unitsPerEm;
  return (size * capital + depth) / capital;
}

interface Cap {
  readonly start: RunStart;
  readonly glyph: number;
  readonly width: Points;
  readonly letter: string;
  /** The first line of the text beside it. */
  readonly first: Paint;
}

/** The cap shows the letter and has no text; the line beside it reads the letter with its own first character. */
function capPaint(cap: Cap): Paint {
  return {
    place: (line, x, y, page) => {
      page.beginRun({ ...cap.start, x: x + cap.start.x, y: y + cap.start.y });
      page.glyph(cap.glyph, cap.width, 0);
      page.endRun('');
      cap.first.place(line, x, y, new Prefixed(page, cap.letter));
    },
  };
}

/** A page on which the next run reads as if a letter stood before it. */
class Prefixed extends PageBuilder {
  private waits = true;

  constructor(
    private readonly page: PageBuilder,
    private readonly letter: string,
  ) {
    super();
  }

  override add(item: Parameters<PageBuilder['add']>[0]): void {
    this.page.add(item);
  }

  override openRun(run: OpenRun): void {
    this.page.openRun(run);
  }

  override glyph(id: number, advance: Points, cluster: number): void {
    this.page.glyph(id, advance, this.waits && cluster > 0 ? cluster + this.letter.length : cluster);
  }

  override append(packed: Int32Array, from: number, count: number, scale: number, cluster: number): Points {
    const moved = this.waits && cluster > 0 ? cluster + this.letter.length : cluster;
    if (!this.waits || cluster > 0) return this.page.append(packed, from, count, scale, moved);
    let width = 0;
    for (let at = from; at < from + count * PACKED; at += PACKED) {
      const advance = packed[at + 1]! * scale;
      this.glyph(packed[at]! & 0xffff, advance, packed[at]! >>> 16);
      width += advance;
    }
    return width;
  }

  override offsetLast(x: Points, y: Points): void {
    this.page.offsetLast(x, y);
  }

  override endRun(text: string): void {
    this.page.endRun(this.waits ? this.letter + text : text);
    this.waits = false;
  }
}
