import type { Node } from 'prosemirror-model';
import { describe, expect, it } from 'vitest';
import type { GlyphRun } from '#page';
import {
  attribution,
  book,
  chapter,
  epigraph,
  item,
  letter,
  line,
  list,
  p,
  quotation,
  stanza,
  verse,
} from '../builders/book.ts';
import { linesOf, madeUp, quoin, runsOf } from './laws.ts';
import { lines, short } from './text.ts';
import { PITCH } from './typewriter.ts';

const EM = 11.5;
/** Left edge of the text block of a recto, and its width. */
const [LEFT, MEASURE] = [45, 300];

/** The runs of a chapter that holds blocks between two paragraphs, by their words. */
function runsByText(...blocks: readonly Node[]): ReadonlyMap<string, GlyphRun> {
  const { pages } = madeUp(book(chapter('One', p(lines(2)), ...blocks, p(lines(2, 'z')))));
  return new Map(pages.flatMap((page) => runsOf(page).map((run) => [run.text, run] as const)));
}

function end(run: GlyphRun): number {
  return run.x + run.text.length * PITCH * run.size;
}

describe('a letter', () => {
  const body = 'I have been to the weir and back again since you wrote, and the book is still there.';

  it('closes with lines of one left edge, the longest an em from the right', () => {
    const runs = runsByText(letter(p('Dear Tom,'), p(body), p({ align: 'end' }, 'Yours faithfully,'), p('M. D.')));
    const [valediction, name] = [runs.get('Yours faithfully,')!, runs.get('M. D.')!];
    expect(name.x).toBeCloseTo(valediction.x);
    expect(end(valediction)).toBeCloseTo(LEFT + MEASURE - 1.5 * EM - EM, 0);
    expect(runs.get('Dear Tom,')!.x).toBeCloseTo(LEFT + 1.5 * EM);
  });

  it('opens with address, date and salutation flush, and indents its text', () => {
    const runs = runsByText(letter(p('The Top House'), p('11th June'), p('Dear Tom,'), p('I was there.'), p(body)));
    for (const each of ['The Top House', '11th June', 'Dear Tom,'])
      expect(runs.get(each)!.x).toBeCloseTo(LEFT + 1.5 * EM);
    expect(runs.get('I was there.')!.x).toBeCloseTo(LEFT + 2.5 * EM);
  });

  it('begins a postscript at the left again', () => {
    const runs = runsByText(letter(p('Dear Tom,'), p(body), p('Ever,'), p('Ida'), p('P.S. Burn this.')));
    expect(runs.get('P.S. Burn this.')!.x).toBeCloseTo(LEFT + 1.5 * EM);
    expect(runs.get('Ida')!.x).toBeGreaterThan(LEFT + MEASURE / 2);
  });

  it.each([
    ['a sentence at its end', ['Dear Tom,', body, 'Come at once.'], 'Come at once.'],
    ['a salutation without more', ['Dear Tom,'], 'Dear Tom,'],
  ])('is text where it has no closing: %s', (_, paragraphs, last) => {
    const runs = runsByText(letter(...paragraphs.map((each) => p(each))));
    expect(runs.get(last)!.x).toBeLessThan(LEFT + 3 * EM);
  });

  it('keeps its closing with the text above it', () => {
    for (const before of [14, 15, 16, 17, 18, 19]) {
      const note = letter(p('Dear Tom,'), p(lines(3, 'b')), p('Ever,'), p('Ida'));
      const { pages } = madeUp(book(chapter('One', p(lines(before)), note, p(lines(9, 'z')))));
      const page = pages.find((each) => linesOf(each).includes('Ever,'))!;
      expect(linesOf(page).map(short)).toEqual(expect.arrayContaining(['b3', 'Ever,', 'Ida']));
    }
  });
});

describe('an epigraph', () => {
  it('that is short takes the middle, its source ends with its lines', () => {
    const runs = runsByText(epigraph(p('All accounts are closed at sea.'), attribution('A. Roth')));
    const [words, source] = [runs.get('All accounts are closed at sea.')!, runs.get('A. Roth')!];
    expect((words.x + end(words)) / 2).toBeCloseTo(LEFT + MEASURE / 2, 0);
    expect(end(source)).toBeCloseTo(end(words), 0);
  });

  it('that is centred has its source in the middle below it, no wider than its lines where that can be', () => {
    const quoted = p({ align: 'center' }, 'All accounts are closed at sea, and opened.');
    const middle = (run: GlyphRun): number => (run.x + end(run)) / 2;
    const runs = runsByText(epigraph(quoted, attribution('A. Roth')));
    const words = runs.get('All accounts are closed at sea, and opened.')!;
    expect(middle(words)).toBeCloseTo(LEFT + MEASURE / 2, 0);
    expect(middle(runs.get('A. Roth')!)).toBeCloseTo(middle(words), 0);
    const long = runsByText(epigraph(quoted, attribution('A. Roth, in a letter that he wrote to the harbour master')));
    const source = [...long.values()].filter(({ text }) => /Roth|master/.test(text));
    expect(source).toHaveLength(2);
    for (const run of source) {
      expect(middle(run)).toBeCloseTo(middle(words), 0);
      expect(end(run)).toBeLessThanOrEqual(end(words) + 0.1);
    }
  });

  it('leaves the sources after it where they were', () => {
    const centred = epigraph(p({ align: 'center' }, 'At sea.'), attribution('A. Roth'));
    const runs = runsByText(centred, p(lines(2, 'm')), quotation(p('He said so.'), attribution('The log')));
    expect(end(runs.get('The log')!)).toBeCloseTo(LEFT + MEASURE - quoin.quotation.indent * EM, 0);
  });

  it('that is long fills the narrower column', () => {
    const { epigraph: setting } = quoin;
    const runs = runsByText(epigraph(p(lines(6, 'e')), attribution('A. Roth')));
    expect(end(runs.get('A. Roth')!)).toBeCloseTo(LEFT + MEASURE - setting.indent * EM, 0);
  });
});

describe('a poem', () => {
  it('names its source at the end of its longest line', () => {
    const runs = runsByText(
      verse(stanza('The tide comes in and the tide goes out,', 'no more'), attribution('A song')),
    );
    const [longest, source] = [runs.get('The tide comes in and the tide goes out,')!, runs.get('A song')!];
    expect(end(source)).toBeCloseTo(end(longest), 0);
  });

  it('with a line that no page is wide enough for stands where a quotation would', () => {
    const long = Array.from({ length: 14 }, () => 'long').join(' ');
    const runs = runsByText(verse(stanza(line(`${long} and more`), 'short')));
    expect(runs.get('short')!.x).toBeCloseTo(LEFT + 1.5 * EM);
  });
});

describe('a list', () => {
  it('leaves none of its lines alone at an edge of a page', () => {
    for (const before of [17, 18, 19, 20, 21, 22]) {
      const goods = list(...['tar', 'rope', 'salt', 'oil'].map((each) => item(p(each))));
      const { pages } = madeUp(book(chapter('One', p(lines(before)), goods, p(lines(9, 'z')))));
      const counts = pages.map((page) => linesOf(page).filter((each) => each.startsWith('\u2022')).length);
      expect(counts.filter((count) => count > 0)).not.toContain(1);
    }
  });
});
