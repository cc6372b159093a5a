/** What a kernel knows of founts and of hyphenation. In: founts; out: their records in its memory. */
import type { Hyphenator } from '#type';
import type { ParagraphKernel, Pointer } from '../kernel/kernel.ts';
import type { Fount } from './fount.ts';
import { HANGING_MARKS, hangAtEnd, hangAtStart } from './hang.ts';

// Flags of a fount (`kernel/assembly/founts.ts`).
const PLAIN = 1;
const JOINTS = 2;
const KERNS_SPACES = 4;
const NAMES = 8;
const LONG_WORDS = 16;

/** First of the tables of a language's patterns (`kernel/assembly/hyphenate.ts`), in numbers of 32 bits. */
const PATTERN_TABLES = 6;

/** Marks that a fount's record has room for, besides none. */
const MOST_MARKS = 63;

export class KnownFounts {
  private readonly patterns = new Map<Hyphenator, Pointer>();

  constructor(private readonly kernel: ParagraphKernel) {
    if (HANGING_MARKS.length > MOST_MARKS) throw new RangeError(`${HANGING_MARKS.length} marks hang: too many`);
    const marks = kernel.calls.marksAt();
    kernel.look();
    HANGING_MARKS.forEach((unit, index) => {
      kernel.bytes[marks + unit] = index + 1;
    });
  }

  /** Tells the kernel what the next fount is. Things may have moved then. */
  introduce(fount: Fount): void {
    const { kernel } = this;
    const { face, style, setting, scale, tracking, spaceWidth } = fount;
    const flags =
      (tracking === 0 && style.letterCase === 'asTyped' ? PLAIN : 0) |
      (fount.hasJoints ? JOINTS : 0) |
      (fount.kernsSpaces ? KERNS_SPACES : 0) |
      (fount.capitalsAreNames ? NAMES : 0) |
      (fount.hasLongWords ? LONG_WORDS : 0);
    const hyphenWidth = face.shape('-', setting).width * scale + tracking;
    const patterns = fount.hyphenator ? this.patternsOf(fount.hyphenator) : 0;
    const hangs = kernel.calls.addFount(spaceWidth, scale, tracking, hyphenWidth, flags, patterns) >> 3;
    kernel.look();
    HANGING_MARKS.forEach((unit, index) => {
      kernel.numbers[hangs + (index + 1) * 2] = hangAtStart(fount, unit);
      kernel.numbers[hangs + (index + 1) * 2 + 1] = hangAtEnd(fount, unit);
    });
  }

  /** Where the kernel has what a hyphenator goes by. */
  private patternsOf(hyphenator: Hyphenator): Pointer {
    const known = this.patterns.get(hyphenator);
    if (known !== undefined) return known;
    const { kernel } = this;
    const { before, after, end, numbers, cases, trie, exceptions } = hyphenator.tables;
    const { width, branches, next, values, levels } = trie;
    const record = kernel.calls.addPatterns(
      before,
      after,
      end,
      width,
      branches,
      values.length,
      levels.length,
      exceptions.length,
    );
    kernel.look();
    const tables = (record >> 2) + PATTERN_TABLES;
    kernel.bytes.set(numbers, kernel.words[tables]!);
    kernel.bytes.set(cases, kernel.words[tables + 1]!);
    kernel.words.set(next, kernel.words[tables + 2]! >> 2);
    kernel.words.set(values, kernel.words[tables + 3]! >> 2);
    kernel.bytes.set(levels, kernel.words[tables + 4]!);
    kernel.words.set(exceptions, kernel.words[tables + 5]! >> 2);
    this.patterns.set(hyphenator, record);
    return record;
  }
}
