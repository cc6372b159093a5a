/** Reads paragraphs: styled text in, copy out. The characters are read by the kernel (`kernel/assembly/reader.ts`). */
import { ArrayPool } from '#base';
import type { Span, StyledText } from '../types.ts';
import { type Copy, HOLDING_SPACE, kindAt, SPACE, valueAt, WORD, wordAt } from './copy.ts';
import type { Fount, FountRack } from './fount.ts';
import { openCase } from './host.ts';
import { isRightToLeft, type Levels, levelsOf } from './levels.ts';
import { LONE_DASH } from './traits.ts';
import { type HeldPieces, kindOf, NONE, type WordCase } from './wordCase.ts';

/** Reads paragraphs, one after the other. */
export class CopyReader {
  private text!: StyledText;
  private current = 0;
  private hasMarks = false;
  /** Levels of the paragraph's characters, null where all run to the right; those of its pieces; the one to come. */
  private levels: Levels | null = null;
  private pieceLevels: number[] = [];
  private level = 0;
  /** Characters in the spans read. */
  private passed = 0;
  private words: WordCase;
  private readonly pool = new ArrayPool();

  constructor(private readonly rack: FountRack) {
    this.words = openCase(rack.founts);
  }

  /** A paragraph's copy, its words shaped. */
  read(text: StyledText): Copy {
    const copy = this.readAhead(text);
    const { words } = copy;
    words.shapeNew();
    // New words stand after those that are under way, and are done.
    const end = words.underWayUpTo;
    if (end > 0) words.finishUpTo(lastBefore(copy, end) + 1);
    return copy;
  }

  /** A paragraph's copy, whose words are not all shaped: see `WordCase.finishUpTo`. */
  readAhead(text: StyledText): Copy {
    if (this.words.isFull) this.words = openCase(this.rack.founts);
    const { calls } = this.words.kernel;
    this.text = text;
    this.hasMarks = false;
    this.levels = findLevels(text);
    this.pieceLevels = [];
    this.level = this.passed = 0;
    this.words.held = null;
    calls.startCopy();
    for (this.current = 0; this.current < text.spans.length; this.current++) this.span(text.spans[this.current]!);
    calls.dropTrailingSpaces();
    const copy = this.finish(calls.pieceCount());
    this.words.held = copy;
    return copy;
  }

  private finish(count: number): Copy {
    const { text, levels, words, pool } = this;
    words.renew();
    const { calls, words: memory } = words.kernel;
    const wordsAt = (at: number): Int32Array => {
      const column = pool.words(count);
      column.set(memory.subarray(at >> 2, (at >> 2) + count));
      return column;
    };
    const pieces = wordsAt(calls.piecesAt());
    return {
      text,
      count,
      pieces,
      offsets: wordsAt(calls.offsetsAt()),
      spans: text.spans.length > 1 ? wordsAt(calls.spansAt()) : null,
      words,
      founts: this.rack.founts,
      directions: levels && { pieces: Uint8Array.from(this.pieceLevels.slice(0, count)), base: levels.base },
      hasMarks: this.hasMarks,
      opensWithDash: this.opensWithDash({ pieces, count }),
      hasCovers: text.spans.some((span) => span.kind === 'text' && (span.href !== null || span.style.strike)),
      lists: null,
    };
  }

  private opensWithDash(pieces: HeldPieces): boolean {
    if (pieces.count < 3 || kindAt(pieces, 0) !== WORD || !isSpaceKind(kindAt(pieces, 1))) return false;
    return (this.words.traitsOf(valueAt(pieces, 0)) & LONE_DASH) !== 0;
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
        this.words.kernel.calls.readLineBreak(span.offset, this.current);
        this.levelPieces();
        break;
    }
    this.passed += shownBy(span).length;
  }

  private characters(text: string, offset: number, fount: Fount): void {
    const { words } = this;
    words.open(text, fount);
    words.kernel.calls.read(text.length, offset, kindOf(fount, this.level % 2 === 1), this.current);
    this.levelPieces();
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

  /** A reference clings to what stands before it. */
  private mark({ text, style, offset }: Extract<Span, { kind: 'noteMark' }>): void {
    if (this.levels) this.level = this.levels.units[this.passed]!;
    this.hasMarks = true;
    const word = this.words.single(text, this.rack.of(style), this.level % 2 === 1);
    this.words.kernel.calls.readMark(word, offset, this.current);
    this.levelPieces();
  }

  /** Gives the pieces that have come the level that was read; a forced break may have taken the place of spaces. */
  private levelPieces(): void {
    if (!this.levels) return;
    const count = this.words.kernel.calls.pieceCount();
    const from = Math.max(0, Math.min(this.pieceLevels.length, count - 1));
    for (let at = from; at < count; at++) this.pieceLevels[at] = this.level;
    this.pieceLevels.length = count;
  }
}

/** The last of a copy's words that stands before one; `NONE` where all stand after it. */
function lastBefore(copy: Copy, end: number): number {
  let last = NONE;
  for (let index = 0; index < copy.count; index++) {
    const word = wordAt(copy, index);
    if (word < end && word > last) last = word;
  }
  return last;
}

function isSpaceKind(kind: number): boolean {
  return kind === SPACE || kind === HOLDING_SPACE;
}

function findLevels(text: StyledText): Levels | null {
  if (!text.spans.some((span) => span.kind !== 'lineBreak' && isRightToLeft(span.text))) return null;
  const first = text.spans.find((span) => span.kind === 'text');
  return levelsOf(text.spans.map(shownBy).join(''), first?.style.language ?? '');
}

function shownBy(span: Span): string {
  return span.kind === 'lineBreak' ? '\n' : span.text;
}
