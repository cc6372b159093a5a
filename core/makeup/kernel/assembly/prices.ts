/** What pages cost: the figures of `fill/costs.ts`, in the order of its `PRICES`, written once by the host. */

export const LONG: i32 = 0;
export const UNEVEN_SPREADS: i32 = 1;
export const HYPHEN_AT_TURN: i32 = 2;
export const HYPHEN_AT_FOLD: i32 = 3;
export const NOTE_RUNS_ON: i32 = 4;
export const FORCED: i32 = 5;
export const LONE_PAIR: i32 = 6;
export const VARIANT_LEAST: i32 = 7;
export const SHORTER_BY_THE_LINE: i32 = 8;
/** By lines, five of each. */
const SHORT: i32 = 9;
const SCANT_LAST: i32 = 14;
/** By lines, four. */
const UNEQUAL: i32 = 19;
const PRICES: i32 = 23;

const prices: usize = memory.data(PRICES * 8, 8);

/** Where the prices are to be written. */
export function pricesAt(): usize {
  return prices;
}

export function price(which: i32): f64 {
  return load<f64>(prices + ((<usize>which) << 3));
}

/** White lines at the foot of a page that is not the section's last. */
export function priceOfShort(lines: i32): f64 {
  return lines < 5 ? price(SHORT + lines) : price(SHORTER_BY_THE_LINE) * <f64>(lines - 2);
}

/** A section's last page of so many lines. */
export function priceOfLast(lines: i32): f64 {
  return lines < 5 ? price(SCANT_LAST + lines) : 0;
}

/** Facing pages that differ by so many lines. */
export function priceOfUnequal(lines: i32): f64 {
  return price(UNEQUAL + min(lines, 3));
}
