import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { PACE, Pacer } from '../../renderer/design/pacer.ts';

let told: number[] = [];
let pacer = new Pacer(() => undefined);

beforeEach(() => {
  vi.useFakeTimers();
  told = [];
  pacer = new Pacer((value) => told.push(value));
});

afterEach(() => {
  vi.useRealTimers();
});

test('the first of a run is passed on at once, the latest of the others in turn', () => {
  for (let value = 0; value < 10; value++) {
    pacer.step(value);
    vi.advanceTimersByTime(PACE / 4);
  }
  expect(told).toEqual([0, 3, 7]);
  vi.advanceTimersByTime(PACE * 3);
  expect(told).toEqual([0, 3, 7, 9]);
});

test('the last is never lost, and nothing comes after it', () => {
  pacer.step(1);
  pacer.step(2);
  pacer.end();
  vi.advanceTimersByTime(PACE * 3);
  expect(told).toEqual([1, 2]);
  pacer.step(3);
  expect(told).toEqual([1, 2, 3]);
});

test('where nobody listens any more, nothing comes', () => {
  pacer.step(1);
  pacer.step(2);
  pacer.stop();
  vi.advanceTimersByTime(PACE * 3);
  expect(told).toEqual([1]);
});
