/**
 * A paragraph's copy, ready to be set. In: styled text; out: its pieces in order (words, spaces, note marks, forced
 * breaks), each with its place in the flat text, and whether a line may end there.
 */
import type { NoteId } from '#base';
import type { MissingCharacter, Span, StyledText } from '../types.ts';
import type { Fount, FountRack } from './fount.ts';
import { type CutKind, jointOf, mayBreakAtSpace } from './opportunities.ts';
import { sourceOf, type Word } from './word.ts';

export interface Space {
  readonly kind: 'space';
  readonly fount: Fount;
  readonly text: string;
}

export interface NoteMark {
  readonly kind: 'mark';
  readonly word: Word;
  readonly note: NoteId;
}

export interface LineBreak {
  readonly kind: 'lineBreak';
}

export type Piece = Word | Space | NoteMark | LineBreak;

/** Whether a line may end at a space, or before any other piece, and how such an end looks. */
export type Ending = CutKind | 'space' | null;

export interface Copy {
  readonly text: StyledText;
  readonly pieces: readonly Piece[];
  /** Flat-text offset of each piece. */
  readonly offsets: readonly number[];
  /** Span that each piece comes from. */
  readonly spans: readonly number[];
  readonly endings: readonly Ending[];
  readonly missing: readonly MissingCharacter[];
}

const SPACE = 0x20;
const TAB = 0x09;
const NEW_LINE = 0x0a;
const NO_BREAK_SPACE = 0xa0;
const LINE_BREAK: LineBreak = { kind: 'lineBreak' };

/** Spaces of a fount, one object for all of a kind. */
const spacesOf = new WeakMap<Fount, { readonly breaking: Space; readonly holding: Space }>();

export function readCopy(text: StyledText, rack: FountRack): Copy {
  const reader = new CopyReader(text, rack);
  text.spans.forEach((span, index) => {
    reader.span(span, index);
  });
  return reader.finish();
}

/** The word at a place, also that of a note mark; null for anything else. */
export function wordAt(copy: Copy, index: number): Word | null {
  const piece = copy.pieces[index];
  if (piece?.kind === 'word') return piece;
  return piece?.kind === 'mark' ? piece.word : null;
}

/** Natural width of the space at a place, with what the face kerns between it and its neighbours. */
export function spaceWidth(copy: Copy, index: number, { fount }: Space): number {
  return fount.spaceWidth + (fount.kernsSpaces ? spaceKerning(copy, index, fount) : 0);
}

function spaceKerning(copy: Copy, index: number, fount: Fount): number {
  const before = wordAt(copy, index - 1);
  const after = wordAt(copy, index + 1);
  if (before?.fount !== fount || after?.fount !== fount) return 0;
  return fount.face.spaceKerning(before.text, after.text, fount.setting) * fount.scale;
}

class CopyReader {
  private readonly pieces: Piece[] = [];
  private readonly offsets: number[] = [];
  private readonly spans: number[] = [];
  private readonly endings: Ending[] = [];
  private readonly missing = new Map<number, MissingCharacter>();
  /** The last stretch of text, which what follows may break from or cling to. */
  private context = '';
  /** Where the spaces before the text to come begin, -1 where it follows at once. */
  private spaces = -1;
  private held = false;
  private current = 0;

  constructor(
    private readonly text: StyledText,
    private readonly rack: FountRack,
  ) {}

  span(span: Span, index: number): void {
    this.current = index;
    if (span.kind === 'text') this.read(span.text, span.offset, this.rack.of(span.style));
    else if (span.kind === 'noteMark') this.mark(span);
    else this.lineBreak(span.offset);
  }

  finish(): Copy {
    this.dropTrailingSpaces();
    const { text, pieces, offsets, spans, endings } = this;
    return { text, pieces, offsets, spans, endings, missing: [...this.missing.values()] };
  }

  private read(text: string, offset: number, fount: Fount): void {
    let from = 0;
    for (let i = 0; i <= text.length; i++) {
      const unit = i < text.length ? text.charCodeAt(i) : SPACE;
      if (unit !== SPACE && unit !== NO_BREAK_SPACE && unit !== TAB && unit !== NEW_LINE) continue;
      if (i > from) this.token(from === 0 && i === text.length ? text : text.slice(from, i), offset + from, fount);
      if (i < text.length) this.space(unit === NO_BREAK_SPACE, offset + i, fount);
      from = i + 1;
    }
  }

  private token(token: string, offset: number, fount: Fount): void {
    const word = fount.word(token);
    if (word.missing) this.reportMissing(word, offset);
    this.push(word, offset, this.endingBefore(token));
    this.context = token;
    this.spaces = -1;
    this.held = false;
  }

  /** How a line could end before a token; where spaces stand between, the first of them takes the answer. */
  private endingBefore(token: string): Ending {
    if (this.held) return null;
    if (this.spaces < 0) return jointOf(this.context, token);
    if (mayBreakAtSpace(this.context, token)) this.endings[this.spaces] = 'space';
    return null;
  }

  private space(holds: boolean, offset: number, fount: Fount): void {
    if (this.spaces < 0) this.spaces = this.pieces.length;
    if (holds) this.held = true;
    this.push(spaceOf(fount, holds), offset, null);
  }

  /** A reference clings to what stands before it. */
  private mark(span: Extract<Span, { kind: 'noteMark' }>): void {
    const word = this.rack.of(span.style).word(span.text);
    if (word.missing) this.reportMissing(word, span.offset);
    this.push({ kind: 'mark', word, note: span.note }, span.offset, null);
    this.spaces = -1;
    this.held = false;
  }

  private lineBreak(offset: number): void {
    this.dropTrailingSpaces();
    this.push(LINE_BREAK, offset, null);
    this.context = '';
    this.spaces = -1;
    this.held = false;
  }

  private dropTrailingSpaces(): void {
    while (this.pieces.at(-1)?.kind === 'space') {
      this.pieces.pop();
      this.offsets.pop();
      this.spans.pop();
      this.endings.pop();
    }
  }

  private push(piece: Piece, offset: number, ending: Ending): void {
    this.pieces.push(piece);
    this.offsets.push(offset);
    this.spans.push(this.current);
    this.endings.push(ending);
  }

  private reportMissing(word: Word, offset: number): void {
    for (const { codePoint, at } of word.missing ?? []) {
      if (this.missing.has(codePoint)) continue;
      const place = { block: this.text.block, offset: offset + sourceOf(word, at) };
      this.missing.set(codePoint, { codePoint, at: place });
    }
  }
}

function spaceOf(fount: Fount, holds: boolean): Space {
  let spaces = spacesOf.get(fount);
  if (!spaces) {
    spaces = {
      breaking: { kind: 'space', fount, text: ' ' },
      holding: { kind: 'space', fount, text: '\u00a0' },
    };
    spacesOf.set(fount, spaces);
  }
  return holds ? spaces.holding : spaces.breaking;
}
