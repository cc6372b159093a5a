/** Rows of long lists: what they follow at once, and what waits until the keys rest. */
import { beforeEach, expect, test } from 'vitest';
import type { SectionRow } from '../../renderer/state/outline.ts';
import { SteadyRows } from '../../renderer/state/steadyRows.ts';

let waiting: (() => void)[];
let rows: SteadyRows;
let heard: number;

beforeEach(() => {
  waiting = [];
  heard = 0;
  rows = new SteadyRows((_, call) => waiting.push(call));
  rows.subscribe(() => heard++);
  rows.follow(list({}));
  heard = 0;
});

function row(some: Partial<SectionRow>): SectionRow {
  const head = {
    kind: 'chapter',
    matter: 'body',
    part: null,
    number: '1',
    title: 'Salt',
    kindName: 'Chapter',
  } as const;
  const figures = { words: 900, pages: 4, folio: '12', firstPage: 15, errors: 0, warnings: 0, notes: 0 };
  return { id: 'one', editions: null, ...head, ...figures, changed: false, ...some };
}

const list = (some: Partial<SectionRow>): readonly SectionRow[] => [row(some), row({ id: 'two', number: '2' })];

/** All that waits is called, what it asks for in turn left waiting. */
function rest(): void {
  for (const call of waiting.splice(0)) call();
}

test('words alone change nothing, typed or not', () => {
  const before = rows.get();
  rows.follow(list({ words: 901 }));
  rows.stir();
  rows.follow(list({ words: 902 }));
  rest();
  expect(rows.get()).toBe(before);
  expect(heard).toBe(0);
});

test('while one types, page figures and findings wait for a rest', () => {
  rows.stir();
  rows.follow(list({ pages: 5, warnings: 1 }));
  expect(rows.get()[0]?.pages).toBe(4);
  rows.stir();
  rest();
  // A key came in between: it waits once more.
  expect(rows.get()[0]?.pages).toBe(4);
  rest();
  expect(rows.get()[0]).toMatchObject({ pages: 5, warnings: 1 });
  expect(heard).toBe(1);
  expect(waiting).toEqual([]);
});

test('where nobody types, figures are followed at once', () => {
  rows.follow(list({ pages: 5 }));
  expect(rows.get()[0]?.pages).toBe(5);
});

test.each<[string, readonly SectionRow[]]>([
  ['a title', list({ title: 'Brine' })],
  ['a kind', list({ kind: 'interlude' })],
  ['an order', [...list({})].reverse()],
  ['a section less', list({}).slice(1)],
  ['editions', list({ editions: ['print'] })],
])('%s that is another shows at once, keys or not', (_, next) => {
  rows.stir();
  rows.follow(next);
  expect(rows.get()).toBe(next);
});
