/**
 * A typewriter for make-up tests: every character is as wide as any other, lines are filled first-fit, and a soft hyphen
 * in the text is a place to divide. Pages made with it can be counted by hand.
 */

import type { PageBuilder } from '#page';
import type {
  BreakRequest,
  BrokenLine,
  BrokenParagraph,
  ParagraphSetter,
  ParagraphShape,
  Placing,
  Span,
  StyledText,
} from '#paragraph';
import type { FamilyFacts, FontFace, FontFamily, FontLibrary } from '#type';

/** Width of a character in ems: 65 to a measure of 300 points at 11.5. */
export const PITCH = 300 / 65 / 11.5;

const face = {
  id: 'typewriter',
  family: 'Typewriter',
  italic: false,
  weight: 400,
  unitsPerEm: 1000,
  ascender: 750,
  descender: -250,
  capHeight: 650,
  xHeight: 400,
  hasFeature: () => true,
  glyphOf: () => 1,
  advanceOf: () => PITCH * 1000,
  inkOf: () => [0, 0, PITCH * 1000, 650],
} as unknown as FontFace;

const family: FontFamily = { name: 'Typewriter', regular: face, italic: face, bold: face, boldItalic: face };

const about: FamilyFacts = { installed: false, embedding: 'installable', licence: null, licenceAddress: null };

export const typewriterLibrary: FontLibrary = {
  about: () => about,
  family: () => family,
  face: () => face,
  fallbacks: [],
  shapesAside: false,
};

interface Character {
  readonly text: string;
  readonly offset: number;
  readonly width: number;
  readonly size: number;
  readonly rise: number;
  readonly note: string | null;
}

/** A new typewriter; `asked` counts the paragraphs that had to be broken. */
export function typewriter(): ParagraphSetter & { readonly asked: () => number } {
  const known = new WeakMap<StyledText, Map<string, BrokenParagraph>>();
  let asked = 0;
  const setBroken = (request: BreakRequest): BrokenParagraph => {
    const kept = known.get(request.text) ?? new Map<string, BrokenParagraph>();
    known.set(request.text, kept);
    const key = JSON.stringify([request.shape, request.looseness]);
    const broken = kept.get(key) ?? new Typed(request.text, withLooseness(request));
    if (!kept.has(key)) asked++;
    kept.set(key, broken);
    return broken;
  };
  return {
    break: setBroken,
    countLines: (text, shape) => {
      const { lines } = setBroken({ text, shape, looseness: 0 });
      return lines.some(({ overfull, torn }) => overfull > 0 || torn) ? Number.POSITIVE_INFINITY : lines.length;
    },
    lengths: ({ text, shape, most }) => {
      const lines = setBroken({ text, shape, looseness: 0 }).lines.length;
      return [0, 1]
        .map((looseness) => ({
          looseness,
          lines: lines + looseness,
          demerits: 100 + looseness * 2000,
          set: () => setBroken({ text, shape, looseness }),
        }))
        .filter(({ demerits }) => demerits <= most);
    },
    readAhead: () => undefined,
    keepLists: () => false,
    line: (text, size) => {
      const typed = new Typed(text, { ...UNBROKEN, size });
      const width = typed.lines[0]?.width ?? 0;
      return { width, missing: [], place: (x, y, page, placing) => typed.place(0, x, y, page, placing) };
    },
    asked: () => asked,
  };
}

const UNBROKEN: ParagraphShape = {
  size: 1,
  measure: 1e6,
  indentFirst: 0,
  indentRest: 0,
  notch: null,
  align: 'start',
  hang: false,
  scaling: 0,
  lastLineMin: 0,
};

/** A longer paragraph is one with narrower lines. */
function withLooseness({ text, shape, looseness }: BreakRequest): ParagraphShape {
  if (looseness === 0) return shape;
  const wanted = new Typed(text, shape).lines.length + looseness;
  for (let measure = shape.measure; measure > shape.measure / 2; measure -= 1) {
    if (new Typed(text, { ...shape, measure }).lines.length === wanted) return { ...shape, measure };
  }
  return shape;
}

class Typed implements BrokenParagraph {
  readonly block: string;
  readonly lines: readonly BrokenLine[];
  readonly demerits = 100;
  readonly runsOver = true;
  readonly missing = [];
  private readonly characters: readonly Character[];

  constructor(
    text: StyledText,
    private readonly shape: ParagraphShape,
  ) {
    this.block = text.block;
    this.characters = text.spans.flatMap((span) => charactersOf(span, shape.size));
    this.lines = this.fill();
  }

  get lineCount(): number {
    return this.lines.length;
  }

  get textWidth(): number {
    return this.lines.reduce((sum, line) => sum + line.width, 0);
  }

  get hasNotes(): boolean {
    return this.characters.some((each) => each.note !== null);
  }

  isHyphenated(line: number): boolean {
    return this.lines[line]!.hyphenated;
  }

  startOf(line: number): number {
    return this.lines[line]!.from;
  }

  linesLooserThan(ratio: number): number {
    return this.lines.slice(0, -1).filter((line) => line.ratio > ratio).length;
  }

  place(index: number, x: number, y: number, page: PageBuilder, placing?: Placing): void {
    const line = this.lines[index];
    if (!line) throw new RangeError(`no line ${index}`);
    const room = this.roomOf(index);
    const free = this.shape.measure - room.indent - line.width;
    const shift = this.shape.align === 'center' ? free / 2 : this.shape.align === 'end' ? free : 0;
    const shown = this.characters.filter((each) => each.offset >= line.from && each.offset < line.to);
    let pen = x + room.indent + shift;
    for (let from = 0; from < shown.length; ) {
      let to = from;
      while (to < shown.length && shown[to]?.size === shown[from]?.size && shown[to]?.rise === shown[from]?.rise) to++;
      pen = this.run(shown.slice(from, to), pen, y, page, placing);
      from = to;
    }
  }

  private run(shown: readonly Character[], x: number, y: number, page: PageBuilder, placing?: Placing): number {
    const first = shown[0];
    if (!first) return x;
    const furniture = placing?.furniture ? { furniture: true } : {};
    page.beginRun({
      face: face.id,
      size: first.size,
      x,
      y: y - first.rise,
      ...(placing?.furniture ? furniture : { at: { block: this.block, offset: first.offset } }),
    });
    shown.forEach((each, index) => {
      page.glyph(1, each.width, index);
    });
    page.endRun(shown.map((each) => each.text).join(''));
    return x + shown.reduce((sum, each) => sum + each.width, 0);
  }

  private roomOf(index: number): { readonly width: number; readonly indent: number } {
    const { measure, indentFirst, indentRest, notch } = this.shape;
    const indent = (index === 0 ? indentFirst : indentRest) + (notch && index < notch.lines ? notch.width : 0);
    return { width: measure - indent, indent };
  }

  private fill(): readonly BrokenLine[] {
    const lines: BrokenLine[] = [];
    const all = this.characters;
    let from = 0;
    while (from < all.length) {
      const cut = this.cut(from, this.roomOf(lines.length).width);
      lines.push(this.line(from, cut.to, cut.next));
      from = cut.next;
    }
    return lines;
  }

  /** Where a line from `from` ends, and where the next begins. */
  private cut(from: number, width: number): { readonly to: number; readonly next: number } {
    const all = this.characters;
    let sum = 0;
    let best: { to: number; next: number } | null = null;
    for (let index = from; index < all.length; index++) {
      const text = all[index]?.text;
      if (text === '\n') return { to: index, next: index + 1 };
      if (text === ' ') best = { to: index, next: index + 1 };
      sum += all[index]?.width ?? 0;
      if (text === '\u00AD' && sum + this.hyphen <= width + 0.001) best = { to: index + 1, next: index + 1 };
      if (sum > width + 0.001 && text !== ' ')
        return best ?? { to: Math.max(index, from + 1), next: Math.max(index, from + 1) };
    }
    return { to: all.length, next: all.length };
  }

  private get hyphen(): number {
    return (this.characters[0]?.size ?? 0) * PITCH;
  }

  private line(from: number, to: number, next: number): BrokenLine {
    const shown = this.characters.slice(from, to);
    const hyphenated = shown.at(-1)?.text === '\u00AD' && to === next;
    const end = this.characters[to];
    return {
      from: shown[0]?.offset ?? end?.offset ?? 0,
      to: end ? end.offset : (shown.at(-1)?.offset ?? 0) + 1,
      hyphenated,
      ratio: 0,
      width: shown.reduce((sum, each) => sum + each.width, 0),
      overfull: 0,
      torn: false,
      notes: shown.flatMap((each) => (each.note ? [each.note] : [])),
    };
  }
}

function charactersOf(span: Span, text: number): readonly Character[] {
  if (span.kind === 'lineBreak') {
    return [{ text: '\n', offset: span.offset, width: 0, size: 0, rise: 0, note: null }];
  }
  const { letterspace } = span.style;
  const size = span.style.size * text;
  const rise = span.style.rise * text;
  const width = size * (PITCH + letterspace);
  if (span.kind === 'noteMark') {
    return [{ text: span.text, offset: span.offset, width: width * span.text.length, size, rise, note: span.note }];
  }
  return Array.from({ length: span.text.length }, (_, index) => ({
    text: span.text.charAt(index),
    offset: span.offset + index,
    width: span.text.charAt(index) === '\u00AD' ? 0 : width,
    size,
    rise,
    note: null,
  }));
}
