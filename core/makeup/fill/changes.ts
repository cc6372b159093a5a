/**
 * Which blocks of a page take other lengths. In: the lengths that each block of a page can take; out: the cheapest blocks
 * for a change of the page's lines in all (a knapsack over the page).
 */
import type { Stretch, Strip } from './strip.ts';

/** Lines by which the blocks of a page may be longer or shorter in all. */
const MOST_CHANGE = 3;
/**
 * Sums on the way may go a line farther. Blocks change by two lines at most, and of the cheapest blocks for a change no few
 * cancel each other out, so that no sum on the way goes farther than that.
 */
const WIDTH = MOST_CHANGE + 1;
const NONE = Number.POSITIVE_INFINITY;

/** The cheapest of the blocks from one item to another that make a page `change` lines longer. */
export function chosenStretches(strip: Strip, first: number, last: number, change: number): readonly Stretch[] {
  if (change === 0) return [];
  const choices: (readonly Stretch[])[] = [];
  let costs = start();
  for (let item = first; item <= last; item++) {
    const choice = new Array<Stretch>(costs.length);
    costs = withBlock(costs, strip.stretchesOf(item), choice);
    choices.push(choice);
  }
  const chosen: Stretch[] = [];
  let rest = change;
  for (const choice of choices.reverse()) {
    const stretch = choice[rest + WIDTH];
    if (!stretch) continue;
    chosen.push(stretch);
    rest -= stretch.variant.change;
  }
  return chosen;
}

function start(): Float64Array {
  const costs = new Float64Array(2 * WIDTH + 1).fill(NONE);
  costs[WIDTH] = 0;
  return costs;
}

/** The costs with a block more; `choice` is told which length each needs, where it isn't the block's own. */
function withBlock(costs: Float64Array, stretches: readonly Stretch[], choice: Stretch[]): Float64Array {
  const next = costs.slice();
  for (const stretch of stretches) {
    const { change } = stretch.variant;
    for (let from = Math.max(0, -change); from < Math.min(costs.length, costs.length - change); from++) {
      const cost = costs[from]! + stretch.cost;
      if (!(cost < next[from + change]!)) continue;
      next[from + change] = cost;
      choice[from + change] = stretch;
    }
  }
  return next;
}
