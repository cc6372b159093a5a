/** Lists of breaks that are kept from one measure to the next: lines are those of a setter that keeps nothing. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { LengthChoice, ParagraphSetter, ParagraphShape, StyledText } from '#paragraph';
import { HYPHEN } from '../../core/paragraph/breaker/places.ts';
import { ItemList, kernel } from './items.ts';
import { mobyDickParagraphs } from './mobyDick.ts';
import { at, openShop, type Shop, styled } from './setting.ts';

/** In place of a list's number (`kernel/assembly/keptLists.ts`), and the bytes of all that are kept. */
const TOO_LONG = -1;
const ROOM = 64 * 2 ** 20;
const BREAK = 88;

let shop: Shop;

beforeAll(async () => {
  shop = await openShop();
});

function linesOf(setter: ParagraphSetter, text: StyledText, shape: ParagraphShape) {
  const { lines, demerits } = setter.break({ text, shape, looseness: 0 });
  const told = lines.map(({ from, to, ratio, width, hyphenated }) => ({ from, to, ratio, width, hyphenated }));
  const lengths = setter.lengths({ text, shape, most: Number.POSITIVE_INFINITY });
  return { told, demerits, lengths: lengths.map(({ lines, demerits }: LengthChoice) => [lines, demerits]) };
}

describe('a text at one measure after the other', () => {
  const shapes = fc.record({
    measure: fc.integer({ min: 90, max: 420 }),
    hang: fc.boolean(),
    align: fc.constantFrom<ParagraphShape['align']>('justify', 'justify', 'start', 'center'),
    indentFirst: fc.constantFrom(0, 12),
    keeps: fc.boolean(),
  });

  test('is set as by a setter that has just begun', async () => {
    const paragraphs = mobyDickParagraphs().filter((each) => each.length < 1500);
    const fresh = await openShop();
    let kept = 0;
    let single = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.nat(paragraphs.length - 1),
        fc.array(shapes, { minLength: 2, maxLength: 5 }),
        async (which, list) => {
          const words = paragraphs[which]!;
          const text = styled(words, shop.style);
          for (const { measure, hang, align, indentFirst, keeps } of list) {
            const shape = at(measure, { hang, align, indentFirst, scaling: align === 'justify' ? 0.01 : 0 });
            const found = linesOf(shop.setter, text, shape);
            expect(found).toEqual(linesOf(fresh.setter, styled(words, fresh.style), shape));
            if (found.told.length === 1) single++;
            if (keeps && shop.setter.keepLists(text, shape)) kept++;
          }
        },
      ),
      { numRuns: 150 },
    );
    expect(kept).toBeGreaterThan(50);
    expect(single).toBeGreaterThan(10);
  });

  test('may have its lists kept before it is set', async () => {
    const [words] = mobyDickParagraphs().filter((each) => each.length > 700);
    const [one, other] = [await openShop(), await openShop()];
    const text = styled(words!, one.style);
    const shape = at(240, { hang: true, scaling: 0.01 });
    one.setter.keepLists(text, shape);
    expect(linesOf(one.setter, text, shape)).toEqual(linesOf(other.setter, styled(words!, other.style), shape));
  });

  test('has its lists kept once', () => {
    const text = styled('A mast was raised before the storm, and the crew went below to wait.', shop.style);
    const shape = at(120, { hang: true });
    expect(shop.setter.keepLists(text, shape)).toBe(true);
    expect(shop.setter.keepLists(text, at(200, { hang: true }))).toBe(false);
    expect(shop.setter.keepLists(text, at(200))).toBe(true);
  });
});

describe('in the kernel', () => {
  function made(words: number, width: number): void {
    const items = new ItemList();
    for (let word = 0; word < words; word++) {
      items.box(width);
      items.penalty(50, HYPHEN);
    }
    items.forcedBreak();
    items.take();
  }

  /** The width up to a break of the list at hand. */
  function widthAt(at: number): number {
    kernel.renew();
    return kernel.numbers[(kernel.calls.breaksAt() + at * BREAK) >> 3]!;
  }

  test('a list is taken up as it was, and another one made after it', () => {
    const { calls } = kernel;
    made(10, 7);
    const sevens = calls.keepList();
    made(20, 9);
    const nines = calls.keepList();
    expect(calls.takeList(sevens)).toBe(1);
    expect([calls.breakCount(), widthAt(3)]).toEqual([12, 21]);
    expect(calls.takeList(nines)).toBe(1);
    expect([calls.breakCount(), widthAt(3)]).toEqual([22, 27]);
    made(5, 4);
    expect([calls.breakCount(), widthAt(3)]).toEqual([7, 12]);
    expect(calls.takeList(sevens)).toBe(1);
    expect([calls.breakCount(), widthAt(3)]).toEqual([12, 21]);
  });

  test('all are forgotten when their room is full, and those that come after are kept', () => {
    const { calls } = kernel;
    made(10, 7);
    const first = calls.keepList();
    made(10_000, 1);
    const lists = Array.from({ length: Math.ceil(ROOM / (10_000 * BREAK)) + 1 }, () => calls.keepList());
    expect(calls.hasList(first)).toBe(0);
    expect(calls.takeList(first)).toBe(0);
    expect(calls.takeList(lists.at(-1)!)).toBe(1);
    expect([calls.breakCount(), widthAt(500)]).toEqual([10_002, 500]);
    expect(kernel.bytes.length).toBeLessThan(ROOM * 1.5);
  });

  test('a list that is too long is not kept', () => {
    made(13_000, 1);
    expect(kernel.calls.keepList()).toBe(TOO_LONG);
    expect(kernel.calls.takeList(TOO_LONG)).toBe(0);
  });
});
