import { describe, expect, it } from 'vitest';
import { book, chapter, p, part, section } from '../builders/book.ts';
import { linesOf, madeUp, quoin, sequence } from './laws.ts';
import { lines } from './text.ts';

const front = [
  section('halfTitle', null),
  section('titlePage', null),
  section('copyright', null, p('Copyright © 2021 Ines Verhoeven'), p('All rights reserved.')),
];

describe('the running order', () => {
  it('counts front matter in roman figures and begins the text on a recto with 1 (FACTS O-02)', () => {
    const text = book(...front, section('contents', null), chapter('One', p(lines(3))), chapter('Two', p(lines(3))));
    expect(sequence(madeUp(text))).toBe('i:s1 ii- iii:s2 iv:s3 (v):s4 vi- (1):s5 (2):s6');
  });

  it('gives a dedication and a part a leaf of their own', () => {
    const text = book(
      ...front,
      section('dedication', null, p('For A.')),
      section('epigraph', null, p('So far.')),
      part('East', { restart: true }),
      chapter('One', p(lines(3))),
      part('West'),
      chapter('Two', p(lines(3))),
    );
    expect(sequence(madeUp(text))).toBe('i:s1 ii- iii:s2 iv:s3 v:s4 vi:s5 1:s6 2- (3):s7 4- 5:s8 6- (7):s9 8-');
  });

  it('begins chapters on rectos where the design says so, with blanks that show nothing (FACTS O-06, O-11)', () => {
    const settings = { ...quoin, recto: { parts: true, chapters: true } };
    const text = book(chapter('One', p(lines(3))), chapter('Two', p(lines(3))));
    expect(sequence(madeUp(text, { settings }))).toBe('(1):s1 2- (3):s2 4-');
  });

  it('opens the back matter with what belongs on rectos', () => {
    const text = book(
      chapter('One', p(lines(3))),
      section('acknowledgments', 'Acknowledgments', p(lines(3))),
      section('aboutAuthor', 'About the Author', p(lines(3))),
    );
    expect(sequence(madeUp(text))).toBe('(1):s1 2- (3):s2 (4):s3');
  });

  it('counts arabic from the start where there is no front matter', () => {
    expect(sequence(madeUp(book(section('other', 'Essay', p(lines(4))))))).toBe('(1):s1 2-');
  });
});

describe('running heads', () => {
  const long = (name: string) =>
    Array.from({ length: 13 }, (_, index) => p(lines(8, `${name}${'abcdefghijklm'[index]}`)));
  const text = book(chapter('The Weir', ...long('w')), section('afterword', 'Afterword', ...long('v')));

  it('name the author on versos and the title on rectos, from a section’s second page (FACTS O-07, O-08)', () => {
    const { pages } = madeUp(text);
    const heads = pages.map((page) => linesOf(page)[0]);
    expect(heads.slice(0, 4)).toEqual(['Chapter One', 'Ines Verhoeven', 'The Salt Ledger', 'Ines Verhoeven']);
  });

  it('name the section in the back matter', () => {
    const { pages, pageOf } = madeUp(text);
    const opener = pageOf('s2')!;
    expect(linesOf(pages[opener]!)[0]).toBe('Afterword');
    expect(linesOf(pages[opener + 1]!)[0]).toBe('Afterword');
    expect(linesOf(pages[opener + 2]!)[0]).toBe('Afterword');
  });

  it('lose what follows a colon where they would be too long', () => {
    const metadata = {
      title: 'The Salt Ledger: Being a True Account of the Tides, the Trade and the Troubles of the Coast',
    };
    const { pages } = madeUp(text, { metadata });
    expect(linesOf(pages[2]!)[0]).toBe('The Salt Ledger');
  });

  it('share their line with the folio where the design puts it there', () => {
    const settings = { ...quoin, folios: { ...quoin.folios, place: 'headOuter' as const } };
    const { pages } = madeUp(text, { settings });
    expect(linesOf(pages[1]!)[0]).toBe('2 | Ines Verhoeven');
    expect(linesOf(pages[2]!)[0]).toBe('The Salt Ledger | 3');
    expect(linesOf(pages[0]!).at(-1)).toBe('1');
  });
});

describe('the title page', () => {
  it('sets title, author and publisher from the metadata', () => {
    const metadata = { subtitle: 'A Novel', publisher: 'Quay Press' };
    const { pages } = madeUp(book(...front, chapter('One', p(lines(3)))), { metadata });
    expect(linesOf(pages[2]!)).toEqual(['The Salt Ledger', 'A Novel', '*', 'Ines Verhoeven', 'Quay Press']);
  });

  it('keeps what the author typed, each line in its role', () => {
    const typed = section('titlePage', null, p('THE SALT LEDGER'), p('by Ines Verhoeven'), p('Second printing'));
    const { pages } = madeUp(book(typed, chapter('One', p(lines(3)))));
    expect(linesOf(pages[0]!)).toEqual(['THE SALT LEDGER', '*', 'by Ines Verhoeven', 'Second printing']);
  });
});

describe('pages that need no heading', () => {
  it('keep one that was typed', () => {
    const text = book(
      section('titlePage', 'The Salt Ledger'),
      section('copyright', 'Copyright', p('All rights reserved.')),
      section('dedication', 'Dedication', p('For A.')),
      chapter('One', p(lines(3))),
    );
    const { pages } = madeUp(text);
    expect(linesOf(pages[0]!)).toEqual(['The Salt Ledger', '*', 'Ines Verhoeven']);
    expect(linesOf(pages[1]!)).toEqual(['Copyright', 'All rights reserved.']);
    expect(linesOf(pages[2]!)).toEqual(['Dedication', 'For A.']);
  });
});

describe('the copyright page', () => {
  it('stands at the foot of its page, on the last baseline', () => {
    const { pages, design } = madeUp(book(...front, chapter('One', p(lines(3)))));
    const { firstBaseline, lines: count, leading } = design.frame;
    const runs = pages[3]!.items.filter((item) => item.kind === 'glyphs');
    expect(linesOf(pages[3]!)).toEqual(['Copyright © 2021 Ines Verhoeven', 'All rights reserved.']);
    expect(Math.max(...runs.map((run) => run.y))).toBeCloseTo(firstBaseline + (count - 1) * leading);
  });
});

describe('contents', () => {
  const long = (name: string, count: number) =>
    Array.from({ length: count }, (_, index) => p(lines(9, `${name}${'abcdefghijklmnopqrst'[index]}`)));
  const text = book(
    ...front,
    section('contents', null),
    section('foreword', 'Foreword', p(lines(3, 'f'))),
    part('East'),
    chapter('The Weir', ...long('x', 20)),
    chapter('The Mill', ...long('y', 6)),
    section('aboutAuthor', 'About the Author', p(lines(3, 'z'))),
  );

  it('name the pages on which sections begin, with leaders, and nothing that comes before (FACTS O-12)', () => {
    const result = madeUp(text);
    const contents = result.pages[result.pageOf('s4')!]!;
    const folio = (id: string) => result.pages[result.pageOf(id)!]!.folio.label;
    expect(linesOf(contents).slice(0, -1)).toEqual([
      'Contents',
      `Foreword | * | ${folio('s5')}`,
      `Part One  East | ${folio('s6')}`,
      `1 | The Weir | * | ${folio('s7')}`,
      `2 | The Mill | * | ${folio('s8')}`,
      `About the Author | * | ${folio('s9')}`,
    ]);
    expect(folio('s5')).toBe('vii');
    expect(folio('s6')).toBe('1');
    expect(result.settled).toBe(true);
  });

  it('lead to the sections', () => {
    const { pages, pageOf } = madeUp(text);
    const links = pages[pageOf('s4')!]!.items.filter((item) => item.kind === 'link');
    expect(links.map((link) => ('at' in link.target ? link.target.at.block : ''))).toEqual([
      's5',
      's6',
      's7',
      's8',
      's9',
    ]);
  });

  it('give up their sink to fit on one page', () => {
    const chapters = Array.from({ length: 27 }, (_, index) => chapter(`Title ${'abc'[index % 3]}`, p(lines(2, 'q'))));
    const { pages, pageOf } = madeUp(book(section('contents', null), ...chapters));
    expect(linesOf(pages[pageOf('s1')!]!).filter((each) => each.includes('| *'))).toHaveLength(27);
  });

  it('run over several pages and still tell the truth', () => {
    const chapters = Array.from({ length: 90 }, (_, index) =>
      chapter(`Title ${'abcdefghij'[index % 10]}`, p(lines(2, 'q'))),
    );
    const result = madeUp(
      book(...front, section('contents', null), section('foreword', 'Foreword', p(lines(3))), ...chapters),
    );
    const from = result.pageOf('s4')!;
    const to = result.pageOf('s5')!;
    const listed = result.pages
      .slice(from, to)
      .flatMap((page) => linesOf(page))
      .filter((line) => line.includes('| *'));
    expect(listed).toHaveLength(91);
    expect(listed[0]).toBe(`Foreword | * | ${result.pages[to]!.folio.label}`);
    expect(listed[90]).toBe('90 | Title j | * | 90');
    expect(result.settled).toBe(true);
  });

  it('give the outline its tree', () => {
    const { outline } = madeUp(text);
    expect(outline.map((entry) => [entry.title, entry.children.map((child) => child.title)])).toEqual([
      ['Title Page', []],
      ['Copyright', []],
      ['Contents', []],
      ['Foreword', []],
      ['Part One: East', ['Chapter One: The Weir', 'Chapter Two: The Mill']],
      ['About the Author', []],
    ]);
  });
});
