/**
 * The search for a paragraph's breaks. In: copy and the widths of the lines; out: the lines of the best solution, or of
 * the best one of each length. It runs in the kernel (`kernel/assembly`): here is what goes in and comes out.
 */
import { ArrayPool } from '#base';
import type { ParagraphKernel } from '../kernel/kernel.ts';
import type { BreakSettings } from '../settings.ts';
import type { Copy } from '../text/copy.ts';
import { loosest } from './demerits.ts';
import type { LineWidths } from './place.ts';
import { STRIDE } from './places.ts';

export interface Solution {
  /** Each line's measure and end: see `places.ts`. */
  readonly ends: Float64Array;
  /** Number of lines. */
  readonly lines: number;
  readonly demerits: number;
  /** Whether the last line is too short to stand alone. */
  readonly endsShort: boolean;
}

export interface Search {
  readonly tolerance: number;
  /** Whether words may be divided. */
  readonly divide: boolean;
  /** Carries on past lines that fit nowhere: the line runs over. */
  readonly rescue: boolean;
  /** Demerits of which no solution may have more; any number where absent. */
  readonly most?: number;
}

/** What may happen to words at lines' ends: nothing but what the text itself offers, division, or tearing as well. */
export type BreakableWords = 'whole' | 'divided' | 'torn';

const WORDS: readonly BreakableWords[] = ['whole', 'divided', 'torn'];

/** Demerits of a line that runs over: more than all the fitting lines of a paragraph can have. */
export const OVERFULL = 1e30;

// Their numbers.
const WHOLE = 0;
const DIVIDED = 1;

/** Words and spaces that fill no more than two lines, where hardly a word is divided. */
const SHORT = 24;

/** In place of a list's number. */
const TOO_LONG = -1;

/** Numbers of a solution before its lines. */
const HEADER = 3;

/** One search at a time. */
export class BreakSearch {
  private kernel: ParagraphKernel | null = null;
  // What the kernel holds.
  private copy: Copy | null = null;
  private hang = false;
  private words: BreakableWords = 'whole';
  private place: LineWidths | null = null;
  private readonly pool = new ArrayPool();

  constructor(private readonly settings: BreakSettings) {}

  /** Takes up a paragraph with the breaks that it may have. */
  open(copy: Copy, { hang, words }: { readonly hang: boolean; readonly words: BreakableWords }): void {
    if (this.copy === copy && this.hang === hang && this.words === words) return;
    const { kernel } = copy.words;
    this.use(kernel);
    const code = WORDS.indexOf(words);
    const known = copy.lists?.[code * 2 + (hang ? 1 : 0)];
    if (known === undefined || !kernel.calls.takeList(known)) build(copy, code, hang);
    this.copy = copy;
    this.hang = hang;
    this.words = words;
  }

  /** Keeps a paragraph's lists, for other measures; false where that has been done. */
  keepLists(copy: Copy, hang: boolean): boolean {
    const { kernel } = copy.words;
    const { calls } = kernel;
    const first = hang ? 1 : 0;
    const known = copy.lists?.[first];
    if (known !== undefined && (known === TOO_LONG || calls.hasList(known))) return false;
    this.use(kernel);
    copy.lists ??= [];
    for (const code of copy.count > SHORT ? [WHOLE, DIVIDED] : [WHOLE]) {
      build(copy, code, hang);
      copy.lists[code * 2 + first] = calls.keepList();
      copy.words.renew();
    }
    return true;
  }

  /** Takes up the list that a kernel has. */
  use(kernel: ParagraphKernel): void {
    this.copy = null;
    if (this.kernel === kernel) return;
    this.kernel = kernel;
    this.place = null;
    const { settings } = this;
    kernel.calls.tune(
      settings.linePenalty,
      settings.shrinkBadness,
      settings.doubleHyphenDemerits,
      settings.tripleHyphenDemerits,
      settings.finalHyphenDemerits,
      settings.fitnessDemerits,
      settings.repeatDemerits,
      settings.shortLastLineDemerits,
    );
    kernel.calls.price(
      settings.stretch,
      settings.shrink,
      settings.hyphenPenalty,
      settings.longWordPenalty,
      settings.properNamePenalty,
      settings.explicitHyphenPenalty,
      settings.compoundPenalty,
      settings.dashPenalty,
      settings.otherPenalty,
    );
  }

  /** The best solution, null where there is none. */
  best(place: LineWidths, search: Search): Solution | null {
    const kernel = this.search(place, search, false) > 0 ? this.kernel : null;
    return kernel && this.solution(kernel, kernel.calls.solutionsAt() >> 3);
  }

  /** The best solution of each number of lines that is wanted, by rising number. */
  bestOfEachLength(
    place: LineWidths,
    search: Search,
    wanted: (lines: number, demerits: number) => boolean = () => true,
  ): readonly Solution[] {
    const found = this.search(place, search, true);
    const { kernel } = this;
    const solutions: Solution[] = [];
    let at = kernel ? kernel.calls.solutionsAt() >> 3 : 0;
    for (let i = 0; kernel && i < found; i++) {
      const lines = kernel.numbers[at + 1]!;
      if (wanted(lines, kernel.numbers[at]!)) solutions.push(this.solution(kernel, at));
      at += HEADER + lines * STRIDE;
    }
    return solutions;
  }

  /** Gives the number of solutions, which the kernel then has. */
  private search(place: LineWidths, { tolerance, divide, rescue, most = Infinity }: Search, each: boolean): number {
    const { kernel } = this;
    if (!kernel) throw new RangeError('no paragraph is open');
    this.take(kernel, place);
    const greatest = Math.min(tolerance, loosest(most, this.settings));
    const found = kernel.calls.search(greatest, most, divide, rescue, each);
    if (found < 0) throw new RangeError('a paragraph must end with a forced break');
    this.renew();
    return found;
  }

  private take(kernel: ParagraphKernel, place: LineWidths): void {
    if (this.place === place) return;
    const { widths, scaling, ragged, lastLineMin } = place;
    const at = kernel.calls.widthsAt(widths.length) >> 3;
    this.renew();
    kernel.numbers.set(widths, at);
    kernel.calls.setPlace(scaling, ragged, lastLineMin);
    this.place = place;
  }

  private renew(): void {
    if (this.copy) this.copy.words.renew();
    else this.kernel?.renew();
  }

  /** The solution at a place in the kernel's memory. */
  private solution({ numbers }: ParagraphKernel, at: number): Solution {
    const lines = numbers[at + 1]!;
    const length = lines * STRIDE;
    const first = at + HEADER;
    const ends = this.pool.numbers(length);
    // Copied one by one: a view of the stretch costs more than the copying.
    for (let each = 0; each < length; each++) ends[each] = numbers[first + each]!;
    return { ends, lines, demerits: numbers[at]!, endsShort: numbers[at + 2] === 1 };
  }
}

/** Makes the list of a paragraph's breaks in its kernel. */
function build(copy: Copy, code: number, hang: boolean): void {
  copy.words.hold(copy);
  copy.words.kernel.calls.build(hang, code, copy.opensWithDash);
  copy.words.renew();
}
