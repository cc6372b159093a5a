/** Undo and redo: whatever is done, taking it all back gives the first book, and doing it again the last. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChange, type Book, type Change, History, replaceText } from '#book';
import { book, bookValue, chapter, p } from '../builders/book.ts';

const START = (): Book => bookValue(book(chapter('One', p('A lamp.'), p('A ferry.')), chapter('Two', p('A weir.'))));

function made(value: Book, change: Change): { book: Book; inverse: Change } {
  const applied = applyChange(value, change);
  if (!applied.ok) throw new RangeError(applied.problem);
  return applied.value;
}

/** A book with its history. */
class Desk {
  readonly history = new History();
  constructor(public value: Book) {}

  do(change: Change, key: string | null = null): void {
    const { book, inverse } = made(this.value, change);
    this.value = book;
    this.history.record(change, inverse, key);
  }

  step(way: 'undo' | 'redo'): boolean {
    const change = this.history[way]();
    if (change) this.value = made(this.value, change).book;
    return change !== null;
  }
}

function typing(value: Book, section: number, offset: number, text: string): Change {
  const node = value.text.child(section);
  const block = node.child(1);
  const at = Math.min(offset, block.textContent.length);
  const place = { section: String(node.attrs['id']), block: String(block.attrs['id']) };
  const change = replaceText(value, { ...place, from: at, to: at, text });
  if (!change) throw new RangeError('no such place');
  return change;
}

const plain = (value: Book): unknown => JSON.parse(JSON.stringify({ ...value, assets: [...value.assets] }));

const deed = fc.oneof(
  fc.record({
    kind: fc.constant('type' as const),
    section: fc.nat(1),
    at: fc.nat(9),
    text: fc.constantFrom('x', 'lo', 'é'),
  }),
  fc.record({ kind: fc.constant('move' as const), section: fc.nat(1), at: fc.nat(1) }),
  fc.record({ kind: fc.constant('title' as const), title: fc.string({ minLength: 1, maxLength: 8 }) }),
);

describe('the history', () => {
  it('leads back to the first book and forth to the last, whatever was done', () => {
    fc.assert(
      fc.property(fc.array(deed, { maxLength: 25 }), fc.boolean(), (deeds, runs) => {
        const desk = new Desk(START());
        const first = plain(desk.value);
        for (const each of deeds) {
          const key = runs ? each.kind : null;
          if (each.kind === 'type') desk.do(typing(desk.value, each.section, each.at, each.text), key);
          else if (each.kind === 'title') desk.do({ kind: 'setMetadata', set: { title: each.title } }, key);
          else
            desk.do({
              kind: 'moveSection',
              section: String(desk.value.text.child(each.section).attrs['id']),
              index: each.at,
            });
        }
        const last = plain(desk.value);
        let undone = 0;
        while (desk.step('undo')) undone++;
        expect(plain(desk.value)).toEqual(first);
        expect(undone).toBeLessThanOrEqual(deeds.length);
        while (desk.step('redo'));
        expect(plain(desk.value)).toEqual(last);
      }),
      { numRuns: 60 },
    );
  });

  it('takes a run of typing back at once, and holds it as one step', () => {
    const desk = new Desk(START());
    const before = plain(desk.value);
    for (let at = 0; at < 500; at++) desk.do(typing(desk.value, 0, at, 'a'), 'typing');
    const change = desk.history.undo();
    expect(change).toMatchObject({ kind: 'editText', steps: [{ stepType: 'replace' }] });
    if (change) desk.value = made(desk.value, change).book;
    expect(plain(desk.value)).toEqual(before);
    expect(desk.history.canUndo).toBe(false);
  });

  it('parts runs by key and by seal', () => {
    const desk = new Desk(START());
    desk.do(typing(desk.value, 0, 0, 'a'), 'one');
    desk.do(typing(desk.value, 0, 1, 'b'), 'two');
    desk.history.seal();
    desk.do(typing(desk.value, 0, 2, 'c'), 'two');
    let undone = 0;
    while (desk.step('undo')) undone++;
    expect(undone).toBe(3);
  });

  it('forgets what was undone when something new is done', () => {
    const desk = new Desk(START());
    desk.do(typing(desk.value, 0, 0, 'a'));
    desk.step('undo');
    expect(desk.history.canRedo).toBe(true);
    desk.do(typing(desk.value, 0, 0, 'b'));
    expect([desk.history.canRedo, desk.step('redo')]).toEqual([false, false]);
    expect(desk.value.text.child(0).child(1).textContent).toBe('bA lamp.');
  });
});
