/**
 * From copy to breaks. In: a paragraph's pieces and what is allowed (hyphens, hanging marks, tearing); out: the list of
 * breaks that the breaker weighs, and for each break where it stands in the copy.
 */
import { type BreakList, DIVIDED, FILL, HYPHEN, ItemList, SHORT_END, TEAR } from '../breaker/breakList.ts';
import type { BreakSettings } from '../settings.ts';
import { type Copy, ENDINGS, type Ending, type Space, spaceWidth, wordAt } from './copy.ts';
import { divisionsOf, ownCutsOf, tearsOf } from './cuts.ts';
import { hangAtEnd, hangAtStart } from './hang.ts';
import type { Cut, Word } from './word.ts';

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
const SENTENCE_END = /[.?!:\u2026][\u2019\u201d"')\]]*$/;

/** Builds galleys; keeps its memory from one to the next. */
export class GalleyBuilder {
  private readonly items = new ItemList();
  private pieces = new Int32Array(512);
  private cuts = new Int32Array(512);
  private last = 0;
  private copy!: Copy;
  private options!: GalleyOptions;
  private tears = false;

  constructor(private readonly settings: BreakSettings) {}

  build(copy: Copy, options: GalleyOptions): Galley {
    this.copy = copy;
    this.options = options;
    this.tears = options.words === 'torn';
    this.pieces[0] = this.cuts[0] = 0;
    if (options.hang) this.hangStart(0, 0);
    for (let index = 0; index < copy.pieces.length; index++) this.piece(index);
    this.end(copy.pieces.length);
    this.markShortEnds();
    const list = this.items.take();
    return { list, pieces: this.pieces.slice(0, list.count), cuts: this.cuts.slice(0, list.count) };
  }

  private piece(index: number): void {
    const piece = this.copy.pieces[index]!;
    const ending = ENDINGS[this.copy.endings[index]!]!;
    switch (piece.kind) {
      case 'space':
        this.space(piece, index, ending);
        break;
      case 'lineBreak':
        this.end(index);
        break;
      case 'mark':
        this.items.box(piece.word.width);
        break;
      case 'word':
        if (ending !== 'none') this.joint(index, ending);
        this.word(piece, index);
        break;
    }
  }

  private space(space: Space, index: number, ending: Ending): void {
    const { items, settings } = this;
    const width = spaceWidth(this.copy, index, space);
    const stretch = width * settings.stretch;
    const shrink = width * settings.shrink;
    if (ending === 'none') {
      if (this.tears) this.note(items.penalty(TEAR_COST, TEAR), index, 0);
      items.tie(width, stretch, shrink);
      return;
    }
    const at = items.glue(width, stretch, shrink);
    if (at < 0) return;
    this.note(at, index, 0);
    const before = wordAt(this.copy, index - 1);
    const after = wordAt(this.copy, index + 1);
    items.name(at, before?.name ?? 0, after?.name ?? 0);
    this.changeEnds(at, index, this.trackingBefore(index));
  }

  /** A break where the style changes in the middle of things. */
  private joint(index: number, ending: Ending): void {
    const at = this.items.penalty(this.costOf(ending), ending === 'hyphen' ? HYPHEN : 0);
    this.note(at, index, 0);
    this.changeEnds(at, index, this.trackingBefore(index));
  }

  private word(word: Word, index: number): void {
    const cuts = this.cutsOf(word, index);
    if (cuts.length === 0 && !this.tears) {
      this.items.box(word.width);
      return;
    }
    let width = 0;
    for (const cut of this.tears ? withTears(word, cuts) : cuts) {
      this.items.box(cut.width - width);
      width = cut.width;
      this.cut(word, index, cut);
    }
    this.items.box(word.width - width);
  }

  private cut(word: Word, index: number, cut: Cut): void {
    const flags = flagsOf(cut.kind);
    const at = this.items.penalty(this.cutCost(word, index, cut), flags);
    this.note(at, index, cut.at);
    this.items.change(at, cut.end, cut.start);
    if (!this.options.hang) return;
    const shown = cut.kind === 'divided' ? HYPHEN_UNIT : word.text.charCodeAt(cut.at - 1);
    this.items.hang(at, hangAtEnd(word, shown), hangAtStart(word, word.text.charCodeAt(cut.at)));
  }

  private cutsOf(word: Word, index: number): readonly Cut[] {
    const own = word.cuts ?? ownCutsOf(word);
    if (this.options.words === 'whole') return own;
    const divisions = word.divisions ?? divisionsOf(word);
    if (divisions.length === 0 || this.touchesLetters(word, index)) return own;
    return own.length === 0 ? divisions : [...own, ...divisions].sort((a, b) => a.at - b.at);
  }

  /** Whether a word goes on in another style: its parts by themselves are no words to divide. */
  private touchesLetters(word: Word, index: number): boolean {
    const before = this.copy.pieces[index - 1];
    if (before?.kind === 'word' && LETTER.test(before.text.at(-1)!) && LETTER.test(word.text[0] ?? '')) return true;
    const after = this.copy.pieces[index + 1];
    return after?.kind === 'word' && LETTER.test(after.text[0] ?? '') && LETTER.test(word.text.at(-1) ?? '');
  }

  private cutCost(word: Word, index: number, cut: Cut): number {
    const { settings } = this;
    if (cut.kind === 'torn') return TEAR_COST;
    if (cut.kind !== 'divided') return this.costOf(cut.kind);
    if (cut.compound) return settings.compoundPenalty;
    return word.capital && !this.startsSentence(index) ? settings.properNamePenalty : settings.hyphenPenalty;
  }

  private startsSentence(index: number): boolean {
    const before = wordAt(this.copy, index - 2);
    return before === null || SENTENCE_END.test(before.text);
  }

  private costOf(ending: Ending): number {
    const { settings } = this;
    switch (ending) {
      case 'hyphen':
        return settings.explicitHyphenPenalty;
      case 'dash':
        return settings.dashPenalty;
      case 'other':
        return settings.otherPenalty;
      case 'space':
      case 'none':
        return 0;
    }
  }

  /** What the marks and letters around a break that stands between pieces change in its lines. */
  private changeEnds(at: number, index: number, tracking: number): void {
    if (tracking !== 0) this.items.change(at, -tracking, 0);
    if (!this.options.hang) return;
    const before = wordAt(this.copy, index - 1);
    const after = wordAt(this.copy, this.copy.pieces[index]?.kind === 'space' ? index + 1 : index);
    const end = before ? hangAtEnd(before, before.text.charCodeAt(before.text.length - 1)) : 0;
    this.items.hang(at, end, after ? hangAtStart(after, after.text.charCodeAt(0)) : 0);
  }

  private hangStart(at: number, index: number): void {
    const word = wordAt(this.copy, index);
    if (word) this.items.hang(at, 0, hangAtStart(word, word.text.charCodeAt(0)));
  }

  /** The paragraph's end, or a forced break. */
  private end(index: number): void {
    this.items.tie(0, FILL, 0);
    const at = this.items.forcedBreak();
    this.note(at, index, 0);
    this.changeEnds(at, index, this.trackingBefore(index));
    if (this.options.hang) this.hangStart(at, index + 1);
  }

  private trackingBefore(index: number): number {
    return wordAt(this.copy, index - 1)?.fount.tracking ?? 0;
  }

  private note(at: number, piece: number, cut: number): void {
    if (at >= this.pieces.length) this.grow();
    this.pieces[at] = piece;
    this.cuts[at] = cut;
    this.last = at;
  }

  private grow(): void {
    const { pieces, cuts } = this;
    this.pieces = new Int32Array(pieces.length * 2);
    this.pieces.set(pieces);
    this.cuts = new Int32Array(pieces.length * 2);
    this.cuts.set(cuts);
  }

  /** Marks the breaks that would leave too little for the last line. */
  private markShortEnds(): void {
    for (let at = this.last - 1; at > 0; at--) {
      const piece = this.pieces[at]!;
      const letters = lettersFrom(this.copy, piece, this.cuts[at]!);
      const space = this.copy.pieces[piece]!.kind === 'space';
      if (letters < LONE_WORD) this.items.mark(at, SHORT_END);
      if (space || letters >= LONE_WORD) return;
    }
  }
}

/** Letters from a place to the end of the copy. */
function lettersFrom(copy: Copy, piece: number, cut: number): number {
  let letters = 0;
  for (let index = piece; index < copy.pieces.length; index++) {
    const each = copy.pieces[index]!;
    if (each.kind === 'word') letters += each.text.slice(index === piece ? cut : 0).match(LETTERS)?.length ?? 0;
  }
  return letters;
}

function flagsOf(kind: Cut['kind']): number {
  switch (kind) {
    case 'torn':
      return TEAR;
    case 'divided':
      return HYPHEN | DIVIDED;
    case 'hyphen':
      return HYPHEN;
    default:
      return 0;
  }
}

function withTears(word: Word, cuts: readonly Cut[]): readonly Cut[] {
  const taken = new Set(cuts.map((cut) => cut.at));
  return [...cuts, ...tearsOf(word).filter(({ at }) => !taken.has(at))].sort((a, b) => a.at - b.at);
}
