/**
 * The feasible ends of lines of one search, and those of them from which a line can go on as a list in the order of the
 * text.
 */

import { widened } from '../../../base/assembly/room';
import { Break } from './lists';

export const NONE: i32 = -1;

@unmanaged
export class Node {
  /** Running sums after the break. */
  after: f64;
  stretch: f64;
  shrink: f64;
  boxes: f64;
  /** Demerits of the best way here. */
  total: f64;
  /** The break. */
  point: i32;
  /** How many lines end with it, and the fitness of the last. */
  line: i32;
  kind: i32;
  /** Lines running up to here that end in a hyphen. */
  hyphens: i32;
  /** The next in play, and the one that the line begins at. */
  next: i32;
  before: i32;
}

export let head: i32 = NONE;
let tail: i32 = NONE;
let count: i32 = 0;
let room: i32 = 0;
let nodes: usize = 0;

/** The node of that number. It moves when one is added. */
export function nodeOf(id: i32): Node {
  return changetype<Node>(nodes + <usize>id * offsetof<Node>());
}

/** Forgets all nodes. */
export function clear(): void {
  count = 0;
  drop();
}

/** Takes all nodes out of play: no line goes on past a forced break. */
export function drop(): void {
  head = tail = NONE;
}

/** A new node at the end of the list. */
export function add(place: Break, at: i32, line: i32, kind: i32): Node {
  const id = count++;
  if (id >= room) {
    room = max<i32>(1024, room * 2);
    nodes = widened(nodes, <usize>room * offsetof<Node>());
  }
  const node = nodeOf(id);
  node.point = at;
  node.line = line;
  node.kind = kind;
  node.after = place.after;
  node.stretch = place.stretchAfter;
  node.shrink = place.shrinkAfter;
  node.boxes = place.boxesAfter;
  node.next = NONE;
  if (tail === NONE) head = id;
  else nodeOf(tail).next = id;
  tail = id;
  return node;
}

/** Takes a node out of play. */
export function unlink(id: i32, previous: i32): void {
  const next = nodeOf(id).next;
  if (previous === NONE) head = next;
  else nodeOf(previous).next = next;
  if (tail === id) tail = previous;
}
