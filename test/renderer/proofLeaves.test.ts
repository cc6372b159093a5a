/** The leaves of the strip: old ones lie where they are until the new ones are painted. */
import { expect, test } from 'vitest';
import type { Page } from '#page';
import { KEPT_LEAVES, KeptLeaves } from '../../renderer/proof/keptLeaves.ts';

const page = (index: number): Page => ({ index }) as Page;

test('a changed page keeps its old leaf until it is painted again', () => {
  const leaves = new KeptLeaves<string>();
  const before = [page(0), page(1)] as const;
  leaves.keep(before[0], 'old 0');
  leaves.keep(before[1], 'old 1');
  expect(leaves.missing(before)).toEqual([]);
  const after = [page(0), page(1), page(2)] as const;
  expect(after.map(({ index }) => leaves.at(index))).toEqual(['old 0', 'old 1', null]);
  expect(leaves.missing(after).map(({ index }) => index)).toEqual([2, 0, 1]);
  leaves.keep(after[0], 'new 0');
  expect(leaves.shows(after[0])).toBe(true);
  expect(leaves.at(0)).toBe('new 0');
  expect(leaves.missing(after).map(({ index }) => index)).toEqual([2, 1]);
});

test('while all pages change all the time, each of them gets its turn', () => {
  const leaves = new KeptLeaves<string>();
  const painted: number[] = [];
  for (let step = 0; step < 8; step++) {
    const [next] = leaves.missing([page(0), page(1), page(2), page(3)]);
    if (!next) throw new Error('nothing is missing');
    leaves.keep(next, `${step}`);
    painted.push(next.index);
  }
  expect(painted).toEqual([0, 1, 2, 3, 0, 1, 2, 3]);
});

test('pictures that arrive outdate all leaves; another edition takes them away', () => {
  const leaves = new KeptLeaves<string>();
  leaves.belongTo('print');
  leaves.keep(page(0), 'old');
  leaves.outdate();
  expect(leaves.at(0)).toBe('old');
  expect(leaves.missing([page(0)])).toHaveLength(1);
  leaves.belongTo('print');
  expect(leaves.at(0)).toBe('old');
  leaves.belongTo('large');
  expect(leaves.at(0)).toBeNull();
});

test('no more are kept than there is use for, the latest of them', () => {
  const leaves = new KeptLeaves<number>();
  for (let index = 0; index < KEPT_LEAVES + 5; index++) leaves.keep(page(index), index);
  expect(leaves.at(4)).toBeNull();
  expect(leaves.at(5)).toBe(5);
  expect(leaves.at(KEPT_LEAVES + 4)).toBe(KEPT_LEAVES + 4);
});
