/** A paragraph whose breaks are chosen. In: copy, shape and solution; out: its lines, and each line set on a page. */
import type { NoteId, Points } from '#base';
import type { PageBuilder } from '#page';
import { type LineFit, lineOf, openFit, ratioAt } from './breaker/line.ts';
import type { LineWidths } from './breaker/place.ts';
import { CUT, DIVIDED, FLAGS, HYPHEN, PIECE, STRIDE, TEAR, WIDTH } from './breaker/places.ts';
import { OVERFULL, type Solution } from './breaker/search.ts';
import type { BreakSettings } from './settings.ts';
import {
  type Copy,
  isFixedSpace,
  isSpace,
  kindAt,
  LINE_BREAK,
  lengthAt,
  MARK,
  missingIn,
  spanAt,
  valueAt,
  WORD,
} from './text/copy.ts';
import { measureCut, partOf, type WordPart, widthUpTo } from './text/cuts.ts';
import { hangAtStart } from './text/hang.ts';
import { letterGaps } from './text/letterspace.ts';
import { type Segment, widthOf } from './text/segments.ts';
import { writeLine } from './text/setLine.ts';
import { closeStretch, endPiece, type OpenStretch, openStretch, partAt, type Stretch } from './text/stretch.ts';
import type { BrokenLine, BrokenParagraph, MissingCharacter, ParagraphShape, Placing } from './types.ts';

export interface SetParts {
  readonly copy: Copy;
  readonly shape: ParagraphShape;
  readonly place: LineWidths;
  readonly settings: BreakSettings;
}

export class SetParagraph implements BrokenParagraph {
  readonly block: string;
  readonly demerits: number;
  readonly runsOver: boolean;
  readonly missing: readonly MissingCharacter[];
  kept?: unknown;
  private made: readonly BrokenLine[] | null = null;

  constructor(
    private readonly parts: SetParts,
    private readonly solution: Solution,
  ) {
    const { copy } = parts;
    this.block = copy.text.block;
    this.demerits = solution.demerits;
    this.missing = missingIn(copy);
    this.runsOver = solution.demerits >= OVERFULL;
  }

  get lineCount(): number {
    return this.solution.lines;
  }

  get lines(): readonly BrokenLine[] {
    this.made ??= Array.from({ length: this.lineCount }, (_, line) => new SetLine(this, line));
    return this.made;
  }

  get hasNotes(): boolean {
    return this.parts.copy.hasMarks;
  }

  get textWidth(): Points {
    let width = 0;
    for (let line = 0; line < this.lineCount; line++) width += this.widthOf(line);
    return width;
  }

  isHyphenated(line: number): boolean {
    return (this.flagsOf(line) & HYPHEN) !== 0;
  }

  startOf(line: number): number {
    const { copy, fromPiece, fromCut } = this.stretchOf(line, STRETCH);
    closeStretch(STRETCH);
    return startOf(copy, fromPiece, fromCut);
  }

  linesLooserThan(ratio: number): number {
    const { place } = this.parts;
    const { ends, lines } = this.solution;
    let count = 0;
    for (let line = 0; line < lines - 1; line++) if (ratioAt(ends, place, line) > ratio) count++;
    return count;
  }

  place(line: number, x: Points, y: Points, page: PageBuilder, placing: Placing = {}): void {
    if (line < 0 || line >= this.lineCount) throw new RangeError(`no line ${line} among ${this.lineCount}`);
    const { copy, shape, place } = this.parts;
    const fit = lineOf(this.solution.ends, place, line, FIT);
    const stretch = this.stretchOf(line, STRETCH);
    const indent = line === 0 ? shape.indentFirst : shape.indentRest;
    const notch = shape.notch && line < shape.notch.lines ? shape.notch.width : 0;
    // Paragraphs that run to the left have their indents at the right.
    const inside = copy.directions?.base === 1 ? 0 : indent;
    const left = x + inside + notch + (this.shift(fit) - this.hangOf(stretch)) * shape.size;
    this.findSpacing(fit);
    LINE.size = shape.size;
    writeLine(LINE, left, y, page, placing);
    closeStretch(STRETCH);
  }

  flagsOf(line: number): number {
    return this.solution.ends[line * STRIDE + FLAGS]!;
  }

  /** Natural width of a line's content. */
  widthOf(line: number): Points {
    return this.solution.ends[line * STRIDE + WIDTH]! * this.parts.shape.size;
  }

  overfullOf(line: number): Points {
    return this.runsOver ? this.fitOf(line).overfull * this.parts.shape.size : 0;
  }

  notesOf(line: number): readonly NoteId[] {
    return this.parts.copy.hasMarks ? notesOf(this.stretchOf(line)) : NO_NOTES;
  }

  fitOf(line: number): LineFit {
    return lineOf(this.solution.ends, this.parts.place, line);
  }

  /** @param stretch what is filled in and given back. */
  stretchOf(line: number, stretch = openStretch()): Stretch {
    const { copy } = this.parts;
    const { ends } = this.solution;
    const end = line * STRIDE;
    const start = end - STRIDE;
    const fromCut = line === 0 ? 0 : ends[start + CUT]!;
    let fromPiece = line === 0 ? 0 : ends[start + PIECE]!;
    const toPiece = ends[end + PIECE]!;
    if (fromCut === 0) {
      // Spaces vanish at a line's start, and a forced break has done its work.
      if (line > 0 && kindAt(copy, fromPiece) === LINE_BREAK) fromPiece++;
      while (fromPiece < toPiece && isSpace(copy, fromPiece)) fromPiece++;
    }
    stretch.copy = copy;
    stretch.fromPiece = fromPiece;
    stretch.fromCut = fromCut;
    stretch.toPiece = toPiece;
    stretch.toCut = ends[end + CUT]!;
    stretch.divided = (ends[end + FLAGS]! & DIVIDED) !== 0;
    stretch.firstPart = stretch.lastPart = null;
    return stretch;
  }

  offsetsOf(stretch: Stretch): { from: number; to: number } {
    const { copy, fromPiece, fromCut, toPiece, toCut } = stretch;
    const from = startOf(copy, fromPiece, fromCut);
    if (toCut > 0) return { from, to: copy.offsets[toPiece]! + copy.words.sourceOf(valueAt(copy, toPiece), toCut) };
    if (toPiece <= fromPiece || toPiece === 0) return { from, to: from };
    return { from, to: copy.offsets[toPiece - 1]! + lengthAt(copy, toPiece - 1) };
  }

  private shift(fit: LineFit): number {
    const room = Math.max(0, fit.measure - fit.natural);
    const leftward = this.parts.copy.directions?.base === 1;
    switch (this.parts.shape.align) {
      case 'center':
        return room / 2;
      case 'end':
        return leftward ? 0 : room;
      default:
        return leftward && !fit.justified ? room : 0;
    }
  }

  private hangOf({ copy, fromPiece, fromCut }: Stretch): number {
    if (!this.parts.shape.hang || copy.directions?.base === 1 || kindAt(copy, fromPiece) !== WORD) return 0;
    const { words } = copy;
    const word = valueAt(copy, fromPiece);
    return words.isLeftward(word) ? 0 : hangAtStart(words.fount(word), words.unitAt(word, fromCut));
  }

  /** What the breaker reckoned, corrected by what the cut words really measure: how the line gives that is set just now. */
  private findSpacing(fit: LineFit): void {
    const { settings } = this.parts;
    const { spaces, scale } = fit;
    const letters = fit.excess > 0 ? letterGaps(STRETCH) : 0;
    const apart = letters === 0 ? 0 : Math.min(settings.letterspace, fit.excess / letters);
    const error = (fit.justified ? errorOf(STRETCH) * scale : 0) + apart * letters;
    const gaps = error === 0 ? 0 : gapsOf(STRETCH);
    SPACING.factor = 1 + spaces * (spaces < 0 ? settings.shrink : settings.stretch);
    SPACING.more = gaps === 0 ? 0 : -error / gaps;
    SPACING.letters = apart;
    SPACING.scale = scale;
  }
}

// The line that is set just now: a book has tens of thousands, and each is looked at once.
const FIT = openFit();
const STRETCH = openStretch();
const SPACING = { factor: Number.NaN, more: Number.NaN, letters: Number.NaN, scale: Number.NaN };
const LINE = { stretch: STRETCH, spacing: SPACING, size: Number.NaN };

/** A line, which tells what it is asked: most are asked little, and a book has tens of thousands. */
class SetLine implements BrokenLine {
  constructor(
    private readonly paragraph: SetParagraph,
    private readonly ordinal: number,
  ) {}

  get from(): number {
    return this.paragraph.startOf(this.ordinal);
  }

  get to(): number {
    return this.paragraph.offsetsOf(this.paragraph.stretchOf(this.ordinal)).to;
  }

  get hyphenated(): boolean {
    return this.paragraph.isHyphenated(this.ordinal);
  }

  get ratio(): number {
    return this.paragraph.fitOf(this.ordinal).ratio;
  }

  get width(): Points {
    return this.paragraph.widthOf(this.ordinal);
  }

  get overfull(): Points {
    return this.paragraph.overfullOf(this.ordinal);
  }

  get torn(): boolean {
    return (this.paragraph.flagsOf(this.ordinal) & TEAR) !== 0;
  }

  get notes(): readonly NoteId[] {
    return this.paragraph.notesOf(this.ordinal);
  }
}

/** How much wider a line's content is than the breaker took it for: only a part of a word can differ, at its ends. */
function errorOf(stretch: OpenStretch): number {
  const { copy, fromPiece, fromCut, toPiece, toCut } = stretch;
  let error = 0;
  if (fromCut > 0 && fromPiece !== toPiece) {
    const part = partAt(stretch, fromPiece);
    stretch.firstPart = shapedPart(copy, fromPiece, part);
    error += errorAt(copy, fromPiece, part, stretch.firstPart);
  }
  if (toCut > 0) {
    const part = partAt(stretch, toPiece);
    stretch.lastPart = shapedPart(copy, toPiece, part);
    error += errorAt(copy, toPiece, part, stretch.lastPart);
  }
  return error;
}

function shapedPart(copy: Copy, index: number, part: WordPart): readonly Segment[] {
  return partOf(copy.words, valueAt(copy, index), part);
}

/** How much wider a part of a word is than the breaker took it for. */
function errorAt(copy: Copy, index: number, part: WordPart, shaped: readonly Segment[]): number {
  const { words } = copy;
  const word = valueAt(copy, index);
  const fount = words.fount(word);
  const { from, to, hyphen } = part;
  let reckoned = widthUpTo(words, word, to) - widthUpTo(words, word, from);
  if (from > 0) reckoned += measureCut(words, word, from, false).start;
  const width = widthOf(fount, shaped);
  if (to === words.textLengthOf(word)) return width - reckoned;
  reckoned += measureCut(words, word, to, hyphen).end;
  return width - fount.tracking - reckoned;
}

function gapsOf(stretch: Stretch): number {
  let gaps = 0;
  const { copy } = stretch;
  for (let index = stretch.fromPiece; index < endPiece(stretch); index++) {
    if (isSpace(copy, index) && !isFixedSpace(copy, index)) gaps++;
  }
  return gaps;
}

/** Flat-text offset of a stretch's first character. */
function startOf(copy: Copy, piece: number, cut: number): number {
  return offsetOf(copy, piece) + (cut > 0 ? copy.words.sourceOf(valueAt(copy, piece), cut) : 0);
}

function offsetOf(copy: Copy, piece: number): number {
  if (piece < copy.count) return copy.offsets[piece]!;
  return copy.count === 0 ? 0 : copy.offsets[copy.count - 1]! + lengthAt(copy, copy.count - 1);
}

function notesOf(stretch: Stretch): readonly NoteId[] {
  const { copy } = stretch;
  const notes: NoteId[] = [];
  for (let index = stretch.fromPiece; index < endPiece(stretch); index++) {
    const span = kindAt(copy, index) === MARK ? copy.text.spans[spanAt(copy, index)] : null;
    if (span?.kind === 'noteMark') notes.push(span.note);
  }
  return notes.length === 0 ? NO_NOTES : notes;
}

const NO_NOTES: readonly NoteId[] = [];
