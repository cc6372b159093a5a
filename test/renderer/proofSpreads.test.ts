/** Which pages lie side by side, and that every page lies on the spread that is opened for it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Facing,
  nextZoom,
  PIXELS_PER_POINT,
  planSpread,
  scrollKeeping,
  spreadAt,
  spreadCount,
  spreadOf,
  type Zoom,
} from '../../renderer/proof/spreads.ts';
import { factorOf } from '../../renderer/proof/zoomGestures.ts';

const PAGE = { width: 396, height: 612 };
const facings = fc.constantFrom<Facing>('facing', 'single');

describe('spreads', () => {
  it('open on a recto alone and go on in pairs', () => {
    const all = Array.from({ length: spreadCount(4, 'facing') }, (_, at) => spreadAt(at, 4, 'facing'));
    expect(all).toEqual([
      { verso: null, recto: 0 },
      { verso: 1, recto: 2 },
      { verso: 3, recto: null },
    ]);
  });

  it('hold every page once, on the side that it is printed on', () => {
    fc.assert(
      fc.property(fc.nat(300), facings, (pages, facing) => {
        const spreads = Array.from({ length: spreadCount(pages, facing) }, (_, at) => spreadAt(at, pages, facing));
        const held = spreads.flatMap(({ verso, recto }) => [verso, recto]).filter((page) => page !== null);
        expect(held).toEqual(Array.from({ length: pages }, (_, at) => at));
        for (const [at, { verso, recto }] of spreads.entries()) {
          for (const page of [verso, recto]) if (page !== null) expect(spreadOf(page, facing)).toBe(at);
          expect(verso === null || verso % 2 === 1).toBe(true);
          expect(recto === null || recto % 2 === 0).toBe(true);
        }
      }),
    );
  });
});

describe('planSpread', () => {
  const room = { width: 1000, height: 700 };
  const spread = { verso: 1, recto: 2 };

  it('lays facing pages against each other in the middle', () => {
    const { pages, table } = planSpread({ spread, facing: 'facing', page: PAGE, room, zoom: 'fit', around: 0 });
    const [verso, recto] = pages;
    expect(recto!.x).toBeCloseTo(verso!.x + verso!.width, 9);
    expect(table).toEqual(room);
    expect(verso!.height).toBeLessThanOrEqual(room.height);
    expect(recto!.x).toBeCloseTo(room.width / 2, -0.5);
  });

  it('shows a point as it is printed at 100 per cent', () => {
    const { scale, pages } = planSpread({ spread, facing: 'facing', page: PAGE, room, zoom: 100, around: 0 });
    expect(scale).toBe(PIXELS_PER_POINT);
    expect(pages[0]!.width).toBeCloseTo(396 * (96 / 72), 9);
  });

  it('keeps pages on the table, whatever the zoom', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.constantFrom('fit' as const, 'width' as const), fc.integer({ min: 25, max: 800 })),
        facings,
        fc.integer({ min: 120, max: 3000 }),
        fc.integer({ min: 120, max: 2000 }),
        fc.integer({ min: 0, max: 20 }),
        (zoom, facing, width, height, around) => {
          const request = { spread, facing, page: PAGE, room: { width, height }, zoom, around };
          const { pages, table, scale } = planSpread(request);
          const margin = around * scale;
          for (const page of pages) {
            expect(page.x - margin).toBeGreaterThanOrEqual(-1);
            expect(page.y - margin).toBeGreaterThanOrEqual(-1);
            expect(page.x + page.width + margin).toBeLessThanOrEqual(table.width + 1);
            expect(page.y + page.height + margin).toBeLessThanOrEqual(table.height + 1);
          }
        },
      ),
    );
  });
});

describe('zooming', () => {
  const room = { width: 1000, height: 700 };
  const planned = (zoom: Zoom, facing: Facing = 'facing') =>
    planSpread({ spread: { verso: 1, recto: 2 }, facing, page: PAGE, room, zoom, around: 0 });

  it('to the full width fills the room from side to side', () => {
    const [verso, recto] = planned('width').pages;
    expect([verso!.x, recto!.x + recto!.width]).toEqual([24, room.width - 24]);
  });

  it('keeps what stands under the point that it goes around', () => {
    const percents = fc.integer({ min: 25, max: 800 });
    const places = fc.record({ x: fc.nat(1000), y: fc.nat(700) });
    fc.assert(
      fc.property(percents, percents, facings, places, places, (from, to, facing, point, scrolled) => {
        const [before, after] = [planned(from, facing), planned(to, facing)];
        const kept = scrollKeeping(point, { ...before, scrolled }, after);
        for (const axis of ['x', 'y'] as const) {
          const was = (scrolled[axis] + point[axis] - before.origin[axis]) / before.scale;
          const is = (kept[axis] + point[axis] - after.origin[axis]) / after.scale;
          expect(is).toBeCloseTo(was, 6);
        }
      }),
    );
  });

  it('by the wheel goes as far back as it went', () => {
    fc.assert(
      fc.property(fc.integer({ min: -500, max: 500 }), fc.constantFrom(0, 1, 2), (deltaY, deltaMode) => {
        const there = factorOf({ deltaY, deltaMode });
        expect(there * factorOf({ deltaY: -deltaY, deltaMode })).toBeCloseTo(1, 9);
        expect(there > 1).toBe(deltaY < 0);
        expect(there).toBeLessThan(1.3);
      }),
    );
  });
});

describe('nextZoom', () => {
  it.each([
    [100, 1, 125],
    [100, -1, 75],
    [110, 1, 125],
    [110, -1, 100],
    [400, 1, 400],
    [40, -1, 40],
    [800, 1, 800],
    [800, -1, 400],
  ] as const)('goes from %i per cent by %i to %i', (now, direction, then) => {
    expect(nextZoom(now, direction)).toBe(then);
  });
});
