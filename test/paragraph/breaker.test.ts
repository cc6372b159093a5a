/** The breaker against a search through all ways to break short paragraphs. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LineWidths } from '../../core/paragraph/breaker/place.ts';
import { FILL, FORCED, HYPHEN, SHORT_END } from '../../core/paragraph/breaker/places.ts';
import { BreakSearch } from '../../core/paragraph/breaker/search.ts';
import { BREAK_SETTINGS, type BreakSettings } from '../../core/paragraph/settings.ts';
import { type BreakList, costOf, ItemList, lineBetween, searched } from './items.ts';

const SETTINGS: BreakSettings = { ...BREAK_SETTINGS, tripleHyphenDemerits: 1e6 };

interface Piece {
  readonly width: number;
  readonly after: 'space' | 'hyphen' | 'forced' | 'none';
  readonly name: number;
}

const piece: fc.Arbitrary<Piece> = fc.record({
  width: fc.integer({ min: 5, max: 40 }),
  after: fc.constantFrom('space', 'space', 'space', 'hyphen', 'hyphen', 'none', 'forced'),
  name: fc.integer({ min: 0, max: 2 }),
});

function listOf(pieces: readonly Piece[]): BreakList {
  const items = new ItemList();
  pieces.forEach(({ width, after, name }, i) => {
    items.box(width);
    if (i === pieces.length - 1) return;
    if (after === 'space') items.name(items.glue(6, 3, 2), name, pieces[i + 1]!.name);
    if (after === 'hyphen') items.change(items.penalty(50, HYPHEN | (i % 3 === 0 ? SHORT_END : 0)), 4, -1);
    if (after === 'forced') {
      items.tie(0, FILL, 0);
      items.forcedBreak();
    }
  });
  items.tie(0, FILL, 0);
  items.forcedBreak();
  return items.take();
}

/** The paper's classes. */
function fitness(ratio: number): number {
  if (ratio < -0.5) return 0;
  if (ratio <= 0.5) return 1;
  return ratio <= 1 ? 2 : 3;
}

/** Every way to break, with its demerits, by number of lines; worked out anew from the definitions. */
function bestByLength(list: BreakList, place: LineWidths, tolerance: number): Map<number, number> {
  const best = new Map<number, number>();
  const last = list.count - 1;
  const walk = (start: number, lines: number, total: number, fit: number | null, hyphens: number): void => {
    if (start === last) {
      best.set(lines, Math.min(total, best.get(lines) ?? Infinity));
      return;
    }
    for (let end = start + 1; end <= last; end++) {
      const line = lineBetween(list, place, { ordinal: lines, start, end });
      const flags = list.flags[end]!;
      if (line.overfull === 0 && line.ratio <= tolerance) {
        const kind = fitness(line.ratio);
        const hyphen = (flags & HYPHEN) !== 0;
        const badness = 100 * Math.abs(line.ratio) ** 3 * (line.ratio < 0 ? SETTINGS.shrinkBadness : 1);
        let more = (SETTINGS.linePenalty + badness + costOf(list, end)) ** 2;
        if (fit !== null && Math.abs(fit - kind) > 1) more += SETTINGS.fitnessDemerits;
        if (hyphen && hyphens >= 1) more += SETTINGS.doubleHyphenDemerits;
        if (hyphen && hyphens >= 2) more += SETTINGS.tripleHyphenDemerits;
        if (start > 0) {
          for (const side of [0, 1]) {
            const name = list.names[end * 2 + side]!;
            if (name !== 0 && name === list.names[start * 2 + side]) more += SETTINGS.repeatDemerits;
          }
        }
        if (end === last && start > 0) {
          const short = line.natural < place.lastLineMin;
          if (hyphens > 0) more += SETTINGS.finalHyphenDemerits;
          if (short || list.flags[start]! & SHORT_END) more += SETTINGS.shortLastLineDemerits;
        }
        walk(end, lines + 1, total + more, kind, hyphen ? hyphens + 1 : 0);
      }
      if (flags & FORCED) break;
    }
  };
  walk(0, 0, 0, null, 0);
  return best;
}

const places = fc.record({
  widths: fc
    .array(fc.integer({ min: 40, max: 120 }), { minLength: 1, maxLength: 4 })
    .map((widths) => Float64Array.from(widths)),
  scaling: fc.constantFrom(0, 0.02),
  ragged: fc.constantFrom(0, 0, 30),
  lastLineMin: fc.constantFrom(0, 20),
});

describe('against all ways there are', () => {
  const search = new BreakSearch(SETTINGS);

  test('the best of all, and the best of each length', () => {
    let solved = 0;
    fc.assert(
      fc.property(
        fc.array(piece, { minLength: 1, maxLength: 13 }),
        places,
        fc.constantFrom(1, 2, 5),
        (pieces, place, tolerance) => {
          const list = listOf(pieces);
          const expected = bestByLength(list, place, tolerance);
          const each = searched(search, list, place, { tolerance, divide: true, rescue: false, everyLength: true });
          expect(each.map((solution) => solution.lines)).toEqual([...expected.keys()].sort((a, b) => a - b));
          for (const { lines, demerits } of each) expect(demerits).toBeCloseTo(expected.get(lines)!, 3);
          const [one] = searched(search, list, place, { tolerance, divide: true, rescue: false, everyLength: false });
          if (expected.size === 0) {
            expect(one).toBeUndefined();
            return;
          }
          solved++;
          expect(one!.demerits).toBeCloseTo(Math.min(...expected.values()), 3);
        },
      ),
      { numRuns: 3000 },
    );
    expect(solved).toBeGreaterThan(300);
  });

  test('a rescue always ends', () => {
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 40 }), places, (pieces, place) => {
        const list = listOf(pieces);
        const narrow = { ...place, widths: place.widths.map((width) => width / 4) };
        const [found] = searched(search, list, narrow, {
          tolerance: Infinity,
          divide: true,
          rescue: true,
          everyLength: false,
        });
        expect(found!.at.at(-1)).toBe(list.count - 1);
        expect(found!.at).toEqual([...new Set(found!.at)].sort((a, b) => a - b));
      }),
    );
  });
});

describe('items', () => {
  test('glue after a break vanishes, a box after it stays', () => {
    const items = new ItemList();
    items.box(10);
    const at = items.glue(6, 3, 2);
    items.glue(6, 3, 2);
    items.box(20);
    items.forcedBreak();
    const list = items.take();
    const place = { widths: Float64Array.of(100), scaling: 0, ragged: 0, lastLineMin: 0 };
    expect(lineBetween(list, place, { ordinal: 0, start: 0, end: at }).natural).toBe(10);
    expect(lineBetween(list, place, { ordinal: 1, start: at, end: list.count - 1 }).natural).toBe(20);
    expect(list.count).toBe(3);
  });

  test('a paragraph without an end is a mistake', () => {
    const items = new ItemList();
    items.box(10);
    const place = { widths: Float64Array.of(100), scaling: 0, ragged: 0, lastLineMin: 0 };
    const how = { tolerance: 1, divide: true, rescue: false, everyLength: false };
    expect(() => searched(new BreakSearch(SETTINGS), items.take(), place, how)).toThrow(RangeError);
  });
});
