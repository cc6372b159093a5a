/**
 * A paragraph's copy, ready to be set. In: styled text; out: its pieces in order (words, spaces, note marks, forced
 * breaks), each with its place in the flat text, and whether a line may end there.
 */
import type { NoteId } from '#base';
import type { MissingCharacter, Span, StyledText } from '../types.ts';
import type { Fount, FountRack } from './fount.ts';
import { isRightToLeft, type Levels, levelsOf } from './levels.ts';
import { type CutKind, jointOf, mayBreakAtSpace } from './opportunities.ts';
import { caseOf, sourceOf, type Word } from './word.ts';

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
export type Ending = CutKind | 'space' | 'none';

/** Endings by their codes. */
export const ENDINGS: readonly Ending[] = ['none', 'space', 'hyphen', 'dash', 'other'];
const NO_END = 0;
const SPACE_END = 1;

export interface Directions {
  readonly pieces: Uint8Array;
  readonly base: number;
}

export interface Copy {
  readonly text: StyledText;
  readonly pieces: readonly Piece[];
  /** Flat-text offset of each piece. */
  readonly offsets: Int32Array;
  /** Span that each piece comes from. */
  readonly spans: Int32Array;
  /** Code of each piece's ending: an index into `ENDINGS`. */
  readonly endings: Uint8Array;
  /** Where something runs from right to left: the level of each piece, and of the paragraph. */
  readonly directions: Directions | null;
  readonly missing: readonly MissingCharacter[];
}

const SPACE = 0x20;
const TAB = 0x09;
const NEW_LINE = 0x0a;
const NO_BREAK_SPACE = 0xa0;
const LINE_BREAK: LineBreak = { kind: 'lineBreak' };

/** Spaces of a fount, one object for all of a kind. */
const spacesOf = new WeakMap<Fount, { readonly breaking: Space; readonly holding: Space }>();

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

/** Reads paragraphs, one after the other; keeps its memory. */
export class CopyReader {
  private readonly pieces: Piece[] = [];
  private offsets = new Int32Array(1024);
  private spans = new Int32Array(1024);
  private endings = new Uint8Array(1024);
  private count = 0;
  private missing: MissingCharacter[] = [];
  private text!: StyledText;
  /** The last stretch of text, which what follows may break from or cling to. */
  private context = '';
  /** Where the spaces before the text to come begin, -1 where it follows at once. */
  private spacesFrom = -1;
  private held = false;
  private current = 0;
  /** Levels of the paragraph's characters, null where all run to the right; those of its pieces; the one to come. */
  private levels: Levels | null = null;
  private pieceLevels: number[] = [];
  private level = 0;
  /** Characters in the spans read. */
  private passed = 0;

  constructor(private readonly rack: FountRack) {}

  read(text: StyledText): Copy {
    this.text = text;
    this.count = 0;
    this.missing = [];
    this.levels = findLevels(text);
    this.pieceLevels = [];
    this.level = this.passed = 0;
    this.reset('');
    for (this.current = 0; this.current < text.spans.length; this.current++) this.span(text.spans[this.current]!);
    this.dropTrailingSpaces();
    const { count, levels } = this;
    return {
      text,
      pieces: this.pieces.slice(0, count),
      offsets: this.offsets.slice(0, count),
      spans: this.spans.slice(0, count),
      endings: this.endings.slice(0, count),
      directions: levels && { pieces: Uint8Array.from(this.pieceLevels.slice(0, count)), base: levels.base },
      missing: this.missing,
    };
  }

  private span(span: Span): void {
    switch (span.kind) {
      case 'text':
        if (this.levels) this.mixed(span.text, span.offset, this.rack.of(span.style), this.levels);
        else this.characters(span.text, span.offset, this.rack.of(span.style));
        break;
      case 'noteMark':
        this.mark(span);
        break;
      case 'lineBreak':
        this.lineBreak(span.offset);
        break;
    }
    this.passed += shownBy(span).length;
  }

  private characters(text: string, offset: number, fount: Fount): void {
    const words = caseOf(fount, this.level % 2 === 1);
    let from = 0;
    for (let i = 0; i <= text.length; i++) {
      const unit = i < text.length ? text.charCodeAt(i) : SPACE;
      if (unit !== SPACE && unit !== NO_BREAK_SPACE && unit !== TAB && unit !== NEW_LINE) continue;
      if (i > from) this.token(words.word(text, from, i), offset + from);
      if (i < text.length) this.space(unit === NO_BREAK_SPACE, offset + i, fount);
      from = i + 1;
    }
  }

  /** Text in two directions: a word never runs in both. */
  private mixed(text: string, offset: number, fount: Fount, { units }: Levels): void {
    let from = 0;
    for (let i = 1; i <= text.length; i++) {
      this.level = units[this.passed + from]!;
      if (i < text.length && units[this.passed + i] === this.level) continue;
      this.characters(text.slice(from, i), offset + from, fount);
      from = i;
    }
  }

  private token(word: Word, offset: number): void {
    if (word.missing) this.reportMissing(word, offset);
    this.push(word, offset, this.endingBefore(word.token));
    this.reset(word.token);
  }

  private reset(context: string): void {
    this.context = context;
    this.spacesFrom = -1;
    this.held = false;
  }

  /** How a line could end before a token; where spaces stand between, the first of them takes the answer. */
  private endingBefore(token: string): number {
    if (this.held) return NO_END;
    if (this.spacesFrom < 0) {
      const joint = jointOf(this.context, token);
      return joint === null ? NO_END : ENDINGS.indexOf(joint);
    }
    if (mayBreakAtSpace(this.context, token)) this.endings[this.spacesFrom] = SPACE_END;
    return NO_END;
  }

  private space(holds: boolean, offset: number, fount: Fount): void {
    if (this.spacesFrom < 0) this.spacesFrom = this.count;
    if (holds) this.held = true;
    this.push(spaceOf(fount, holds), offset, NO_END);
  }

  /** A reference clings to what stands before it. */
  private mark(span: Extract<Span, { kind: 'noteMark' }>): void {
    if (this.levels) this.level = this.levels.units[this.passed]!;
    const word = caseOf(this.rack.of(span.style), this.level % 2 === 1).word(span.text, 0, span.text.length);
    if (word.missing) this.reportMissing(word, span.offset);
    this.push({ kind: 'mark', word, note: span.note }, span.offset, NO_END);
    this.reset(this.context);
  }

  private lineBreak(offset: number): void {
    this.dropTrailingSpaces();
    this.push(LINE_BREAK, offset, NO_END);
    this.reset('');
  }

  private dropTrailingSpaces(): void {
    while (this.count > 0 && this.pieces[this.count - 1]!.kind === 'space') this.count--;
  }

  private push(piece: Piece, offset: number, ending: number): void {
    const at = this.count++;
    if (at === this.offsets.length) this.grow();
    this.pieces[at] = piece;
    this.offsets[at] = offset;
    this.spans[at] = this.current;
    this.endings[at] = ending;
    if (this.levels) this.pieceLevels[at] = this.level;
  }

  private grow(): void {
    const { offsets, spans, endings } = this;
    this.offsets = new Int32Array(offsets.length * 2);
    this.offsets.set(offsets);
    this.spans = new Int32Array(offsets.length * 2);
    this.spans.set(spans);
    this.endings = new Uint8Array(offsets.length * 2);
    this.endings.set(endings);
  }

  private reportMissing(word: Word, offset: number): void {
    for (const { codePoint, at } of word.missing ?? []) {
      if (this.missing.some((known) => known.codePoint === codePoint)) continue;
      this.missing.push({ codePoint, at: { block: this.text.block, offset: offset + sourceOf(word, at) } });
    }
  }
}

function findLevels(text: StyledText): Levels | null {
  if (!text.spans.some((span) => span.kind !== 'lineBreak' && isRightToLeft(span.text))) return null;
  const first = text.spans.find((span) => span.kind === 'text');
  return levelsOf(text.spans.map(shownBy).join(''), first?.style.language ?? '');
}

function shownBy(span: Span): string {
  return span.kind === 'lineBreak' ? '\n' : span.text;
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
