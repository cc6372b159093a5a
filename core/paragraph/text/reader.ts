/** Reads paragraphs: styled text in, copy out. */
import { ArrayPool } from '#base';
import { grown } from '../grown.ts';
import type { MissingCharacter, Span, StyledText } from '../types.ts';
import { type Copy, ENDINGS, HOLDING_SPACE, LINE_BREAK, MARK, NO_END, SPACE, SPACE_END, WORD } from './copy.ts';
import type { Fount, FountRack } from './fount.ts';
import { isRightToLeft, type Levels, levelsOf } from './levels.ts';
import { jointOf, mayBreakAtSpace } from './opportunities.ts';
import { ENDS_PLAINLY, HASH_PRIME, LONE_DASH, STARTS_PLAINLY } from './traits.ts';
import { NONE, WordCase } from './wordCase.ts';

const BLANK = 0x20;
const TAB = 0x09;
const NEW_LINE = 0x0a;
const NO_BREAK_SPACE = 0xa0;

/** Characters without a space after which a word is read as two: no language has one as long, but a spoilt file may. */
const LONGEST_WORD = 4096;

function isLowSurrogate(unit: number): boolean {
  return unit >= 0xdc00 && unit < 0xe000;
}

/** Reads paragraphs, one after the other; keeps its memory. */
export class CopyReader {
  private kinds = new Uint8Array(1024);
  private values = new Int32Array(1024);
  private offsets = new Int32Array(1024);
  private spans = new Int32Array(1024);
  private endings = new Uint8Array(1024);
  private units = new Uint16Array(4096);
  private count = 0;
  private text!: StyledText;
  /** The last word, which what follows may break from or cling to; `NONE` at the start of a line. */
  private context = NONE;
  /** Where the spaces before the text to come begin, -1 where it follows at once. */
  private spacesFrom = -1;
  private held = false;
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
    this.words = new WordCase(rack.founts);
  }

  read(text: StyledText): Copy {
    if (this.words.isFull) this.words = new WordCase(this.rack.founts);
    this.text = text;
    this.count = 0;
    this.hasMarks = false;
    this.levels = findLevels(text);
    this.pieceLevels = [];
    this.level = this.passed = 0;
    this.reset(NONE);
    for (this.current = 0; this.current < text.spans.length; this.current++) this.span(text.spans[this.current]!);
    this.dropTrailingSpaces();
    this.words.shapeNew();
    return this.finish();
  }

  private finish(): Copy {
    const { text, count, levels, pool, words } = this;
    const copy = {
      text,
      count,
      kinds: pool.bytes(count),
      values: pool.words(count),
      offsets: pool.words(count),
      endings: pool.bytes(count),
      spans: text.spans.length > 1 ? pool.words(count) : null,
      words,
      founts: this.rack.founts,
      directions: levels && { pieces: Uint8Array.from(this.pieceLevels.slice(0, count)), base: levels.base },
      missing: words.lacks ? this.findMissing() : NOTHING_MISSING,
      hasMarks: this.hasMarks,
      opensWithDash: this.opensWithDash(),
      hasCovers: text.spans.some((span) => span.kind === 'text' && (span.href !== null || span.style.strike)),
    };
    copy.kinds.set(this.kinds.subarray(0, count));
    copy.values.set(this.values.subarray(0, count));
    copy.offsets.set(this.offsets.subarray(0, count));
    copy.endings.set(this.endings.subarray(0, count));
    copy.spans?.set(this.spans.subarray(0, count));
    return copy;
  }

  private opensWithDash(): boolean {
    const { kinds, values, words, count } = this;
    if (count < 3 || kinds[0] !== WORD || !isSpaceKind(kinds[1]!)) return false;
    return (words.traits[values[0]!]! & LONE_DASH) !== 0;
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

  /** Finds the spaces of a text; the hashes of the words between them are made on the way. */
  private characters(text: string, offset: number, fount: Fount): void {
    const { words } = this;
    if (text.length > this.units.length) this.units = new Uint16Array(text.length * 2);
    const { units } = this;
    const start = words.open(text, units, fount, this.level % 2 === 1);
    let from = 0;
    let hash = start;
    for (let i = 0; i < text.length; i++) {
      const unit = text.charCodeAt(i);
      units[i] = unit;
      if (unit !== BLANK && unit !== NO_BREAK_SPACE && unit !== TAB && unit !== NEW_LINE) {
        hash = Math.imul(hash ^ unit, HASH_PRIME);
        if (i - from < LONGEST_WORD || isLowSurrogate(text.charCodeAt(i + 1))) continue;
        this.word(words.word(from, i + 1, hash), offset + from);
        from = i + 1;
        hash = start;
        continue;
      }
      if (i > from) this.word(words.word(from, i, hash), offset + from);
      this.space(unit === NO_BREAK_SPACE, offset + i, fount);
      from = i + 1;
      hash = start;
    }
    if (text.length > from) this.word(words.word(from, text.length, hash), offset + from);
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

  private word(word: number, offset: number): void {
    this.push(WORD, word, offset, this.endingBefore(word));
    this.reset(word);
  }

  private reset(context: number): void {
    this.context = context;
    this.spacesFrom = -1;
    this.held = false;
  }

  /** How a line could end before a word; where spaces stand between, the first of them takes the answer. */
  private endingBefore(word: number): number {
    if (this.held) return NO_END;
    if (this.spacesFrom < 0) return this.context === NONE ? NO_END : this.jointBefore(word);
    if (this.context === NONE || this.mayBreakBefore(word)) this.endings[this.spacesFrom] = SPACE_END;
    return NO_END;
  }

  private jointBefore(word: number): number {
    const joint = jointOf(this.words.token(this.context), this.words.token(word));
    return joint === null ? NO_END : ENDINGS.indexOf(joint);
  }

  private mayBreakBefore(word: number): boolean {
    const { words, context } = this;
    const after = words.traits[word]!;
    if (after & LONE_DASH) return false;
    if (words.traits[context]! & ENDS_PLAINLY && after & STARTS_PLAINLY) return true;
    return mayBreakAtSpace(words.token(context), words.token(word));
  }

  private space(holds: boolean, offset: number, fount: Fount): void {
    if (this.spacesFrom < 0) this.spacesFrom = this.count;
    if (holds) this.held = true;
    this.push(holds ? HOLDING_SPACE : SPACE, fount.number, offset, NO_END);
  }

  /** A reference clings to what stands before it. */
  private mark({ text, style, offset }: Extract<Span, { kind: 'noteMark' }>): void {
    if (this.levels) this.level = this.levels.units[this.passed]!;
    this.hasMarks = true;
    this.push(MARK, this.words.single(text, this.rack.of(style), this.level % 2 === 1), offset, NO_END);
    this.reset(this.context);
  }

  private lineBreak(offset: number): void {
    this.dropTrailingSpaces();
    this.push(LINE_BREAK, 0, offset, NO_END);
    this.reset(NONE);
  }

  private dropTrailingSpaces(): void {
    while (this.count > 0 && isSpaceKind(this.kinds[this.count - 1]!)) this.count--;
  }

  private push(kind: number, value: number, offset: number, ending: number): void {
    const at = this.count++;
    if (at === this.kinds.length) this.widen();
    this.kinds[at] = kind;
    this.values[at] = value;
    this.offsets[at] = offset;
    this.spans[at] = this.current;
    this.endings[at] = ending;
    if (this.levels) this.pieceLevels[at] = this.level;
  }

  private widen(): void {
    this.kinds = grown(this.kinds, this.count);
    this.values = grown(this.values, this.count);
    this.offsets = grown(this.offsets, this.count);
    this.spans = grown(this.spans, this.count);
    this.endings = grown(this.endings, this.count);
  }

  /** Characters that no face has, each at its first place. */
  private findMissing(): readonly MissingCharacter[] {
    const { words, text } = this;
    const missing: MissingCharacter[] = [];
    for (let index = 0; index < this.count; index++) {
      const kind = this.kinds[index];
      if (kind !== WORD && kind !== MARK) continue;
      const word = this.values[index]!;
      for (const { codePoint, at } of words.rareOf(word)?.missing ?? []) {
        if (missing.some((known) => known.codePoint === codePoint)) continue;
        const offset = this.offsets[index]! + words.sourceOf(word, at);
        missing.push({ codePoint, at: { block: text.block, offset } });
      }
    }
    return missing;
  }
}

const NOTHING_MISSING: readonly MissingCharacter[] = [];

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
