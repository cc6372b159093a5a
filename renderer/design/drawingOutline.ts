/** Outlines of a drawing as segments. In: segments; out: the same moved, measured, turned the one way round, written as path data. */
import type { Segment } from '#print';
import type { Matrix } from './drawingMatrix.ts';

type Point = readonly [number, number];

export function pointsOf(segment: Segment): readonly Point[] {
  switch (segment.kind) {
    case 'close':
      return [];
    case 'curve': {
      const [x1, y1, x2, y2, x3, y3] = segment.points;
      return [
        [x1, y1],
        [x2, y2],
        [x3, y3],
      ];
    }
    default:
      return [[segment.x, segment.y]];
  }
}

function withPoints(segment: Segment, change: (point: Point) => Point): Segment {
  if (segment.kind === 'close') return segment;
  const points = pointsOf(segment).map(change);
  const [[x1, y1] = [0, 0], [x2, y2] = [0, 0], [x3, y3] = [0, 0]] = points;
  if (segment.kind === 'curve') return { kind: 'curve', points: [x1, y1, x2, y2, x3, y3] };
  return { kind: segment.kind, x: x1, y: y1 };
}

export function moved(segment: Segment, [a, b, c, d, e, f]: Matrix): Segment {
  return withPoints(segment, ([x, y]) => [a * x + c * y + e, b * x + d * y + f]);
}

export function written(segment: Segment, place: (point: Point) => Point): string {
  const letter = { move: 'M', line: 'L', curve: 'C', close: 'Z' }[segment.kind];
  const figures = pointsOf(withPoints(segment, place)).flat().map(rounded);
  return `${letter}${figures.join(' ')}`;
}

export function rounded(value: number): number {
  // Adding nil makes a plain zero of a negative one.
  return Math.round(value * 100) / 100 + 0;
}

export function bounds(values: readonly number[]): readonly [number, number] {
  return values.reduce(
    ([least, most], value) => [Math.min(least, value), Math.max(most, value)],
    [Infinity, -Infinity],
  );
}

export function countMoves(segments: readonly Segment[]): number {
  return segments.filter(({ kind }) => kind === 'move').length;
}

/**
 * All shapes go round the same way, so that one over another is never taken for a hole: what is filled is what has been gone
 * round more often one way than the other. Inside a shape its own holes keep their sense.
 */
export function clockwise(segments: readonly Segment[]): readonly Segment[] {
  return area(segments) < 0 ? subpaths(segments).flatMap(reversed) : segments;
}

function subpaths(segments: readonly Segment[]): readonly (readonly Segment[])[] {
  const all: Segment[][] = [];
  for (const segment of segments) {
    if (segment.kind === 'move') all.push([]);
    all.at(-1)?.push(segment);
  }
  return all;
}

/** Twice the area that the points go round, all subpaths together. */
function area(segments: readonly Segment[]): number {
  return subpaths(segments).reduce((sum, subpath) => {
    const points = subpath.flatMap(pointsOf);
    return points.reduce((part, [x, y], at) => {
      const [nextX, nextY] = points[(at + 1) % points.length] ?? [x, y];
      return part + x * nextY - nextX * y;
    }, sum);
  }, 0);
}

function reversed(subpath: readonly Segment[]): readonly Segment[] {
  const [start] = subpath;
  const drawn = subpath.filter(({ kind }) => kind === 'line' || kind === 'curve');
  if (start?.kind !== 'move') return [];
  const ends: Point[] = [[start.x, start.y], ...drawn.map((each): Point => pointsOf(each).at(-1) ?? [0, 0])];
  const [x, y] = ends.at(-1) ?? [start.x, start.y];
  const back = drawn.map((segment, at): Segment => {
    const [toX, toY] = ends[at] ?? [0, 0];
    if (segment.kind !== 'curve') return { kind: 'line', x: toX, y: toY };
    const [x1, y1, x2, y2] = segment.points;
    return { kind: 'curve', points: [x2, y2, x1, y1, toX, toY] };
  });
  return [{ kind: 'move', x, y }, ...back.reverse(), { kind: 'close' }];
}
