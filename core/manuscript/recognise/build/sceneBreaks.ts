/** Blank lines as scene breaks: when they mean something, and between which lines. */
import type { Base } from '../collect/base.ts';
import { EMPTIES_AS_PAGE, type Item, type Line } from '../collect/lines.ts';

/** What the manuscript as a whole says about blank lines and extra space. */
export interface GapHabits {
  /** A gap beyond the usual is rare enough to mean a new scene. */
  readonly gaps: boolean;
  /** The same for space above or below a paragraph. */
  readonly spaces: boolean;
  /** So few paragraphs have a border that a word processor drew it where the author typed a row of marks below. */
  readonly rules: boolean;
}

/** A habit that shows between more paragraphs than this share is layout, no scene break. */
const RARE = 0.2;
const RARE_RULES = 0.1;

export function gapHabits(items: readonly Item[], base: Base, headings: ReadonlySet<number>): GapHabits {
  let pairs = 0;
  let gaps = 0;
  let spaces = 0;
  let rules = 0;
  for (let at = 1; at < items.length; at++) {
    const item = items[at];
    const before = items[at - 1];
    if (item?.kind !== 'line' || before?.kind !== 'line' || item.gap >= EMPTIES_AS_PAGE || item.page) continue;
    if (headings.has(at) || headings.has(at - 1)) continue;
    if (!breaksProse(item, base) || !breaksProse(before, base)) continue;
    pairs++;
    if (item.source.rule) rules++;
    if (item.gap > base.gap) gaps++;
    if (extraSpace(before, item, base) >= 11) spaces++;
  }
  const rare = (count: number): boolean => count <= Math.max(3, pairs * RARE);
  return { gaps: rare(gaps) || base.gap > 0, spaces: rare(spaces), rules: rules <= pairs * RARE_RULES };
}

export function extraSpace(before: Line, item: Line, base: Base): number {
  const usual = Math.max(base.spaceBefore, base.spaceAfter, base.spaceBefore + base.spaceAfter);
  return item.source.spaceBefore + before.source.spaceAfter - usual;
}

/** A line of running text, beside which a blank line can mean a new scene. */
export function breaksProse(line: Line, base: Base): boolean {
  if (line.words === 0 || line.listed) return false;
  return !(line.centred && !base.centred) && !line.atEnd && line.level === null;
}
