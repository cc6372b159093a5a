/**
 * Total fit: the breaks of a paragraph with the least demerits in all (D. E. Knuth and M. F. Plass, "Breaking Paragraphs
 * into Lines", Software: Practice and Experience 11, 1981). In: a list of breaks and the widths of the lines; out: the
 * breaks of the best solution, or of the best one of each length.
 *
 * Departures from the paper: a break may change the width of the lines before and after it; a node knows how many lines
 * running end in a hyphen before it; the first line has no neighbour above that it could differ from; boxes may give a
 * little (`scaling`); the last line may be too short.
 */
import { grown } from '../grown.ts';
import type { BreakSettings } from '../settings.ts';
import {
  BEFORE,
  BOXES_BEFORE,
  type BreakList,
  COST,
  DIVIDED,
  FILL,
  FORCED,
  HYPHEN,
  SHRINK_BEFORE,
  STRETCH_BEFORE,
  STRIDE,
} from './breakList.ts';
import { badnessOf, fitness, loosest } from './demerits.ts';
import { isShortEnd } from './line.ts';
import { NONE, Nodes, type Solution } from './nodes.ts';
import { type LineWidths, WORST_RATIO } from './place.ts';

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
/** Fitness (tight, decent, loose, very loose) times hyphens running (at most one, two or more). */
const CLASSES = 8;
/** More lines than any paragraph has. */
const ENDLESS = 0x3fffffff;

/** One search at a time; its memory serves the next paragraph. */
export class BreakSearch {
  private readonly nodes = new Nodes();
  // The best ways to the break at hand, by line and class.
  private best = new Float64Array(64).fill(Infinity);
  private bestFrom = new Int32Array(64);
  private lowestLine = 0;
  private highestLine = 0;
  /** What the break at hand costs, and whether it shows a hyphen. */
  private cost = 0;
  private hyphenated = false;
  private rescuer = NONE;
  private rescueExcess = 0;

  private list!: BreakList;
  private place!: LineWidths;
  private search!: Search;
  private narrowest = 0;
  private countedLines = 0;
  private tolerance = 0;
  private most = Infinity;

  constructor(private readonly settings: BreakSettings) {}

  /** The best solutions, by rising number of lines where `everyLength` is asked for; empty where there is none. */
  run(list: BreakList, place: LineWidths, search: Search): readonly Solution[] {
    this.begin(list, place, search);
    const last = list.count - 1;
    const barred = search.divide ? 0 : DIVIDED;
    const { flags, sums } = list;
    // What a stretch counts for, and the least that a break must reach: most breaks are passed over by these alone.
    const loose = place.ragged > 0 ? 0 : this.tolerance;
    let least = this.leastReach();
    for (let at = 1; at < last; at++) {
      if (flags[at]! & barred) continue;
      const base = at * STRIDE;
      const reach =
        sums[base + BEFORE]! + loose * (sums[base + STRETCH_BEFORE]! + place.scaling * sums[base + BOXES_BEFORE]!);
      if (reach < least && !(flags[at]! & FORCED)) continue;
      this.tryBreak(at);
      if (this.nodes.head === NONE) return [];
      least = this.leastReach();
    }
    this.tryBreak(last);
    if (search.everyLength) return this.nodes.bestOfEachLength();
    const best = this.nodes.best();
    return best ? [best] : [];
  }

  private begin(list: BreakList, place: LineWidths, search: Search): void {
    this.list = list;
    this.place = place;
    this.search = search;
    this.narrowest = place.widths.reduce((least, width) => Math.min(least, width));
    this.countedLines = search.everyLength ? ENDLESS : place.widths.length - 1;
    this.most = search.most ?? Infinity;
    this.tolerance = Math.min(search.tolerance, loosest(this.most, this.settings));
    this.nodes.clear();
    this.nodes.reach(this.nodes.add(list, 0, 0, 1), { total: 0, from: NONE, hyphens: 0 });
  }

  /** How far a break must reach, with all the stretch before it, for the line from the oldest node not to be too short. */
  private leastReach(): number {
    const { nodes, tolerance } = this;
    const { head } = nodes;
    const { ragged, scaling } = this.place;
    const start = this.narrowest + nodes.after[head]! - this.list.slack;
    if (ragged > 0) return start - tolerance * ragged;
    return start + tolerance * (nodes.stretch[head]! + scaling * nodes.boxes[head]!);
  }

  /** Looks at all lines that could end at a break, and makes a node of the best of each class. */
  private tryBreak(at: number): void {
    this.lowestLine = ENDLESS;
    this.highestLine = -1;
    this.rescuer = NONE;
    this.rescueExcess = Infinity;
    this.cost = this.list.sums[at * STRIDE + COST]!;
    this.hyphenated = (this.list.flags[at]! & HYPHEN) !== 0;
    this.weighLines(at);
    if (this.list.flags[at]! & FORCED) this.nodes.drop();
    if (this.highestLine >= 0) this.keepBest(at);
    else if (this.nodes.head === NONE && this.search.rescue && this.rescuer !== NONE) this.addRescue(at);
  }

  private weighLines(at: number): void {
    const { sums, slack } = this.list;
    const { widths, scaling, ragged } = this.place;
    const { tolerance } = this;
    const { after, stretch, shrink, boxes, line, next } = this.nodes;
    const base = at * STRIDE;
    const before = sums[base + BEFORE]!;
    const stretchBefore = sums[base + STRETCH_BEFORE]!;
    const shrinkBefore = sums[base + SHRINK_BEFORE]!;
    const boxesBefore = sums[base + BOXES_BEFORE]!;
    const lastWidth = widths.length - 1;
    let previous = NONE;
    for (let node = this.nodes.head; node !== NONE; node = next[node]!) {
      const width = before - after[node]!;
      const ordinal = line[node]!;
      const room = widths[Math.min(ordinal, lastWidth)]! - width;
      const give = scaling === 0 ? 0 : scaling * (boxesBefore - boxes[node]!);
      if (room >= 0) {
        let most = stretchBefore - stretch[node]! + give;
        if (ragged > 0 && most < FILL / 2) most = ragged;
        if (room > tolerance * most) {
          // Nodes stand in the order of the text: the lines from later ones are shorter still.
          if (this.narrowest - width - slack > tolerance * most) return;
        } else this.consider(at, node, room === 0 ? 0 : Math.min(WORST_RATIO, room / most));
      } else {
        const most = ragged > 0 ? 0 : shrinkBefore - shrink[node]! + give;
        if (-room <= most) this.consider(at, node, room / most);
        else if (this.runsOver(node, -room - most)) {
          this.nodes.unlink(node, previous);
          continue;
        }
      }
      previous = node;
    }
  }

  /** Notes the line that runs over least; true where the line from a node will only run over farther from now on. */
  private runsOver(node: number, excess: number): boolean {
    if (excess < this.rescueExcess) {
      this.rescuer = node;
      this.rescueExcess = excess;
    }
    return excess > this.list.slack;
  }

  private consider(at: number, node: number, ratio: number): void {
    const kind = fitness(ratio);
    const { line, hyphens, total: totals } = this.nodes;
    const ordinal = Math.min(line[node]! + 1, this.countedLines);
    const stacked = this.hyphenated && hyphens[node]! > 0 ? 1 : 0;
    const slot = ordinal * CLASSES + kind * 2 + stacked;
    if (slot >= this.best.length) this.growBest(slot);
    const { cost } = this;
    const bad = this.settings.linePenalty + badnessOf(ratio, this.settings);
    const plain = totals[node]! + (cost >= 0 ? (bad + cost) * (bad + cost) : bad * bad - cost * cost);
    // What comes on top is never less than nothing.
    if (plain > this.most || plain >= this.best[slot]!) return;
    const total = plain + this.surcharge(at, node, kind);
    if (total > this.most || !(total < this.best[slot]!)) return;
    this.best[slot] = total;
    this.bestFrom[slot] = node;
    if (ordinal < this.lowestLine) this.lowestLine = ordinal;
    if (ordinal > this.highestLine) this.highestLine = ordinal;
  }

  /** Demerits that a line has for what stands above it, and for what ends or begins it. */
  private surcharge(at: number, node: number, kind: number): number {
    const { settings } = this;
    const { names } = this.list;
    const start = this.nodes.point[node]!;
    const hyphens = this.nodes.hyphens[node]!;
    let demerits = 0;
    if (this.hyphenated && hyphens > 0) {
      demerits += settings.doubleHyphenDemerits + (hyphens > 1 ? settings.tripleHyphenDemerits : 0);
    }
    if (start === 0) return demerits;
    if (Math.abs(kind - this.nodes.kind[node]!) > 1) demerits += settings.fitnessDemerits;
    if (names[at * 2] === names[start * 2] && names[at * 2] !== 0) demerits += settings.repeatDemerits;
    if (names[at * 2 + 1] === names[start * 2 + 1] && names[at * 2 + 1] !== 0) demerits += settings.repeatDemerits;
    if (at === this.list.count - 1) demerits += this.endDemerits(node);
    return demerits;
  }

  /** What the last line's look and the end of the line above it cost. */
  private endDemerits(node: number): number {
    const { settings, nodes } = this;
    const short = isShortEnd(this.list, this.place, nodes.point[node]!);
    return (nodes.hyphens[node]! > 0 ? settings.finalHyphenDemerits : 0) + (short ? settings.shortLastLineDemerits : 0);
  }

  /** Makes nodes of the best ways found. A class so much worse than another that it can't win any more is left out. */
  private keepBest(at: number): void {
    const { best, bestFrom, hyphenated, nodes, list } = this;
    for (let line = this.lowestLine; line <= this.highestLine; line++) {
      const base = line * CLASSES;
      const free = this.leastOf(base) + this.settings.fitnessDemerits;
      const stacked = Math.min(free, this.leastOf(base + 1) + this.settings.fitnessDemerits);
      for (let slot = base; slot < base + CLASSES; slot++) {
        const total = best[slot]!;
        best[slot] = Infinity;
        if (total === Infinity || total > (slot & 1 ? stacked : free)) continue;
        const kind = (slot - base) >> 1;
        const hyphens = hyphenated ? 1 + (slot & 1) : 0;
        nodes.reach(nodes.add(list, at, line, kind), { total, from: bestFrom[slot]!, hyphens });
      }
    }
  }

  /** The least of every other slot of a line. */
  private leastOf(from: number): number {
    const { best } = this;
    return Math.min(best[from]!, best[from + 2]!, best[from + 4]!, best[from + 6]!);
  }

  /** No line fits: lets the one run over that does so least. */
  private addRescue(at: number): void {
    const { nodes, rescuer: from } = this;
    const line = Math.min(nodes.line[from]! + 1, this.countedLines);
    const total = nodes.total[from]! + OVERFULL;
    nodes.reach(nodes.add(this.list, at, line, 0), { total, from, hyphens: this.hyphenated ? 1 : 0 });
  }

  private growBest(slot: number): void {
    const known = this.best.length;
    this.best = grown(this.best, slot + CLASSES).fill(Infinity, known);
    this.bestFrom = grown(this.bestFrom, slot + CLASSES);
  }
}
