/**
 * The search for a paragraph's breaks. In: a list of breaks and the widths of the lines; out: the breaks of the best
 * solution, or of the best one of each length. The search itself runs in the kernel (`kernel/assembly/search.ts`).
 */
import { Kernel } from '../kernel/kernel.ts';
import type { BreakSettings } from '../settings.ts';
import { type BreakList, STRIDE } from './breakList.ts';
import { loosest } from './demerits.ts';
import type { LineWidths } from './place.ts';

export interface Solution {
  /** The break that ends each line. */
  readonly breaks: readonly number[];
  readonly demerits: number;
}

export interface Search {
  readonly tolerance: number;
  /** Whether words may be divided. */
  readonly divide: boolean;
  /** Carries on past lines that fit nowhere: the line runs over. */
  readonly rescue: boolean;
  /** The best solution of each number of lines, not only the best of all. */
  readonly everyLength: boolean;
  /** Demerits of which no solution may have more; any number where absent. */
  readonly most?: number;
}

/** Demerits of a line that runs over: more than all the fitting lines of a paragraph can have. */
export const OVERFULL = 1e30;

/** Bytes of a solution before its breaks. */
const RECORD = 16;

/** One search at a time; its memory serves the next paragraph. */
export class BreakSearch {
  private readonly kernel = new Kernel();
  /** What the kernel holds. */
  private list: BreakList | null = null;
  private place: LineWidths | null = null;

  constructor(private readonly settings: BreakSettings) {
    this.kernel.calls.tune(
      settings.linePenalty,
      settings.shrinkBadness,
      settings.doubleHyphenDemerits,
      settings.tripleHyphenDemerits,
      settings.finalHyphenDemerits,
      settings.fitnessDemerits,
      settings.repeatDemerits,
      settings.shortLastLineDemerits,
    );
  }

  /** The best solutions, by rising number of lines where `everyLength` is asked for; empty where there is none. */
  run(list: BreakList, place: LineWidths, search: Search): readonly Solution[] {
    this.load(list);
    this.take(place);
    const { tolerance, divide, rescue, everyLength, most = Infinity } = search;
    const greatest = Math.min(tolerance, loosest(most, this.settings));
    const { calls } = this.kernel;
    const found = calls.search(list.count, list.slack, greatest, most, divide, rescue, everyLength);
    return this.solutions(found);
  }

  private load(list: BreakList): void {
    if (this.list === list) return;
    const { calls } = this.kernel;
    calls.roomForBreaks(list.count);
    const { bytes, words, numbers } = this.kernel;
    numbers.set(list.sums.subarray(0, list.count * STRIDE), calls.sumsAt() >> 3);
    words.set(list.names, calls.namesAt() >> 2);
    bytes.set(list.flags, calls.flagsAt());
    this.list = list;
  }

  private take(place: LineWidths): void {
    if (this.place === place) return;
    const { widths, scaling, ragged, lastLineMin } = place;
    const { calls } = this.kernel;
    const at = calls.widthsAt(widths.length) >> 3;
    this.kernel.numbers.set(widths, at);
    calls.setPlace(scaling, ragged, lastLineMin);
    this.place = place;
  }

  private solutions(count: number): readonly Solution[] {
    const { words, numbers } = this.kernel;
    const solutions: Solution[] = [];
    let at = this.kernel.calls.solutionsAt();
    for (let i = 0; i < count; i++) {
      const lines = words[(at >> 2) + 2]!;
      const first = (at + RECORD) >> 2;
      const breaks: number[] = [];
      for (let line = 0; line < lines; line++) breaks.push(words[first + line]!);
      solutions.push({ breaks, demerits: numbers[at >> 3]! });
      at += RECORD + ((lines * 4 + 7) & ~7);
    }
    return solutions;
  }
}
