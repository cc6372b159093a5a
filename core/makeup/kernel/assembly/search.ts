/**
 * The optimum of a section's pages: dynamic programming over page ends. In: a strip and the side of its first page; out: the
 * pages whose costs are the least in all.
 *
 * Two ways to the same next row, with the same notes running on and the same depth of the page before, leave the same to
 * do: only the cheaper is kept, and the search goes on from page to page. The literature: M. F. Plass, "Optimal Pagination
 * Techniques for Automatic Typesetting Systems", Stanford 1981 (dynamic programming over lines and pages; FACTS 8.4 G-01);
 * F. Mittelbach, "A General Framework for Globally Optimized Pagination", DocEng 2016 (spreads that run long or short, and
 * paragraphs at other lengths; G-02). Other lengths are asked for late: a first search does without, its cost bounds the
 * second, and there a block is asked only where the bound leaves room for the least that another length can cost.
 */
import { widened } from '../../../base/assembly/room';
import { End, endOf, endsOf, foundFrom, foundTo, LAST } from './ends';
import {
  HYPHEN_AT_FOLD,
  HYPHEN_AT_TURN,
  LONG,
  price,
  priceOfLast,
  priceOfShort,
  priceOfUnequal,
  UNEVEN_SPREADS,
  VARIANT_LEAST,
} from './prices';
import { count, HYPHENATED, rowCount } from './rows';

/** Ways kept after each page: a guard for text that only a machine would make; an ordinary section has far fewer. */
const MOST_WAYS: i32 = 8192;
/** Ways kept by the first search, which only has to come near: its cost bounds the second, which leaves nothing out. */
const FIRST_WAYS: i32 = 6;
/** Spreads that differ by more lines than this after the first differ once and for all. */
const MOST_UNEVEN: i32 = 3;

const NONE: i32 = -1;

/** A way to have filled the pages so far. */
@unmanaged
class Way {
  cost: f64;
  /** The last page; `NONE` before the first. */
  end: i32;
  /** The way before that page, and the next way of the same fork while a page is being filled. */
  from: i32;
  next: i32;
  padding: i32;
}

/** Ways that go on from the same row with the same notes, one for each depth of the page before. */
@unmanaged
class Fork {
  /** Cost of the cheapest. */
  least: f64;
  start: i32;
  carried: i32;
  /** Its ways: a list while the page before is being filled, then side by side. */
  firstWay: i32;
  ways: i32;
  lastWay: i32;
  padding: i32;
}

let ways: usize = 0;
let wayRoom: i32 = 0;
let wayCount: i32 = 0;
/** Ways of the page that is being filled. */
let drafts: usize = 0;
let draftRoom: i32 = 0;
let draftCount: i32 = 0;

/** Forks before the page at hand, and those after it. */
let forks: usize = 0;
let forkRoom: i32 = 0;
let forkCount: i32 = 0;
let nextForks: usize = 0;
let nextForkRoom: i32 = 0;
let nextForkCount: i32 = 0;
/** For each row the fork that begins with it and has no notes running on, as far as it is of the page at hand. */
let forkAt: usize = 0;
let forkAtRoom: i32 = 0;

let costs: usize = 0;
let costRoom: i32 = 0;

let firstIsRecto: bool = false;
/** Cost of the best way to the section's end, or what a way must cost less than. */
let bound: f64 = 0;
let doneEnd: i32 = NONE;
let doneFrom: i32 = NONE;

/** The best pages, by their ends, from the last to the first. */
let path: usize = 0;
let pathRoom: i32 = 0;
let pathCount: i32 = 0;
let pathCost: f64 = 0;

function wayOf(way: i32): Way {
  return changetype<Way>(ways + <usize>way * offsetof<Way>());
}

function draftOf(way: i32): Way {
  return changetype<Way>(drafts + <usize>way * offsetof<Way>());
}

function forkOf(fork: i32): Fork {
  return changetype<Fork>(forks + <usize>fork * offsetof<Fork>());
}

function nextForkOf(fork: i32): Fork {
  return changetype<Fork>(nextForks + <usize>fork * offsetof<Fork>());
}

export function pathAt(): usize {
  return path;
}

export function costOfPath(): f64 {
  return pathCost;
}

/** What the pages that are being looked for must cost less than. */
export function costBound(): f64 {
  return bound;
}

/**
 * Fills the strip at a cost less than `most`; gives the number of pages, -1 where it could not be filled. Their ends stand in
 * `pathAt`, last first. A cost that is given bounds the search in the place of a first one.
 */
export function fill(recto: bool, most: f64): i32 {
  firstIsRecto = recto;
  wayCount = pathCount = 0;
  pathCost = 0;
  if (count === 0) return 0;
  if (most === Infinity) {
    if (!run(false, Infinity, FIRST_WAYS)) return -1;
    keepPath();
    if (pathCost > 0 && run(true, pathCost, MOST_WAYS)) keepPath();
  } else {
    if (!run(true, most, MOST_WAYS)) return -1;
    keepPath();
  }
  return pathCount;
}

/** All ways that may become the cheapest; false where none costs less than the bound. */
function run(elastic: bool, most: f64, mostWays: i32): bool {
  bound = most;
  doneEnd = NONE;
  begin();
  for (let page = 0; forkCount > 0; page++) {
    nextForkCount = draftCount = 0;
    const isRecto = firstIsRecto === ((page & 1) === 0);
    for (let fork = 0; fork < forkCount; fork++) fillPage(fork, page === 0, isRecto, elastic);
    open(mostWays);
  }
  return doneEnd !== NONE;
}

/** Before the first page. */
function begin(): void {
  roomForForks(1);
  forkCount = 1;
  const fork = forkOf(0);
  fork.least = 0;
  fork.start = fork.carried = 0;
  fork.firstWay = addWay(0, NONE, NONE);
  fork.ways = 1;
}

/** Fills one page more. */
function fillPage(at: i32, isFirst: bool, isRecto: bool, elastic: bool): void {
  const least = forkOf(at).least;
  const firstWay = forkOf(at).firstWay;
  const endWay = firstWay + forkOf(at).ways;
  endsOf(forkOf(at).start, forkOf(at).carried, elastic && least + price(VARIANT_LEAST) < bound);
  const to = foundTo;
  for (let id = foundFrom; id < to; id++) {
    const end = endOf(id);
    const own = end.cost + costOfFoot(end, isFirst, isRecto);
    if (least + own >= bound) continue;
    const last = (end.flags & LAST) !== 0;
    let best = NONE;
    let cost = bound;
    for (let way = firstWay; way < endWay; way++) {
      const before = wayOf(way).end;
      const pair = before === NONE ? 0 : costOfPair(isRecto, endOf(before).foot, end.foot, last);
      const total = wayOf(way).cost + own + pair;
      if (total >= cost) continue;
      cost = total;
      best = way;
    }
    if (best !== NONE) reach(id, best, cost);
  }
}

/** The cost of a page by itself, the penalty of its last row left out. */
function costOfFoot(end: End, isFirst: bool, isRecto: bool): f64 {
  const short = end.short;
  if (end.flags & LAST) return (short < 0 ? price(LONG) : 0) + (isFirst ? 0 : priceOfLast(end.used));
  const hyphen = end.flags & HYPHENATED ? (isRecto ? price(HYPHEN_AT_TURN) : price(HYPHEN_AT_FOLD)) : 0;
  return hyphen + (short < 0 ? price(LONG) * -(<f64>short) : priceOfShort(short));
}

/** The cost of two pages beside each other, or on the two sides of a leaf. A last page may be as short as it likes. */
function costOfPair(isRecto: bool, before: i32, after: i32, last: bool): f64 {
  if (last && (!isRecto || after >= before)) return 0;
  const apart = abs(before - after);
  if (isRecto) return priceOfUnequal(apart);
  return apart > 1 ? price(UNEVEN_SPREADS) * <f64>min(apart - 1, MOST_UNEVEN) : 0;
}

function reach(end: i32, from: i32, cost: f64): void {
  if (endOf(end).flags & LAST) {
    doneEnd = end;
    doneFrom = from;
    bound = cost;
    return;
  }
  takeWay(forkFor(endOf(end).next, endOf(end).carried), end, from, cost);
}

/** The fork of a place where a page leaves off: a row, and how many rows of notes run on. */
function forkFor(start: i32, carried: i32): i32 {
  if (carried === 0) {
    if (start >= forkAtRoom) roomForForkAt();
    const known = load<i32>(forkAt + ((<usize>start) << 2));
    if (known < nextForkCount && isOf(known, start, 0)) return known;
  } else {
    for (let fork = 0; fork < nextForkCount; fork++) if (isOf(fork, start, carried)) return fork;
  }
  const at = nextForkCount++;
  roomForNextForks(nextForkCount);
  const fork = nextForkOf(at);
  fork.least = Infinity;
  fork.start = start;
  fork.carried = carried;
  fork.firstWay = fork.lastWay = NONE;
  if (carried === 0) store<i32>(forkAt + ((<usize>start) << 2), at);
  return at;
}

function isOf(fork: i32, start: i32, carried: i32): bool {
  return nextForkOf(fork).start === start && nextForkOf(fork).carried === carried;
}

/** Takes a way in, unless one that leaves the same to do is as cheap. */
function takeWay(at: i32, end: i32, from: i32, cost: f64): void {
  const foot = endOf(end).foot;
  let known = nextForkOf(at).firstWay;
  while (known !== NONE && endOf(draftOf(known).end).foot !== foot) known = draftOf(known).next;
  if (known === NONE) known = addDraft(at);
  else if (draftOf(known).cost <= cost) return;
  const way = draftOf(known);
  way.cost = cost;
  way.end = end;
  way.from = from;
  const fork = nextForkOf(at);
  if (cost < fork.least) fork.least = cost;
}

/** A new way at the end of a fork's list. */
function addDraft(at: i32): i32 {
  const id = draftCount++;
  if (id === draftRoom) {
    draftRoom = max(512, draftRoom * 2);
    drafts = widened(drafts, <usize>draftRoom * offsetof<Way>());
  }
  draftOf(id).next = NONE;
  const fork = nextForkOf(at);
  if (fork.firstWay === NONE) fork.firstWay = id;
  else draftOf(fork.lastWay).next = id;
  fork.lastWay = id;
  return id;
}

function addWay(cost: f64, end: i32, from: i32): i32 {
  const id = wayCount++;
  if (id === wayRoom) {
    wayRoom = max(2048, wayRoom * 2);
    ways = widened(ways, <usize>wayRoom * offsetof<Way>());
  }
  const way = wayOf(id);
  way.cost = cost;
  way.end = end;
  way.from = from;
  return id;
}

/** Goes on with the forks that may still become the best, with no more ways than so many but for equals. */
function open(most: i32): void {
  const limit = nthLeast(most);
  roomForForks(nextForkCount);
  forkCount = 0;
  for (let at = 0; at < nextForkCount; at++) {
    const first = wayCount;
    for (let id = nextForkOf(at).firstWay; id !== NONE; id = draftOf(id).next) {
      const draft = draftOf(id);
      if (draft.cost < bound && draft.cost <= limit) addWay(draft.cost, draft.end, draft.from);
    }
    if (wayCount === first) continue;
    const fork = forkOf(forkCount++);
    fork.least = nextForkOf(at).least;
    fork.start = nextForkOf(at).start;
    fork.carried = nextForkOf(at).carried;
    fork.firstWay = first;
    fork.ways = wayCount - first;
  }
}

/** The nth of the costs of all new ways, by their rise; infinite where there are fewer. */
function nthLeast(nth: i32): f64 {
  if (draftCount < nth) return Infinity;
  if (draftCount > costRoom) {
    costRoom = draftCount * 2;
    costs = widened(costs, (<usize>costRoom) << 3);
  }
  for (let id = 0; id < draftCount; id++) store<f64>(costs + ((<usize>id) << 3), draftOf(id).cost);
  return selected(nth - 1);
}

/** The cost that would stand at a place among the sorted ones (C. A. R. Hoare, "Find", CACM 4, 1961). */
function selected(place: i32): f64 {
  let low = 0;
  let high = draftCount - 1;
  while (low < high) {
    const middle = costAt(place);
    let left = low;
    let right = high;
    while (left <= right) {
      while (costAt(left) < middle) left++;
      while (costAt(right) > middle) right--;
      if (left > right) break;
      const swapped = costAt(left);
      store<f64>(costs + ((<usize>left) << 3), costAt(right));
      store<f64>(costs + ((<usize>right) << 3), swapped);
      left++;
      right--;
    }
    if (right < place) low = left;
    if (place < left) high = right;
  }
  return costAt(place);
}

function costAt(at: i32): f64 {
  return load<f64>(costs + ((<usize>at) << 3));
}

/** Keeps the pages of the best way to the section's end. */
function keepPath(): void {
  pathCount = 0;
  pathCost = bound;
  addToPath(doneEnd);
  for (let way = doneFrom; wayOf(way).end !== NONE; way = wayOf(way).from) addToPath(wayOf(way).end);
}

function addToPath(end: i32): void {
  const at = pathCount++;
  if (at === pathRoom) {
    pathRoom = max(64, pathRoom * 2);
    path = widened(path, (<usize>pathRoom) << 2);
  }
  store<i32>(path + ((<usize>at) << 2), end);
}

function roomForForks(wanted: i32): void {
  if (wanted <= forkRoom) return;
  forkRoom = max(128, wanted * 2);
  forks = widened(forks, <usize>forkRoom * offsetof<Fork>());
}

function roomForNextForks(wanted: i32): void {
  if (wanted <= nextForkRoom) return;
  nextForkRoom = max(128, wanted * 2);
  nextForks = widened(nextForks, <usize>nextForkRoom * offsetof<Fork>());
}

function roomForForkAt(): void {
  if (rowCount <= forkAtRoom) return;
  const more = rowCount * 2;
  forkAt = widened(forkAt, (<usize>more) << 2);
  memory.fill(forkAt + ((<usize>forkAtRoom) << 2), 0, (<usize>(more - forkAtRoom)) << 2);
  forkAtRoom = more;
}
