/** What the ordinary text of the manuscript looks like: everything else is told by its difference from this. */
import type { Points } from '#base';
import { EMPTIES_AS_PAGE, heaviest, type Item, type Line } from './lines.ts';

export interface Base {
  readonly size: Points | null;
  readonly centred: boolean;
  readonly bold: boolean;
  readonly italic: boolean;
  readonly style: string | null;
  readonly indentStart: Points;
  readonly indentEnd: Points;
  readonly spaceBefore: Points;
  readonly spaceAfter: Points;
  /** Empty paragraphs that stand between any two paragraphs: 0 or, in some manuscripts, 1 and more. */
  readonly gap: number;
  readonly tabs: number;
}

/** Lines with fewer words say little about the text. */
const PROSE_WORDS = 8;

/** Weighs the looks of all prose by its words. */
export function baseOf(items: readonly Item[]): Base {
  const prose = items.filter(
    (item): item is Line => item.kind === 'line' && item.words >= PROSE_WORDS && item.level === null,
  );
  const most = <Key>(key: (line: Line) => Key): Key | null => {
    const weights = new Map<Key, number>();
    for (const line of prose) weights.set(key(line), (weights.get(key(line)) ?? 0) + line.words);
    return heaviest(weights);
  };
  return {
    size: most((line) => line.size),
    centred: most((line) => line.centred) ?? false,
    bold: most((line) => line.bold) ?? false,
    italic: most((line) => line.italic) ?? false,
    style: most((line) => line.source.style),
    indentStart: most((line) => line.source.indentStart) ?? 0,
    indentEnd: most((line) => line.source.indentEnd) ?? 0,
    spaceBefore: most((line) => line.source.spaceBefore) ?? 0,
    spaceAfter: most((line) => line.source.spaceAfter) ?? 0,
    gap: usualGap(items),
    tabs: most((line) => line.tabs) ?? 0,
  };
}

/** The gap between neighbouring paragraphs of prose that more than half of them have at least. */
function usualGap(items: readonly Item[]): number {
  const counts: number[] = [];
  let total = 0;
  for (let at = 1; at < items.length; at++) {
    const item = items[at];
    const before = items[at - 1];
    if (item?.kind !== 'line' || before?.kind !== 'line' || item.gap >= EMPTIES_AS_PAGE || item.page) continue;
    if (item.words < PROSE_WORDS && before.words < PROSE_WORDS) continue;
    counts[item.gap] = (counts[item.gap] ?? 0) + 1;
    total++;
  }
  let above = total;
  for (let gap = 0; gap < EMPTIES_AS_PAGE; gap++) {
    above -= counts[gap] ?? 0;
    if (above <= total * 0.45) return gap;
  }
  return 0;
}
