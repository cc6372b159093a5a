/**
 * Breaks a display text into the lines that let it be set largest. In: words and a function that measures; out: lines
 * and a size.
 */

export interface FitLimits {
  readonly measure: number;
  readonly largest: number;
  /** Room from the first line's top to the last line's foot. */
  readonly depth: number;
  /** As a multiple of the size. */
  readonly leading: number;
  readonly mostLines: number;
}

export interface LineFit {
  readonly lines: readonly string[];
  readonly size: number;
}

/** A further line is worth it only where the type grows by this share. */
const LINE_COST = 0.1;
/** A word that leans on the next (an article, a preposition) should not stand at a line's end, let alone be the line. */
const LEANING_COST = 0.12;
const LEANING_LENGTH = 3;
/** What such a line costs in the sum that balances the lines. */
const LEANING_BADNESS = 0.6;

/** The best of one to `mostLines` lines. `widthOf` gives thousandths of the size. */
export function fitLines(words: readonly string[], widthOf: (text: string) => number, limits: FitLimits): LineFit {
  if (words.length === 0) return { lines: [], size: limits.largest };
  const widths = new Widths(words, widthOf);
  let best: LineFit | null = null;
  let bestWorth = -1;
  for (let count = 1; count <= Math.min(limits.mostLines, words.length); count++) {
    const lines = balanced(words, widths, count);
    const size = sizeOf(lines, widthOf, limits);
    const leaning = lines.slice(0, -1).filter((line) => leansOnNext(line.split(' ').at(-1) ?? '')).length;
    const worth = size * (1 - LINE_COST * (count - 1)) * (1 - LEANING_COST * leaning);
    if (worth > bestWorth) [best, bestWorth] = [{ lines, size }, worth];
  }
  return best ?? { lines: [words.join(' ')], size: 1 };
}

/** Short words that no punctuation closes. */
function leansOnNext(word: string): boolean {
  return word.length <= LEANING_LENGTH && /[\p{L}\p{N}]$/u.test(word);
}

function sizeOf(lines: readonly string[], widthOf: (text: string) => number, limits: FitLimits): number {
  const widest = Math.max(1, ...lines.map(widthOf));
  const byWidth = (limits.measure * 1000) / widest;
  const byDepth = limits.depth / (1 + (lines.length - 1) * limits.leading);
  return Math.min(limits.largest, byWidth, byDepth);
}

/** Widths of runs of words, measured word by word. */
class Widths {
  private readonly ends: number[] = [0];
  private readonly space: number;

  constructor(words: readonly string[], widthOf: (text: string) => number) {
    this.space = widthOf('n n') - widthOf('nn');
    for (const word of words) this.ends.push((this.ends.at(-1) ?? 0) + widthOf(word));
  }

  /** The width of the words from `from` up to but not including `to`. */
  between(from: number, to: number): number {
    return (this.ends[to] ?? 0) - (this.ends[from] ?? 0) + (to - from - 1) * this.space;
  }
}

/** The division into `count` lines that has the least sum of fourth powers of widths: even, with no line far wider. */
function balanced(words: readonly string[], widths: Widths, count: number): readonly string[] {
  const total = words.length;
  const ideal = widths.between(0, total) / count;
  // cost[line][end]: the least badness of the first `end` words in `line` lines; from[line][end]: where the last begins.
  const cost: number[][] = [[0, ...new Array<number>(total).fill(Number.POSITIVE_INFINITY)]];
  const from: number[][] = [[]];
  for (let line = 1; line <= count; line++) {
    const costs = new Array<number>(total + 1).fill(Number.POSITIVE_INFINITY);
    const starts = new Array<number>(total + 1).fill(0);
    for (let end = line; end <= total; end++) {
      for (let start = line - 1; start < end; start++) {
        const excess = widths.between(start, end) / ideal;
        const leaning = end < total && leansOnNext(words[end - 1] ?? '') ? LEANING_BADNESS : 0;
        const sum = (cost[line - 1]?.[start] ?? Number.POSITIVE_INFINITY) + excess ** 4 + leaning;
        if (sum < (costs[end] ?? 0)) [costs[end], starts[end]] = [sum, start];
      }
    }
    cost.push(costs);
    from.push(starts);
  }
  const lines: string[] = [];
  for (let line = count, end = total; line > 0; line--) {
    const start = from[line]?.[end] ?? 0;
    lines.unshift(words.slice(start, end).join(' '));
    end = start;
  }
  return lines;
}
