/**
 * The list of breaks at hand, as columns of numbers in the module's memory: the very columns of `BreakList`, written from
 * outside or by the galley builder.
 */

import { widened } from './room';

/** One break's running sums; the fields stand in the order of `BreakList.sums`. */
@unmanaged
export class Sums {
  before: f64;
  stretchBefore: f64;
  shrinkBefore: f64;
  boxesBefore: f64;
  after: f64;
  stretchAfter: f64;
  shrinkAfter: f64;
  boxesAfter: f64;
  cost: f64;
}

export const HYPHEN: u8 = 1;
export const FORCED: u8 = 2;
export const SHORT_END: u8 = 4;
export const DIVIDED: u8 = 16;

/** Stretch that fills any line. */
export const FILL: f64 = 1e7;

let room: i32 = 0;
let sums: usize = 0;
let flags: usize = 0;
let names: usize = 0;

/** Sees to it that so many breaks have room; what is there stays. */
export function roomForBreaks(count: i32): void {
  if (count <= room) return;
  room = max(count, room * 2);
  sums = widened(sums, <usize>room * offsetof<Sums>());
  flags = widened(flags, room);
  names = widened(names, (<usize>room) << 3);
}

/** Where the columns begin. They move when room is made. */
export function sumsAt(): usize {
  return sums;
}

export function flagsAt(): usize {
  return flags;
}

export function namesAt(): usize {
  return names;
}

export function sumsOf(at: i32): Sums {
  return changetype<Sums>(sums + <usize>at * offsetof<Sums>());
}

export function flagOf(at: i32): u8 {
  return load<u8>(flags + at);
}

/** Name of the word that ends the line before a break. */
export function endName(at: i32): i32 {
  return load<i32>(names + ((<usize>at) << 3));
}

/** Name of the word that starts the line after a break. */
export function startName(at: i32): i32 {
  return load<i32>(names + ((<usize>at) << 3), 4);
}
