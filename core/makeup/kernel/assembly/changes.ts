/**
 * The least costs at which the blocks that lie whole on a growing page make it some lines longer or shorter: a knapsack
 * over the page (`fill/changes.ts` finds the blocks that it takes).
 */
import { firstStretchOf, stretchOf } from './rows';

/** Lines by which the blocks of a page may be longer or shorter in all. */
const MOST_CHANGE: i32 = 3;
/** Sums on the way may go a line farther: see `fill/changes.ts`. */
const WIDTH: i32 = MOST_CHANGE + 1;
const SUMS: i32 = 2 * WIDTH + 1;

/** Greatest changes that can be had so far. */
export let longer: i32 = 0;
export let shorter: i32 = 0;
let any: bool = false;
const costs: usize = memory.data(SUMS * 8, 8);
const next: usize = memory.data(SUMS * 8, 8);

export function startChanges(): void {
  longer = shorter = 0;
  any = false;
}

/** Takes a block in, with so many other lengths. */
export function addChanges(item: i32, stretches: i32): void {
  if (stretches === 0) return;
  if (!any) {
    for (let sum = 0; sum < SUMS; sum++) store<f64>(costs + ((<usize>sum) << 3), sum === WIDTH ? 0 : Infinity);
    any = true;
  }
  memory.copy(next, costs, SUMS * 8);
  const first = firstStretchOf(item);
  for (let stretch = first; stretch < first + stretches; stretch++) takeStretch(stretch);
  memory.copy(costs, next, SUMS * 8);
  longer = min(MOST_CHANGE, longer + mostLonger(item, stretches));
  shorter = min(MOST_CHANGE, shorter + mostShorter(item, stretches));
}

function takeStretch(stretch: i32): void {
  const change = stretchOf(stretch).change;
  const own = stretchOf(stretch).cost;
  for (let from = max(0, -change); from < min(SUMS, SUMS - change); from++) {
    const cost = load<f64>(costs + ((<usize>from) << 3)) + own;
    const to = next + ((<usize>(from + change)) << 3);
    if (cost < load<f64>(to)) store<f64>(to, cost);
  }
}

export function costOfChange(change: i32): f64 {
  if (!any) return change === 0 ? 0 : Infinity;
  return load<f64>(costs + ((<usize>(change + WIDTH)) << 3));
}

/** Lines that a block can be made longer by. */
function mostLonger(item: i32, stretches: i32): i32 {
  const first = firstStretchOf(item);
  let most = 0;
  for (let stretch = first; stretch < first + stretches; stretch++) most = max(most, stretchOf(stretch).change);
  return most;
}

/** Lines that a block can be made shorter by. */
export function mostShorter(item: i32, stretches: i32): i32 {
  const first = firstStretchOf(item);
  let most = 0;
  for (let stretch = first; stretch < first + stretches; stretch++) most = max(most, -stretchOf(stretch).change);
  return most;
}
