/** Undo and redo: whatever is done, taking it all back gives the first book, and doing it again the last. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assetIdOf } from '#base';
import { applyChange, assetRecord, type Book, type Change, History, hasId, replaceText } from '#book';
import { book, bookValue, chapter, EBOOK, p } from '../builders/book.ts';

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
  const block = node.maybeChild(1) ?? node.child(0);
  const at = Math.min(offset, block.textContent.length);
  const place = { section: String(node.attrs['id']), block: String(block.attrs['id']) };
  const change = replaceText(value, { ...place, from: at, to: at, text });
  if (!change) throw new RangeError('no such place');
  return change;
}

/** A book to compare: the order in which pictures came to it is not part of it. */
const plain = (value: Book): unknown => JSON.parse(JSON.stringify({ ...value, assets: [...value.assets].sort() }));

/** Changes of every kind, each as the book at hand allows; null where it does not. */
const MAKERS: Readonly<Record<string, (value: Book, one: number, two: number) => Change | null>> = {
  type: (value, one, two) => typing(value, one % value.text.childCount, two, 'abc'.slice(0, 1 + (two % 3))),
  move: (value, one, two) => ({ kind: 'moveSection', section: idAt(value, one), index: two % value.text.childCount }),
  retitle: (value, one, two) => ({ kind: 'setSection', section: idAt(value, one), set: { label: `No. ${two}` } }),
  drop: (value, one) => (value.text.childCount > 1 ? { kind: 'dropSection', section: idAt(value, one) } : null),
  split: (value, one, two) => {
    const section = value.text.child(one % value.text.childCount);
    const block = section.maybeChild(2);
    if (!block) return null;
    const [added, id] = [`split${two}-${value.text.childCount}`, String(block.attrs['id'])];
    // Ids are given once: a section that was split off and joined again keeps the one it had.
    if (hasId(value.text, added)) return null;
    return { kind: 'splitSection', section: String(section.attrs['id']), block: id, added, set: {} };
  },
  join: (value) => (value.text.childCount > 1 ? { kind: 'joinSections', section: idAt(value, 0) } : null),
  title: (_, one, two) => ({ kind: 'setMetadata', set: { title: `Title ${one}`, year: two } }),
  edition: (value, one) => ({
    kind: 'putEdition',
    edition: { ...EBOOK, id: `e${one % 3}`, name: `Shop ${one}` },
    index: value.editions.some(({ id }) => id === `e${one % 3}`) ? 0 : value.editions.length,
  }),
  dropEdition: (value, one) => {
    const edition = value.editions[one % Math.max(1, value.editions.length)];
    return edition ? { kind: 'dropEdition', edition: edition.id } : null;
  },
  design: (value, one, two) => ({
    kind: 'putDesign',
    design: 'mine',
    settings: { size: one, leading: two },
    index: value.designs.length > 0 ? value.designs.length - 1 : 0,
  }),
  picture: (_, one) => {
    const bytes = Uint8Array.of(one, 1, 2);
    const facts = { id: assetIdOf(bytes), mediaType: 'image/png', name: `${one}.png`, pixels: null };
    return { kind: 'putAsset', asset: assetRecord({ ...facts, bytes }) };
  },
  dropPicture: (value) => {
    const [asset] = [...value.assets.keys()].sort();
    return asset === undefined ? null : { kind: 'dropAsset', asset };
  },
};

function idAt(value: Book, index: number): string {
  return String(value.text.child(index % value.text.childCount).attrs['id']);
}

const deed = fc.record({
  kind: fc.constantFrom(...Object.keys(MAKERS)),
  one: fc.nat(20),
  two: fc.nat(20),
  run: fc.boolean(),
});

describe('the history', () => {
  it('leads back to the first book and forth to the last, whatever was done', () => {
    fc.assert(
      fc.property(fc.array(deed, { maxLength: 30 }), (deeds) => {
        const desk = new Desk(START());
        const first = plain(desk.value);
        for (const { kind, one, two, run } of deeds) {
          const change = MAKERS[kind]?.(desk.value, one, two);
          if (change) desk.do(change, run ? kind : null);
        }
        const last = plain(desk.value);
        let undone = 0;
        while (desk.step('undo')) undone++;
        expect(plain(desk.value)).toEqual(first);
        expect(undone).toBeLessThanOrEqual(deeds.length);
        while (desk.step('redo'));
        expect(plain(desk.value)).toEqual(last);
      }),
      { numRuns: 150 },
    );
  });

  it('stands still between steps back and forth', () => {
    fc.assert(
      fc.property(
        fc.array(deed, { minLength: 1, maxLength: 15 }),
        fc.array(fc.boolean(), { maxLength: 40 }),
        (deeds, ways) => {
          const desk = new Desk(START());
          const states = [plain(desk.value)];
          for (const { kind, one, two } of deeds) {
            const change = MAKERS[kind]?.(desk.value, one, two);
            if (!change) continue;
            desk.do(change);
            states.push(plain(desk.value));
          }
          let at = states.length - 1;
          for (const back of ways) {
            if (desk.step(back ? 'undo' : 'redo')) at += back ? -1 : 1;
            expect(plain(desk.value)).toEqual(states[at]);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('holds thousands of deeds in the space of what was typed', () => {
    const desk = new Desk(START());
    const deeds = 3000;
    for (let at = 0; at < deeds; at++) desk.do(typing(desk.value, at % 2, 0, 'x'), `run ${at}`);
    const bytes = JSON.stringify(desk.history).length;
    // A step of one letter, its inverse and their ids are some four hundred characters.
    expect(bytes / deeds).toBeLessThan(500);
    for (let at = 0; at < deeds; at++) desk.step('undo');
    expect([plain(desk.value), desk.history.canUndo]).toEqual([plain(START()), false]);
  });

  it('begins a new deed after a step back, whatever the key', () => {
    const desk = new Desk(START());
    desk.do(typing(desk.value, 0, 0, 'a'), 'run');
    desk.do(typing(desk.value, 1, 0, 'b'), 'other');
    desk.step('undo');
    desk.do(typing(desk.value, 0, 1, 'c'), 'run');
    desk.step('undo');
    expect(desk.value.text.child(0).child(1).textContent).toBe('aA lamp.');
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
