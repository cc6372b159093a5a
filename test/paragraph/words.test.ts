/** Words kept as columns of numbers, and the copy that is read into them: held to the face and to the rules for text. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { PACKED } from '#page';
import type { Span, StyledText, TextStyle } from '#paragraph';
import {
  ENDINGS,
  endingAt,
  HOLDING_SPACE,
  kindAt,
  SPACE,
  SPACE_END,
  valueAt,
  WORD,
} from '../../core/paragraph/text/copy.ts';
import { FountRack } from '../../core/paragraph/text/fount.ts';
import { openCase } from '../../core/paragraph/text/host.ts';
import { jointOf, mayBreakAtSpace } from '../../core/paragraph/text/opportunities.ts';
import { CopyReader } from '../../core/paragraph/text/reader.ts';

import { mobyDickParagraphs } from './mobyDick.ts';
import { openShop, type Shop } from './setting.ts';
import { shapedWord } from './shapedWord.ts';

let shop: Shop;
let rack: FountRack;

beforeAll(async () => {
  shop = await openShop();
  rack = new FountRack(shop.library, () => shop.english);
});

function paragraph(...parts: readonly (string | readonly [string, Partial<TextStyle>])[]): StyledText {
  const spans: Span[] = [];
  let offset = 0;
  for (const part of parts) {
    const [text, other] = typeof part === 'string' ? [part, {}] : part;
    spans.push({ kind: 'text', text, offset, style: { ...shop.style, ...other }, href: null });
    offset += text.length;
  }
  return { block: 'block-1', spans };
}

describe('the case', () => {
  test('a word has the glyphs and the width that its face gives it, whatever stands beside it', () => {
    const words = openCase(rack.founts);
    const styles: Partial<TextStyle>[] = [{}, { italic: true }, { letterspace: 0.1 }, { letterCase: 'upper' }];
    const token = fc.string({ unit: fc.constantFrom(...'fiAVTo,.’”—e\u0301\u00adש1'), minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(token, fc.nat(3), (text, chosen) => {
        const fount = rack.of({ ...shop.style, ...styles[chosen] });
        const word = shapedWord(words, text, fount);
        expect(words.token(word)).toBe(text);
        expect(shapedWord(words, text, fount)).toBe(word);
        if (words.rareOf(word)) return;
        const shaped = fount.face.shape(text, fount.setting);
        const first = words.firstGlyph(word);
        const packed = Array.from(shaped.glyphs, (_, i) =>
          words.glyphs.slice((first + i) * PACKED, (first + i + 1) * PACKED),
        );
        expect(words.endGlyph(word) - first).toBe(shaped.glyphs.length);
        expect(packed.map(([glyph]) => glyph! & 0xffff)).toEqual([...shaped.glyphs]);
        expect(packed.map(([glyph]) => glyph! >>> 16)).toEqual([...shaped.clusters]);
        expect(packed.map(([, advance]) => advance)).toEqual([...shaped.advances]);
        expect(words.widthOf(word)).toBe(shaped.width * fount.scale);
      }),
    );
  });

  test('founts and directions have words of their own', () => {
    const words = openCase(rack.founts);
    const roman = rack.of(shop.style);
    const italic = rack.of({ ...shop.style, italic: true });
    const all = [
      shapedWord(words, 'sea', roman),
      shapedWord(words, 'sea', italic),
      shapedWord(words, 'sea', roman, true),
    ];
    expect(new Set(all).size).toBe(3);
    expect(all.map((word) => words.fount(word))).toEqual([roman, italic, roman]);
    expect(all.map((word) => words.isLeftward(word))).toEqual([false, false, true]);
  });

  test('words are found again after the columns have grown', () => {
    const words = openCase(rack.founts);
    const fount = rack.of(shop.style);
    const tokens = Array.from({ length: 9000 }, (_, i) => `w${(i * 7919).toString(36)}`);
    const ids = tokens.map((token) => shapedWord(words, token, fount));
    expect(tokens.map((token) => shapedWord(words, token, fount))).toEqual(ids);
    expect(ids.map((id) => words.token(id))).toEqual(tokens);
    expect(words.count).toBe(9000);
  });
});

describe('reading', () => {
  /** What the pieces say, one by one; laws are checked: offsets rise, spaces and words are told apart. */
  function pieces(text: StyledText): string[] {
    const copy = new CopyReader(rack).read(text);
    return Array.from({ length: copy.count }, (_, i) => {
      if (i > 0) expect(copy.offsets[i]).toBeGreaterThan(copy.offsets[i - 1]!);
      const kind = kindAt(copy, i);
      return kind === WORD ? copy.words.token(valueAt(copy, i)) : kind === HOLDING_SPACE ? '~' : '_';
    });
  }

  test('words and spaces in their order', () => {
    expect(pieces(paragraph('  Call me\u00a0Ishmael.\tSome\n years  '))).toEqual(
      '_ _ Call _ me ~ Ishmael. _ Some _ _ years'.split(' '),
    );
    expect(pieces(paragraph('un', ['likely', { italic: true }], ' sea'))).toEqual(['un', 'likely', '_', 'sea']);
    expect(pieces(paragraph(''))).toEqual([]);
  });

  test('lines may end where the rules for text say, in all a novel', () => {
    const reader = new CopyReader(rack);
    for (const text of mobyDickParagraphs().filter((_, i) => i % 12 === 0)) {
      const copy = reader.read(paragraph(text));
      const tokenAt = (i: number) => (kindAt(copy, i) === WORD ? copy.words.token(valueAt(copy, i)) : null);
      for (let i = 1; i < copy.count - 1; i++) {
        const [before, after] = [tokenAt(i - 1), tokenAt(i + 1)];
        if (kindAt(copy, i) !== SPACE || before === null || after === null) continue;
        expect(endingAt(copy, i) === SPACE_END, `${before} ${after}`).toBe(mayBreakAtSpace(before, after));
      }
    }
  });

  test('lines may end between styles where the rules for text say', () => {
    const part = fc.string({ unit: fc.constantFrom(...'ab-—’”“1.,/…'), minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(part, part, (before, after) => {
        const copy = new CopyReader(rack).read(paragraph(before, [after, { italic: true }]));
        expect(ENDINGS[endingAt(copy, 1)]).toBe(jointOf(before, after) ?? 'none');
      }),
    );
  });

  test('a full case gives way to a new one, and copy made from the old one stays good', () => {
    const reader = new CopyReader(rack);
    const first = reader.read(paragraph('“Whale-ships,” she said.'));
    let next = reader.read(paragraph('the sea'));
    for (let round = 0; round < 101 && next.words === first.words; round++) {
      const many = Array.from({ length: 1000 }, (_, i) => (round * 1000 + i).toString(36));
      next = reader.read(paragraph(many.join(' ')));
    }
    expect(next.words).not.toBe(first.words);
    expect(next.words.count).toBeLessThan(2000);
    const words = Array.from({ length: first.count }, (_, i) => i).filter((i) => kindAt(first, i) === WORD);
    expect(words.map((i) => first.words.token(valueAt(first, i)))).toEqual(['“Whale-ships,”', 'she', 'said.']);
  });
});
