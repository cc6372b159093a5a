import fc from 'fast-check';
import type { Node } from 'prosemirror-model';
import { describe, expect, it } from 'vitest';
import type { Asset } from '#book';
import type { Page } from '#page';
import {
  book,
  caption,
  chapter,
  figure,
  h,
  item,
  list,
  note,
  p,
  quotation,
  sceneBreak,
  stanza,
  verse,
} from '../builders/book.ts';
import { linesOf, madeUp, quoin, runsOf, textLines } from './laws.ts';
import { dividedLines, lines, short } from './text.ts';

/** An opener takes six lines of sink, one of number, two of title and four of white: 23 of 36 are left. */
const AFTER_OPENER = 23;

function chapterOf(...lengths: readonly number[]): Node {
  return book(chapter('One', ...paragraphs(lengths)));
}

function paragraphs(lengths: readonly number[]): readonly Node[] {
  return lengths.map((length, index) => p(lines(length, letter(index))));
}

/** a, b, ... z, aa, ab, ... */
function letter(index: number): string {
  const rest = index < 26 ? '' : letter(Math.floor(index / 26) - 1);
  return rest + String.fromCharCode(97 + (index % 26));
}

function shortLines(page: Page | undefined): readonly string[] {
  return page ? textLines(page).map(short) : [];
}

/** Grid lines from the first to the last line of a page. */
function depthOf(page: Page): number {
  const baselines = runsOf(page).map((run) => run.y);
  return Math.round((Math.max(...baselines) - 57.475) / 14) + 1;
}

describe('a chapter', () => {
  it('opens with its number in words, its title and a flush paragraph; the next one is indented by an em', () => {
    const { pages } = madeUp(book(chapter('The Weir', p(lines(3, 'a')), p(lines(2, 'b')))));
    expect(linesOf(pages[0]!).map(short)).toEqual(['Chapter One', 'The Weir', 'a1', 'a2', 'a3', 'b1', 'b2', '1']);
    const starts = runsOf(pages[0]!).slice(2);
    expect(starts.map((run) => Math.round(run.x - 45))).toEqual([0, 0, 0, 12, 0]);
  });

  it('begins a quarter down the page and goes on at its head', () => {
    const { pages, design } = madeUp(chapterOf(AFTER_OPENER, 12));
    const { firstBaseline, leading } = design.frame;
    expect((runsOf(pages[0]!)[0]!.y - firstBaseline) / leading).toBeCloseTo(6);
    expect(runsOf(pages[1]!)[0]!.y).toBeCloseTo(firstBaseline);
  });

  it('keeps the heading of a section on one page with two lines of its text', () => {
    const { pages } = madeUp(book(chapter('One', p(lines(AFTER_OPENER - 3, 'a')), h('Below'), p(lines(9, 'b')))));
    expect(shortLines(pages[0]).at(-1)).toBe('a20');
    expect(shortLines(pages[1]).slice(0, 2)).toEqual(['Below', 'b1']);
  });
});

describe('page ends', () => {
  it('leave no first line alone at the foot', () => {
    const { pages } = madeUp(chapterOf(AFTER_OPENER - 1, 6));
    expect(shortLines(pages[1])).toEqual(['b1', 'b2', 'b3', 'b4', 'b5', 'b6']);
  });

  it('leave no last line alone at the head', () => {
    // The last line would stand alone over the leaf: the page runs a line long instead.
    const { pages } = madeUp(chapterOf(AFTER_OPENER - 5, 6, 7));
    expect(shortLines(pages[0]).at(-1)).toBe('b6');
  });

  it('keep a paragraph of three lines whole', () => {
    const { pages } = madeUp(chapterOf(AFTER_OPENER - 1, 3, 9));
    expect(shortLines(pages[1])[0]).toBe('b1');
  });

  it('give facing pages the same depth where one of them has to be short', () => {
    // The recto page 3 can't be full (its last paragraph has three lines), so the verso gives a line too.
    const { pages } = madeUp(chapterOf(AFTER_OPENER, 2, 2, 2, 30, 2, 31, 3, 30, 30));
    expect(depthOf(pages[1]!)).toBe(depthOf(pages[2]!));
  });

  it('move a hyphen away from the end of a recto', () => {
    const text = book(chapter('One', p(dividedLines(60))));
    const { pages } = madeUp(text, { settings: { ...quoin, opener: { ...quoin.opener, sink: 0 } } });
    const last = runsOf(pages[0]!).at(-1)!;
    expect(last.text.endsWith('\u00AD')).toBe(true); // every line of this text ends so: it can't be avoided
    const mixed = book(
      chapter('One', p(lines(AFTER_OPENER - 2, 'a')), p(dividedLines(3, 'b') + lines(6, ' c')), p(lines(9, 'd'))),
    );
    const moved = madeUp(mixed).pages[0]!;
    expect(runsOf(moved).at(-1)!.text.endsWith('\u00AD')).toBe(false);
  });

  it('leave at least five lines on a last page where earlier pages can give some', () => {
    const { pages } = madeUp(chapterOf(5, 5, 5, 5, 3, 5, 5, 5, 5, 5, 5, 5, 3));
    expect(shortLines(pages[2]).length === 0 || shortLines(pages[2]).length >= 5).toBe(true);
  });
});

describe('a scene break', () => {
  const breakAfter = (count: number) =>
    book(chapter('One', p(lines(count, 'a')), sceneBreak(), p(lines(12, 'b')), p(lines(8, 'c'))));

  it('is a blank line inside a page, and the paragraph after it stands flush', () => {
    const page = madeUp(breakAfter(4)).pages[0]!;
    expect(linesOf(page).map(short)).not.toContain('*');
    const [before, after] = [
      runsOf(page).find((run) => short(run.text) === 'a4')!,
      runsOf(page).find((run) => short(run.text) === 'b1')!,
    ];
    expect(after.y - before.y).toBeCloseTo(28);
    expect(after.x).toBe(45);
  });

  it.each([AFTER_OPENER - 2, AFTER_OPENER - 1, AFTER_OPENER])(
    'shows an ornament where it falls at an edge (%i lines before it)',
    (count) => {
      const { pages } = madeUp(breakAfter(count));
      const shown = pages.flatMap((page) => linesOf(page)).filter((line) => line === '*');
      expect(shown).toHaveLength(1);
      // FACTS T-27: an ornament at the head has lines of text after it.
      expect(linesOf(pages[1]!).map(short).at(-2)).not.toBe('*');
    },
  );

  it('shows an ornament everywhere where the manuscript or the design asks for it', () => {
    const { pages } = madeUp(book(chapter('One', p(lines(4)), sceneBreak({ mark: 'ornament' }), p(lines(5)))));
    expect(linesOf(pages[0]!)).toContain('*');
  });
});

/** A block of a random chapter; the index makes its words its own. */
type Make = (index: number) => Node;

const anyParagraph = fc.integer({ min: 1, max: 14 }).map(
  (length): Make =>
    (index) =>
      p(lines(length, letter(index))),
);
const anyBlock = fc.oneof(
  { weight: 6, arbitrary: anyParagraph },
  { weight: 1, arbitrary: fc.constant<Make>(() => sceneBreak()) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(1, 2, 3).map(
      (level): Make =>
        () =>
          h({ level }, 'Heading'),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.integer({ min: 1, max: 30 }).map(
      (length): Make =>
        (index) =>
          p('Noted', note(p(lines(length, `${letter(index)}n`))), ' here.'),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 4 }).map(
      (stanzas): Make =>
        (index) =>
          verse(
            ...stanzas.map((count, at) =>
              stanza(...Array.from({ length: count }, () => `${letter(index)} ${letter(at)} line`)),
            ),
          ),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 1, maxLength: 5 }).map(
      (lengths): Make =>
        (index) =>
          quotation(...lengths.map((length, at) => p(lines(length, `${letter(index)}q${letter(at)}`)))),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 5 }).map(
      (lengths): Make =>
        (index) =>
          list(...lengths.map((length, at) => item(p(lines(length, `${letter(index)}i${letter(at)}`))))),
    ),
  },
);

const picture: Asset = {
  id: 'f'.repeat(64),
  bytes: new Uint8Array(),
  mediaType: 'image/png',
  name: 'x.png',
  pixels: { width: 1000, height: 700 },
};
const anyFigure = fc.integer({ min: 20, max: 100 }).map(
  (width): Make =>
    (index) =>
      figure(picture.id, { width: width / 100 }, caption(`Figure ${letter(index)}`)),
);

describe('any chapter', () => {
  it('keeps the laws of the page', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof({ weight: 12, arbitrary: anyBlock }, { weight: 1, arbitrary: anyFigure }), {
          minLength: 1,
          maxLength: 50,
        }),
        (blocks) => {
          // A chapter does not end with a heading.
          const nodes = blocks.map((make, index) => make(index));
          madeUp(book(chapter('One', ...nodes, p(lines(3, 'end')))), { assets: new Map([[picture.id, picture]]) });
        },
      ),
      { numRuns: 80 },
    );
  });
});

describe('the gutter', () => {
  // Half-empty pages make a long book of little text; a narrow inner margin leaves the gutter to the press (FACTS 4.2).
  const settings = { ...quoin, margins: { ...quoin.margins, inner: 20, bottom: 250 } };

  it.each([
    [141, 27],
    [149, 27],
    [151, 36],
  ])('follows the page count until both rest (%i pages of text, FACTS M-05)', (count, inner) => {
    const pages = Array.from({ length: count }, (_, index) => chapter(null, p(lines(2, letter(index)))));
    const result = madeUp(book(...pages), { settings });
    expect(result.pages).toHaveLength(count + 1);
    expect(result.settled).toBe(true);
    // What hangs into the margin stays clear of the gutter.
    expect(result.design.frame.inner).toBeCloseTo(inner + 0.2 * 11.5);
  });
});
