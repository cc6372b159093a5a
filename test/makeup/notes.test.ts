import { describe, expect, it } from 'vitest';
import { book, chapter, em, note, p, section } from '../builders/book.ts';
import { linesOf, madeUp, runsOf } from './laws.ts';
import { lines, short } from './text.ts';

describe('notes', () => {
  const noted = (...before: number[]) => book(notedChapter(...before));
  const notedChapter = (...before: number[]) =>
    chapter(
      'One',
      ...before.map((count, index) => p(lines(count, 'abcdef'[index]!))),
      p('A sentence with a note', note(p('The note itself, ', em('short'), '.')), ' in it.'),
      p(lines(5, 'z')),
    );

  it('stand at the foot of the page of their reference, under a rule, numbered', () => {
    const { pages, design } = madeUp(noted(4));
    const shown = linesOf(pages[0]!);
    expect(shown.slice(-3)).toEqual(['---', expect.stringContaining('The note itself'), '1']);
    const { firstBaseline, lines: count, leading } = design.frame;
    const last = runsOf(pages[0]!).find((run) => run.text.startsWith('The note'))!;
    expect(last.y).toBeCloseTo(firstBaseline + (count - 1) * leading);
    expect(last.size).toBeCloseTo(9.2);
  });

  it('move with a reference that moves to the next page', () => {
    const { pages } = madeUp(noted(22));
    expect(linesOf(pages[0]!).join()).not.toContain('note');
    expect(linesOf(pages[1]!).join()).toContain('The note itself');
  });

  it('run on under the next page where they are too long', () => {
    const long = p('Here', note(p(lines(40, 'n'))), ' it is.');
    const { pages } = madeUp(book(chapter('One', p(lines(8, 'a')), long, p(lines(40, 'b')))));
    const notes = pages.map((page) =>
      linesOf(page)
        .map((each) => short(each.split(' | ').at(-1)!))
        .filter((each) => /^n\d/.test(each)),
    );
    expect(notes[0]!.length).toBeGreaterThan(1);
    expect(notes[1]!.length).toBeGreaterThan(1);
    expect(notes.flat()).toHaveLength(40);
  });

  it('stand below the note that refers to them', () => {
    const nested = p('Here', note(p('Outer', note(p('Inner.')), ' note.')), ' it is.');
    const { pages } = madeUp(book(chapter('One', p(lines(4)), nested)));
    const shown = linesOf(pages[0]!);
    expect(shown.slice(-3, -1)).toEqual([expect.stringContaining('Outer'), expect.stringContaining('Inner.')]);
  });

  it('stand at the end of the chapter where the edition wants them there', () => {
    const { pages } = madeUp(noted(4), { edition: { notes: 'chapter' } });
    const shown = linesOf(pages[0]!);
    expect(shown.indexOf('Notes')).toBeGreaterThan(shown.findIndex((each) => short(each) === 'z5'));
    expect(shown).not.toContain('---');
    expect(shown).toContainEqual(expect.stringMatching(/^1\. \| The note itself/));
  });

  it('stand in a section of their own at the end of the book where the edition wants that', () => {
    const { pages } = madeUp(book(notedChapter(4), section('aboutAuthor', 'About', p(lines(2)))), {
      edition: { notes: 'book' },
    });
    const shown = pages.map((page) => linesOf(page));
    const at = shown.findIndex((each) => each[0] === 'Notes');
    expect(at).toBe(2);
    expect(shown[at]!.join()).toContain('The note itself');
    expect(shown[at]!.join()).toContain('Chapter One');
  });

  it.each([
    ['en-GB', /^Notes to pages? (\S+?)(?:\u2013(\S+))?$/],
    ['de', /^Anmerkungen zu (?:Seite|den Seiten) (\S+?)(?:\u2013(\S+))?$/],
  ])('have running heads that name the pages they belong to (%s)', (language, wording) => {
    const referring = Array.from({ length: 24 }, (_, index) =>
      p(`Here ${letterOf(index)}`, note(p(lines(5, `${letterOf(index)}n`))), ` it is, ${lines(6, letterOf(index))}`),
    );
    const { pages } = madeUp(book(chapter('One', ...referring)), {
      edition: { notes: 'book' },
      metadata: { language },
    });
    const folioOf = (words: string) => pages.find((page) => linesOf(page).join().includes(words))!.folio.label;
    const noted = pages.filter((page) => page.section === pages.at(-2)!.section && !page.opener && !page.blank);
    expect(noted.length).toBeGreaterThan(1);
    for (const page of noted) {
      const shown = linesOf(page);
      const letters = shown.flatMap((each) => /([a-z])n\d+x/.exec(each)?.[1] ?? []);
      const [first, last] = [folioOf(`Here ${letters[0]}`), folioOf(`Here ${letters.at(-1)}`)];
      const [, one, other] = wording.exec(shown[0]!)!;
      expect([one, other ?? one]).toEqual([first, last]);
    }
  });
});

/** a, b, c, ... */
function letterOf(index: number): string {
  return String.fromCharCode(97 + index);
}
