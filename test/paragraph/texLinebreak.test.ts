/**
 * The breaker against npm tex-linebreak, an independent implementation of the same paper: with the same items, settings
 * and tolerance it must never find worse breaks. Both results are weighed by one function that follows the paper.
 */

import { breakLines, type InputItem, MIN_COST } from 'tex-linebreak';
import { describe, expect, test } from 'vitest';
import { HYPHEN } from '../../core/paragraph/breaker/places.ts';
import { BreakSearch } from '../../core/paragraph/breaker/search.ts';
import { BREAK_SETTINGS } from '../../core/paragraph/settings.ts';
import { type BreakList, ItemList, searched } from './items.ts';
import { mobyDickParagraphs } from './mobyDick.ts';

const DOUBLE_HYPHEN = 3000;
const FITNESS = 3000;
const HYPHEN_COST = 50;
const SETTINGS = {
  ...BREAK_SETTINGS,
  linePenalty: 1,
  shrinkBadness: 1,
  doubleHyphenDemerits: DOUBLE_HYPHEN,
  tripleHyphenDemerits: 0,
  finalHyphenDemerits: 0,
  fitnessDemerits: FITNESS,
  repeatDemerits: 0,
  shortLastLineDemerits: 0,
};
/** Widths of a to z in the paper's units; other characters are 5 wide, capitals 13. */
const LETTERS = [9, 10, 8, 10, 8, 6, 9, 10, 5, 6, 10, 5, 15, 10, 9, 10, 10, 7, 7, 7, 10, 9, 13, 10, 10, 8];

function widthOf(text: string): number {
  let width = 0;
  for (const letter of text) width += LETTERS[letter.charCodeAt(0) - 97] ?? (/[A-Z]/.test(letter) ? 13 : 5);
  return width;
}

/** Divides a word where a vowel stands before a consonant and a vowel: any regular rule serves here. */
function syllables(word: string): string[] {
  return word.split(/(?<=\w[aeiou])(?=[b-df-hj-np-tv-z][aeiou]\w)/);
}

interface Sample {
  readonly theirs: InputItem[];
  readonly ours: BreakList;
  /** For each of our breaks, the index of the item that it is. */
  readonly items: number[];
}

function sample(paragraph: string): Sample {
  const theirs: InputItem[] = [];
  const ours = new ItemList();
  const items = [-1];
  for (const word of paragraph.split(' ')) {
    if (theirs.length > 0) {
      items.push(theirs.length);
      theirs.push({ type: 'glue', width: 6, stretch: 3, shrink: 2 });
      ours.glue(6, 3, 2);
    }
    syllables(word).forEach((part, i) => {
      if (i > 0) {
        items.push(theirs.length);
        theirs.push({ type: 'penalty', width: 6, cost: HYPHEN_COST, flagged: true });
        ours.change(ours.penalty(HYPHEN_COST, HYPHEN), 6, 0);
      }
      theirs.push({ type: 'box', width: widthOf(part) });
      ours.box(widthOf(part));
    });
  }
  theirs.push({ type: 'penalty', width: 0, cost: 1000, flagged: false });
  theirs.push({ type: 'glue', width: 0, stretch: 100_000, shrink: 0 });
  ours.tie(0, 100_000, 0);
  items.push(theirs.length);
  theirs.push({ type: 'penalty', width: 0, cost: MIN_COST, flagged: false });
  ours.forcedBreak();
  return { theirs, ours: ours.take(), items };
}

/** Demerits of breaks (indices of items) by the paper's formula. */
function demeritsOf(items: readonly InputItem[], breaks: readonly number[], width: number): number {
  let total = 0;
  let start = -1;
  let fitness: number | null = null;
  let flagged = false;
  for (const end of breaks) {
    let room = width;
    let stretch = 0;
    let shrink = 0;
    let begun = false;
    for (let i = start + 1; i < end; i++) {
      const item = items[i]!;
      begun ||= item.type === 'box';
      if (item.type === 'box' || (item.type === 'glue' && begun)) room -= item.width;
      if (item.type === 'glue' && begun) {
        stretch += item.stretch;
        shrink += item.shrink;
      }
    }
    const last = items[end]!;
    if (last.type === 'penalty') room -= last.width;
    const ratio = room === 0 ? 0 : room > 0 ? room / stretch : room / shrink;
    const cost = last.type === 'penalty' && last.cost > MIN_COST ? last.cost : 0;
    total += (1 + 100 * Math.abs(ratio) ** 3 + cost) ** 2;
    const fit = ratio < -0.5 ? 0 : ratio <= 0.5 ? 1 : ratio <= 1 ? 2 : 3;
    if (fitness !== null && Math.abs(fit - fitness) > 1) total += FITNESS;
    const hyphen = last.type === 'penalty' && last.flagged;
    if (hyphen && flagged) total += DOUBLE_HYPHEN;
    [start, fitness, flagged] = [end, fit, hyphen];
  }
  return total;
}

describe('against an independent implementation', () => {
  // The other implementation's time grows with the square of a paragraph's length: a sample of those that it can stand.
  const paragraphs = mobyDickParagraphs().filter((text, i) => text.length < 420 && i % 4 === 0);
  const search = new BreakSearch(SETTINGS);

  test.each([600, 1100])('no paragraph of the novel costs more at %i units', (width) => {
    const place = { widths: Float64Array.of(width), scaling: 0, ragged: 0, lastLineMin: 0 };
    let weighed = 0;
    for (const [number, paragraph] of paragraphs.entries()) {
      const { theirs, ours, items } = sample(paragraph);
      const found = searched(search, ours, place, {
        tolerance: Infinity,
        divide: true,
        rescue: true,
        everyLength: false,
      })[0]!;
      const mine = demeritsOf(
        theirs,
        found.at.map((at) => items[at]!),
        width,
      );
      const [, ...rivals] = breakLines(theirs, width, {
        initialMaxAdjustmentRatio: Infinity,
        doubleHyphenPenalty: DOUBLE_HYPHEN,
        adjacentLooseTightPenalty: FITNESS,
      });
      const rival = demeritsOf(theirs, rivals, width);
      expect(mine, `paragraph ${number}`).toBeLessThanOrEqual(rival * (1 + 1e-9));
      expect(found.demerits).toBeCloseTo(mine, -Math.log10(mine) + 9);
      weighed++;
    }
    expect(weighed).toBeGreaterThan(200);
  });
});
