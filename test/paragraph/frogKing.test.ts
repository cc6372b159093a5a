/**
 * The worked example of Knuth and Plass 1981: a tale set at two widths, with the paper's letter widths and glue. Ratios
 * agree with the series printed in the paper to three decimals (as remembered); the totals were found by another
 * implementation.
 */
import { describe, expect, test } from 'vitest';
import { HYPHEN } from '../../core/paragraph/breaker/places.ts';
import { BreakSearch } from '../../core/paragraph/breaker/search.ts';
import { BREAK_SETTINGS } from '../../core/paragraph/settings.ts';
import { type BreakList, ItemList, lineBetween, searched } from './items.ts';

const LETTERS = [9, 10, 8, 10, 8, 6, 9, 10, 5, 6, 10, 5, 15, 10, 9, 10, 10, 7, 7, 7, 10, 9, 13, 10, 10, 8];
const HYPHEN_WIDTH = 6;
const INDENT = 18;
const GLUE: Record<string, [number, number, number]> = { ',': [6, 4, 2], ';': [6, 4, 1], '.': [8, 6, 1] };

/** Hyphen points as the paper has them: `_` in the text. */
const TALE = `In olden times when wish_ing still helped one, there lived a king whose daugh_ters were all beau_ti_ful; and the
young_est was so beau_ti_ful that the sun it_self, which has seen so much, was aston_ished when_ever it shone in her face.
Close by the king's castle lay a great dark for_est, and un_der an old lime-tree in the for_est was a well, and when the
day was very warm, the king's child went out into the for_est and sat down by the side of the cool foun_tain; and when she
was bored she took a golden ball, and threw it up on high and caught it; and this ball was her favor_ite play_thing.`;

const SETTINGS = {
  ...BREAK_SETTINGS,
  linePenalty: 1,
  shrinkBadness: 1,
  doubleHyphenDemerits: 3000,
  tripleHyphenDemerits: 0,
  finalHyphenDemerits: 0,
  fitnessDemerits: 3000,
  repeatDemerits: 0,
  shortLastLineDemerits: 0,
};

function widthOf(letters: string): number {
  let width = 0;
  for (const letter of letters) {
    if (letter === 'C') width += 13;
    else if (letter === 'I') width += 6;
    else if (letter === '-') width += HYPHEN_WIDTH;
    else width += LETTERS[letter.charCodeAt(0) - 97] ?? 5;
  }
  return width;
}

/** The tale's items, and for each break the text before it. */
function tale(): { list: BreakList; ends: string[]; natural: number } {
  const items = new ItemList();
  const ends = [''];
  let text = '';
  let natural = INDENT;
  items.box(INDENT);
  const words = TALE.split(/\s+/);
  words.forEach((word, index) => {
    for (const part of word.split(/(?<=-)|(_)/).filter(Boolean)) {
      if (part === '_') {
        items.change(items.penalty(50, HYPHEN), HYPHEN_WIDTH, 0);
        ends.push(`${text}-`);
        continue;
      }
      items.box(widthOf(part));
      natural += widthOf(part);
      text += part;
      if (part.endsWith('-')) {
        items.penalty(50, HYPHEN);
        ends.push(text);
      }
    }
    if (index === words.length - 1) return;
    const glue = GLUE[word.at(-1)!] ?? [6, 3, 2];
    items.glue(...glue);
    natural += glue[0];
    ends.push(text);
    text += ' ';
  });
  items.tie(0, 1000, 0);
  items.forcedBreak();
  ends.push(text);
  return { list: items.take(), ends, natural };
}

function set(width: number) {
  const { list, ends } = tale();
  const place = { widths: Float64Array.of(width), scaling: 0, ragged: 0, lastLineMin: 0 };
  const found = searched(new BreakSearch(SETTINGS), list, place, {
    tolerance: 1,
    divide: true,
    rescue: false,
    everyLength: false,
  })[0]!;
  let start = 0;
  const lines = found.at.map((end, ordinal) => {
    const line = lineBetween(list, place, { ordinal, start, end });
    start = end;
    return { end: ends[end]!, ratio: line.ratio, hyphen: (list.flags[end]! & HYPHEN) !== 0 };
  });
  return { lines, demerits: found.demerits };
}

/** The expected lines: the words at their ends, and their ratios. */
function expectLines(width: number, expected: readonly [string, number][]): void {
  const { lines } = set(width);
  expect(lines.length).toBe(expected.length);
  lines.forEach((line, i) => {
    const [end, ratio] = expected[i]!;
    expect(line.end.endsWith(end), `line ${i} ends ${line.end.slice(-20)}`).toBe(true);
    expect(line.ratio).toBeCloseTo(ratio, 3);
    expect(Math.abs(line.ratio)).toBeLessThanOrEqual(1);
  });
}

describe('the frog king', () => {
  test('has 4584 units of boxes and glue', () => {
    expect(tale().natural).toBe(4584);
  });

  test('at 390 takes twelve lines', () => {
    expectLines(390, [
      ['helped one,', 0.857],
      ['all beau-', 0],
      ['that the', 0.28],
      ['was aston-', 1],
      ['Close by the', 0.067],
      ['and under an', -0.278],
      ['and when', 0.536],
      ['went out', -0.167],
      ['side of the', 0.7],
      ['she took a', -0.176],
      ['and caught', 0.357],
      ['favorite plaything.', 0.049],
    ]);
  });

  test('at 500 takes ten lines', () => {
    expectLines(500, [
      ['there lived a', 0.774],
      ['youngest was', 0.179],
      ['much, was', 0.629],
      ["king's", 0.545],
      ['tree in the', 0],
      ["the king's", 0.079],
      ['side of the', 0.282],
      ['golden ball,', 0.294],
      ['was her', 0.575],
      ['favorite plaything.', 0.353],
    ]);
  });

  test('divides two words at 390 and none at 500', () => {
    expect(set(390).lines.flatMap((line, i) => (line.hyphen ? [i] : []))).toEqual([1, 3]);
    expect(set(500).lines.some((line) => line.hyphen)).toBe(false);
  });

  test('costs 31066 demerits at 390 and 3669 at 500', () => {
    expect(Math.round(set(390).demerits)).toBe(31066);
    expect(Math.round(set(500).demerits)).toBe(3669);
  });
});
