/**
 * From copy to breaks. In: a paragraph's pieces and what is allowed (hyphens, hanging marks, tearing); out: the list of
 * breaks that the breaker weighs, and for each break where it stands in the copy.
 */
import { ArrayPool } from '#base';
import { type BreakList, DIVIDED, FILL, HYPHEN, ItemList, SHORT_END, TEAR } from '../breaker/breakList.ts';
import { grown } from '../grown.ts';
import type { BreakSettings } from '../settings.ts';
import { type Copy, isFixedSpace, isSpace, LINE_BREAK, MARK, NO_END, spaceWidth, WORD, wordAt } from './copy.ts';
import {
  COMPOUND,
  CUT_END,
  CUT_START,
  CUT_STRIDE,
  CUT_WIDTH,
  DASH,
  DIVISION,
  HYPHENED,
  KIND,
  LAST,
  TORN,
} from './cutColumns.ts';
import { cutsIn, tornCutsIn } from './cuts.ts';
import { hangAtEnd, hangAtStart } from './hang.ts';
import { CAPITAL, HYPHEN_END, SENTENCE_END } from './traits.ts';
import { HANG_END, HANG_START, NONE, STRIDE, WIDTH } from './wordCase.ts';

export interface Galley {
  readonly list: BreakList;
  /** The piece at which each break stands: a space, or the piece before or inside which the line ends. */
  readonly pieces: Int32Array;
  /** Offset in the text of the piece's word at which it is cut; 0 where the line ends before the piece. */
  readonly cuts: Int32Array;
}

/** What may happen to words at lines' ends: nothing but what the text itself offers, division, or tearing as well. */
export type GalleyWords = 'whole' | 'divided' | 'torn';

export interface GalleyOptions {
  readonly hang: boolean;
  readonly words: GalleyWords;
}

/**
 * A lone last word of fewer letters is too short (fewer than 4 to 5: common practice), and so is what a divided word
 * brings to the last line (at least 4: The Chicago Manual of Style 2.116).
 */
const LONE_WORD = 5;
/** Price of tearing a word: more than any other break's, less than a line that runs over. */
const TEAR_COST = 1e12;
const HYPHEN_UNIT = 0x2d;
const LETTER = /[\p{L}\p{N}]/u;
const LETTERS = /[\p{L}\p{N}]/gu;

/** Builds galleys; keeps its memory from one to the next. */
export class GalleyBuilder {
  private readonly pool = new ArrayPool();
  private readonly items = new ItemList(this.pool);
  private pieces = new Int32Array(512);
  private cuts = new Int32Array(512);
  private last = 0;
  private copy!: Copy;
  private hangs = false;
  private divides = false;
  private tears = false;

  constructor(private readonly settings: BreakSettings) {}

  build(copy: Copy, { hang, words }: GalleyOptions): Galley {
    this.copy = copy;
    this.hangs = hang;
    this.divides = words !== 'whole';
    this.tears = words === 'torn';
    this.pieces[0] = this.cuts[0] = 0;
    if (hang) this.hangStart(0, 0);
    for (let index = 0; index < copy.count; index++) this.piece(index);
    this.end(copy.count);
    this.markShortEnds();
    return this.finish();
  }

  private finish(): Galley {
    const list = this.items.take();
    const pieces = this.pool.words(list.count);
    pieces.set(this.pieces.subarray(0, list.count));
    const cuts = this.pool.words(list.count);
    cuts.set(this.cuts.subarray(0, list.count));
    return { list, pieces, cuts };
  }

  private piece(index: number): void {
    const { kinds, values, endings, words } = this.copy;
    const ending = endings[index]!;
    switch (kinds[index]!) {
      case WORD:
        if (ending !== NO_END) this.joint(index, ending);
        this.word(values[index]!, index);
        break;
      case MARK:
        this.items.box(words.widthOf(values[index]!));
        break;
      case LINE_BREAK:
        this.end(index);
        break;
      default:
        this.space(index, ending);
    }
  }

  private space(index: number, ending: number): void {
    const { items, settings, copy } = this;
    const width = spaceWidth(copy, index);
    if (isFixedSpace(copy, index)) {
      items.tie(width, 0, 0);
      return;
    }
    const stretch = width * settings.stretch;
    const shrink = width * settings.shrink;
    if (ending === NO_END) {
      if (this.tears) this.note(items.penalty(TEAR_COST, TEAR), index, 0);
      items.tie(width, stretch, shrink);
      return;
    }
    const at = items.glue(width, stretch, shrink);
    if (at < 0) return;
    this.note(at, index, 0);
    const { names } = copy.words;
    const before = wordAt(copy, index - 1);
    const after = wordAt(copy, index + 1);
    if (before !== NONE && copy.words.traits[before]! & HYPHEN_END) items.mark(at, HYPHEN);
    items.name(at, before === NONE ? 0 : names[before]!, after === NONE ? 0 : names[after]!);
    this.changeEnds(at, before, after);
  }

  /** A break where the style changes in the middle of things. */
  private joint(index: number, ending: number): void {
    const at = this.items.penalty(this.costOf(ending), ending === HYPHENED ? HYPHEN : 0);
    this.note(at, index, 0);
    this.changeEnds(at, wordAt(this.copy, index - 1), wordAt(this.copy, index));
  }

  private word(word: number, index: number): void {
    const { items, copy } = this;
    const { cuts, lengths } = copy.words;
    const width = lengths[word * STRIDE + WIDTH]!;
    const first = this.cutsIn(word, index);
    if (first === NONE) {
      items.box(width);
      return;
    }
    let done = 0;
    for (let cut = first; ; cut++) {
      const upTo = cuts.lengths[cut * CUT_STRIDE + CUT_WIDTH]!;
      items.box(upTo - done);
      done = upTo;
      this.cut(word, index, cut);
      if (cuts.kinds[cut]! & LAST) break;
    }
    items.box(width - done);
  }

  private cut(word: number, index: number, cut: number): void {
    const { words } = this.copy;
    const { kinds, places, lengths } = words.cuts;
    const kind = kinds[cut]! & KIND;
    const at = this.items.penalty(this.cutCost(word, index, kinds[cut]!), flagsOf(kind));
    this.note(at, index, places[cut]!);
    this.items.change(at, lengths[cut * CUT_STRIDE + CUT_END]!, lengths[cut * CUT_STRIDE + CUT_START]!);
    if (!this.hangs || words.isLeftward(word)) return;
    const fount = words.fount(word);
    const shown = kind === DIVISION ? HYPHEN_UNIT : words.unitAt(word, places[cut]! - 1);
    this.items.hang(at, hangAtEnd(fount, shown), hangAtStart(fount, words.unitAt(word, places[cut]!)));
  }

  private cutsIn(word: number, index: number): number {
    const { words } = this.copy;
    if (!this.divides) return cutsIn(words, word, false);
    const divide = !this.touchesLetters(word, index);
    return this.tears ? tornCutsIn(words, word, divide) : cutsIn(words, word, divide);
  }

  /** Whether a word goes on in another style: its parts by themselves are no words to divide. */
  private touchesLetters(word: number, index: number): boolean {
    const { kinds, values, words, count } = this.copy;
    if (index > 0 && kinds[index - 1] === WORD) {
      const before = words.textOf(values[index - 1]!);
      if (LETTER.test(before.at(-1)!) && LETTER.test(words.textOf(word)[0] ?? '')) return true;
    }
    if (index + 1 >= count || kinds[index + 1] !== WORD) return false;
    const after = words.textOf(values[index + 1]!);
    return LETTER.test(after[0] ?? '') && LETTER.test(words.textOf(word).at(-1) ?? '');
  }

  private cutCost(word: number, index: number, kind: number): number {
    const { settings } = this;
    if ((kind & KIND) === TORN) return TEAR_COST;
    if ((kind & KIND) !== DIVISION) return this.costOf(kind & KIND);
    if (kind & COMPOUND) return settings.compoundPenalty;
    const { words } = this.copy;
    const fount = words.fount(word);
    if (words.traits[word]! & CAPITAL && fount.capitalsAreNames && !this.startsSentence(index)) {
      return settings.properNamePenalty;
    }
    return fount.hasLongWords ? settings.longWordPenalty : settings.hyphenPenalty;
  }

  private startsSentence(index: number): boolean {
    const before = wordAt(this.copy, index - 2);
    return before === NONE || (this.copy.words.traits[before]! & SENTENCE_END) !== 0;
  }

  private costOf(ending: number): number {
    const { settings } = this;
    if (ending === HYPHENED) return settings.explicitHyphenPenalty;
    return ending === DASH ? settings.dashPenalty : settings.otherPenalty;
  }

  /** What the marks and letters around a break that stands between pieces change in its lines. */
  private changeEnds(at: number, before: number, after: number): void {
    const { words } = this.copy;
    const tracking = before === NONE ? 0 : words.fount(before).tracking;
    if (tracking !== 0) this.items.change(at, -tracking, 0);
    if (!this.hangs) return;
    const end = before === NONE ? 0 : words.lengths[before * STRIDE + HANG_END]!;
    const start = after === NONE ? 0 : words.lengths[after * STRIDE + HANG_START]!;
    if (end !== 0 || start !== 0) this.items.hang(at, end, start);
  }

  private hangStart(at: number, index: number): void {
    const word = wordAt(this.copy, index);
    if (word !== NONE) this.items.hang(at, 0, this.copy.words.lengths[word * STRIDE + HANG_START]!);
  }

  /** The paragraph's end, or a forced break. */
  private end(index: number): void {
    this.items.tie(0, FILL, 0);
    const at = this.items.forcedBreak();
    this.note(at, index, 0);
    this.changeEnds(at, wordAt(this.copy, index - 1), wordAt(this.copy, index));
    if (this.hangs) this.hangStart(at, index + 1);
  }

  private note(at: number, piece: number, cut: number): void {
    if (at >= this.pieces.length) {
      this.pieces = grown(this.pieces, at + 1);
      this.cuts = grown(this.cuts, at + 1);
    }
    this.pieces[at] = piece;
    this.cuts[at] = cut;
    this.last = at;
  }

  /** Marks the breaks that would leave too little for the last line. */
  private markShortEnds(): void {
    for (let at = this.last - 1; at > 0; at--) {
      const piece = this.pieces[at]!;
      const letters = lettersFrom(this.copy, piece, this.cuts[at]!);
      if (letters < LONE_WORD) this.items.mark(at, SHORT_END);
      if (isSpace(this.copy, piece) || letters >= LONE_WORD) return;
    }
  }
}

/** Letters from a place to the end of the copy. */
function lettersFrom({ kinds, values, words, count }: Copy, piece: number, cut: number): number {
  let letters = 0;
  for (let index = piece; index < count; index++) {
    if (kinds[index] !== WORD) continue;
    const text = words.textOf(values[index]!);
    letters += text.slice(index === piece ? cut : 0).match(LETTERS)?.length ?? 0;
  }
  return letters;
}

function flagsOf(kind: number): number {
  switch (kind) {
    case TORN:
      return TEAR;
    case DIVISION:
      return HYPHEN | DIVIDED;
    case HYPHENED:
      return HYPHEN;
    default:
      return 0;
  }
}
