/** A paragraph whose breaks are chosen. In: copy, galley and solution; out: its lines, and each line set on a page. */
import type { NoteId, Points } from '#base';
import type { PageBuilder } from '#page';
import { DIVIDED, HYPHEN, TEAR } from './breaker/breakList.ts';
import { type LineFit, lineOf } from './breaker/line.ts';
import type { LineWidths } from './breaker/place.ts';
import type { Solution } from './breaker/search.ts';
import type { BreakSettings } from './settings.ts';
import type { Copy } from './text/copy.ts';
import { divisionsOf, ownCutsOf, partWidth, tearsOf, widthUpTo } from './text/cuts.ts';
import type { Galley } from './text/galley.ts';
import { hangAtStart } from './text/hang.ts';
import { endPiece, LineWriter, partAt, type Spacing, type Stretch } from './text/setLine.ts';
import { type Cut, sourceOf, type Word } from './text/word.ts';
import type { BrokenLine, BrokenParagraph, MissingCharacter, ParagraphShape, Placing } from './types.ts';

export interface SetParts {
  readonly copy: Copy;
  readonly shape: ParagraphShape;
  readonly place: LineWidths;
  readonly galley: Galley;
  readonly solution: Solution;
  readonly settings: BreakSettings;
}

export class SetParagraph implements BrokenParagraph {
  readonly block: string;
  readonly lines: readonly BrokenLine[];
  readonly demerits: number;
  readonly missing: readonly MissingCharacter[];

  constructor(private readonly parts: SetParts) {
    const { copy, solution } = parts;
    this.block = copy.text.block;
    this.demerits = solution.demerits;
    this.missing = copy.missing;
    this.lines = solution.breaks.map((_, line) => this.describe(line));
  }

  place(line: number, x: Points, y: Points, page: PageBuilder, placing: Placing = {}): void {
    if (line < 0 || line >= this.lines.length) throw new RangeError(`no line ${line} among ${this.lines.length}`);
    const { copy, shape } = this.parts;
    const fit = this.fitOf(line);
    const stretch = this.stretchOf(line);
    const indent = line === 0 ? shape.indentFirst : shape.indentRest;
    const notch = shape.notch && line < shape.notch.lines ? shape.notch.width : 0;
    // Paragraphs that run to the left have their indents at the right.
    const inside = copy.directions?.base === 1 ? 0 : indent;
    const left = x + inside + notch + (this.shift(fit) - this.hangOf(stretch)) * shape.size;
    const spacing = this.spacingOf(fit, stretch);
    new LineWriter({ stretch, spacing, size: shape.size, page, placing, x: left, y }).write();
  }

  private describe(line: number): BrokenLine {
    const { galley, solution, shape } = this.parts;
    const fit = this.fitOf(line);
    const stretch = this.stretchOf(line);
    const flags = galley.list.flags[solution.breaks[line]!]!;
    const { from, to } = this.offsetsOf(stretch);
    return {
      from,
      to,
      hyphenated: (flags & HYPHEN) !== 0,
      ratio: fit.ratio,
      width: fit.natural * shape.size,
      overfull: fit.overfull * shape.size,
      torn: (flags & TEAR) !== 0,
      notes: notesOf(stretch),
    };
  }

  private fitOf(line: number): LineFit {
    const { galley, place, solution } = this.parts;
    const start = line === 0 ? 0 : solution.breaks[line - 1]!;
    return lineOf({ list: galley.list, place, ordinal: line, start, end: solution.breaks[line]! });
  }

  private stretchOf(line: number): Stretch {
    const { copy, galley, solution } = this.parts;
    const start = line === 0 ? 0 : solution.breaks[line - 1]!;
    const end = solution.breaks[line]!;
    const fromCut = galley.cuts[start]!;
    let fromPiece = galley.pieces[start]!;
    const toPiece = galley.pieces[end]!;
    if (fromCut === 0) {
      // Spaces vanish at a line's start, and a forced break has done its work.
      if (start > 0 && copy.pieces[fromPiece]?.kind === 'lineBreak') fromPiece++;
      while (fromPiece < toPiece && copy.pieces[fromPiece]!.kind === 'space') fromPiece++;
    }
    const toCut = galley.cuts[end]!;
    const divided = (galley.list.flags[end]! & DIVIDED) !== 0;
    return { copy, fromPiece, fromCut, toPiece, toCut, divided };
  }

  private offsetsOf(stretch: Stretch): { from: number; to: number } {
    const { copy, fromPiece, fromCut, toPiece, toCut } = stretch;
    const start = copy.pieces[fromPiece];
    const from = offsetOf(copy, fromPiece) + (start?.kind === 'word' ? sourceOf(start, fromCut) : 0);
    if (toCut > 0) return { from, to: copy.offsets[toPiece]! + sourceOf(copy.pieces[toPiece] as Word, toCut) };
    const last = copy.pieces[toPiece - 1];
    if (toPiece <= fromPiece || !last) return { from, to: from };
    return { from, to: copy.offsets[toPiece - 1]! + (last.kind === 'word' ? last.length : 1) };
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

  private hangOf(stretch: Stretch): number {
    if (!this.parts.shape.hang || this.parts.copy.directions?.base === 1) return 0;
    const piece = stretch.copy.pieces[stretch.fromPiece];
    return piece?.kind === 'word' ? hangAtStart(piece, piece.text.charCodeAt(stretch.fromCut)) : 0;
  }

  /** What the breaker reckoned, corrected by what the cut words really measure. */
  private spacingOf(fit: LineFit, stretch: Stretch): Spacing {
    const { settings } = this.parts;
    const { spaces, scale } = fit;
    const factor = 1 + spaces * (spaces < 0 ? settings.shrink : settings.stretch);
    const error = fit.justified ? this.errorOf(stretch) * scale : 0;
    const gaps = error === 0 ? 0 : gapsOf(stretch);
    const each = gaps === 0 ? 0 : error / gaps;
    return { factor, more: -each, scale };
  }

  /** How much wider the line's content is than the breaker took it for. */
  private errorOf(stretch: Stretch): number {
    if (stretch.fromCut === 0 && stretch.toCut === 0) return 0;
    let width = 0;
    for (let index = stretch.fromPiece; index < endPiece(stretch); index++) {
      width += errorAt(stretch, index);
    }
    return width;
  }
}

/** The same for one piece: only a part of a word can differ. */
function errorAt(stretch: Stretch, index: number): number {
  const word = stretch.copy.pieces[index]!;
  if (word.kind !== 'word') return 0;
  const { from, to, hyphen } = partAt(stretch, index, word);
  if (from === 0 && to === word.text.length) return 0;
  let reckoned = widthUpTo(word, to) - widthUpTo(word, from);
  if (from > 0) reckoned += cutOf(word, from)?.start ?? 0;
  if (to === word.text.length) return partWidth(word, from, to, false) + word.fount.tracking - reckoned;
  reckoned += (hyphen ? divisionsOf(word).find((cut) => cut.at === to) : cutOf(word, to))?.end ?? 0;
  return partWidth(word, from, to, hyphen) - reckoned;
}

/** The cut at a place, of whatever kind. */
function cutOf(word: Word, at: number): Cut | undefined {
  const here = (cut: Cut) => cut.at === at;
  return ownCutsOf(word).find(here) ?? divisionsOf(word).find(here) ?? tearsOf(word).find(here);
}

function gapsOf(stretch: Stretch): number {
  let gaps = 0;
  for (let index = stretch.fromPiece; index < endPiece(stretch); index++) {
    if (stretch.copy.pieces[index]!.kind === 'space') gaps++;
  }
  return gaps;
}

function offsetOf(copy: Copy, piece: number): number {
  const known = copy.offsets[piece];
  if (known !== undefined) return known;
  const last = copy.pieces.at(-1);
  if (!last) return 0;
  return copy.offsets[copy.offsets.length - 1]! + (last.kind === 'word' ? last.length : 1);
}

function notesOf(stretch: Stretch): readonly NoteId[] {
  const notes: NoteId[] = [];
  for (let index = stretch.fromPiece; index < endPiece(stretch); index++) {
    const piece = stretch.copy.pieces[index]!;
    if (piece.kind === 'mark') notes.push(piece.note);
  }
  return notes.length === 0 ? NO_NOTES : notes;
}

const NO_NOTES: readonly NoteId[] = [];
