import { describe, expect, it } from 'vitest';
import { attribution, book, chapter, epigraph, letter, line, p, quotation, stanza, verse } from '../builders/book.ts';
import { linesOf, madeUp, quoin, runsOf } from './laws.ts';
import { lines, short } from './text.ts';

describe('verse', () => {
  it('keeps the poet’s lines and steps, centred on the longest', () => {
    const poem = verse(
      stanza('The tide comes in,', line({ indent: 1 }, 'the tide goes out'), 'and leaves a line.'),
      stanza('No more.'),
    );
    const { pages } = madeUp(book(chapter('One', p(lines(3)), poem, p(lines(3, 'b')))));
    const page = pages[0]!;
    expect(linesOf(page).slice(5, 9)).toEqual([
      'The tide comes in,',
      'the tide goes out',
      'and leaves a line.',
      'No more.',
    ]);
    const [first, second, , last] = runsOf(page).slice(5, 9);
    expect(second!.x - first!.x).toBeCloseTo(1.5 * 11.5);
    expect(last!.y - first!.y).toBeCloseTo(4 * 14);
    const longest = 17 * (300 / 65) + 17.25;
    expect(first!.x - 45).toBeCloseTo((300 - longest) / 2, 0);
  });

  it('keeps a stanza together where the page has room elsewhere', () => {
    const poem = verse(stanza('one', 'two', 'three', 'four'), stanza('five', 'six', 'seven', 'eight'));
    const { pages } = madeUp(book(chapter('One', p(lines(16)), poem, p(lines(6, 'b')))));
    expect(linesOf(pages[1]!)).toContain('five');
    expect(linesOf(pages[0]!)).toContain('four');
  });

  it('turns a long line over with an indent', () => {
    const poem = verse(stanza(`${'long '.repeat(14)}end`, 'short'));
    const { pages } = madeUp(book(chapter('One', p(lines(3)), poem)));
    const [head, turned, next] = runsOf(pages[0]!).slice(5);
    expect(turned!.x - head!.x).toBeCloseTo(3 * 11.5);
    expect(next!.x).toBeCloseTo(head!.x);
  });
});

describe('set-apart text', () => {
  it('stands in a narrower column with a line of white around it', () => {
    const { pages } = madeUp(
      book(chapter('One', p(lines(2, 'a')), quotation(p('He said so.'), attribution('The log')), p(lines(2, 'b')))),
    );
    const page = pages[0]!;
    expect(linesOf(page).slice(2, -1).map(short)).toEqual(['a1', 'a2', 'He said so.', 'The log', 'b1', 'b2']);
    const [, , , a2, quote, source, b1] = runsOf(page);
    expect(quote!.y - a2!.y).toBeCloseTo(28);
    expect(quote!.x - a2!.x).toBeCloseTo(1.5 * 11.5);
    expect(source!.y - quote!.y).toBeCloseTo(14);
    expect(b1!.y - source!.y).toBeCloseTo(28);
  });

  it('turns a long source over in lines alike, and leaves no word of it alone', () => {
    const source = attribution(`${'A register of soundings, '.repeat(3)}page 4`);
    const { pages } = madeUp(book(chapter('One', p(lines(2, 'a')), quotation(p('So far.'), source))));
    const [first, second] = linesOf(pages[0]!).filter((each) => /register|sound|page/.test(each));
    expect(`${first} ${second}`).toBe(source.textContent);
    expect(second!.length).toBeGreaterThan(0.6 * first!.length);
  });

  it('never leaves one of its lines alone at an edge of a page', () => {
    const sayings = ['One.', 'Two.', 'Three.', 'Four.'].map((each) => p(each));
    for (const before of [17, 18, 19, 20, 21, 22, 23]) {
      const { pages } = madeUp(book(chapter('One', p(lines(before, 'a')), quotation(...sayings), p(lines(9, 'b')))));
      const shown = pages.map(
        (page) => linesOf(page).filter((each) => sayings.some((one) => one.textContent === each)).length,
      );
      expect(shown.filter((count) => count > 0)).not.toContain(1);
    }
  });

  it('drops its white at the head of a page', () => {
    const { pages, design } = madeUp(
      book(chapter('One', p(lines(23, 'a')), letter(p(lines(2, 'd')), p({ align: 'end' }, 'Yours')), p(lines(4, 'b')))),
    );
    expect(runsOf(pages[1]!)[0]!.y).toBeCloseTo(design.frame.firstBaseline);
  });

  it('lets a chapter begin after its epigraph as if it were the first text', () => {
    const { pages } = madeUp(book(chapter('One', epigraph(p('So far.'), attribution('A log')), p(lines(2, 'a')))));
    const page = pages[0]!;
    const a1 = runsOf(page).find((run) => short(run.text) === 'a1')!;
    expect(a1.x).toBe(45);
  });
});

describe('a chapter’s first words', () => {
  const opening = 'The boat came in before the light, and nobody on the quay had seen it leave.';

  it('stand in small capitals as typed', () => {
    const { pages } = madeUp(
      book(chapter('One', p(opening, ' It was grey. It was cold, and it went on for a while.'))),
    );
    const text = runsOf(pages[0]!)
      .slice(2)
      .map((run) => run.text)
      .join(' ');
    expect(text.startsWith('The boat came in before')).toBe(true);
  });

  it.each(['\u201C', '\u00AB\u202F'])('hang an opening mark beside a drop cap (%s)', (mark) => {
    const settings = { ...quoin, leadIn: { ...quoin.leadIn, kind: 'dropCap' as const, dropLines: 3 } };
    const words = `${mark}${opening} ${opening} ${opening} ${opening}`;
    const { pages } = madeUp(book(chapter('One', p(words))), { settings });
    const runs = runsOf(pages[0]!).slice(2);
    const cap = runs.find((run) => run.size > 30)!;
    expect(runs.find((run) => run.text.startsWith(mark.charAt(0)))!.x).toBeLessThan(cap.x);
  });

  it('may begin with a drop cap that stands on the third baseline', () => {
    const settings = { ...quoin, leadIn: { ...quoin.leadIn, kind: 'dropCap' as const, dropLines: 3 } };
    const { pages } = madeUp(book(chapter('One', p(`${opening} ${opening} ${opening} ${opening} ${opening}`))), {
      settings,
    });
    const runs = runsOf(pages[0]!).slice(2);
    const cap = runs.find((run) => run.size > 30)!;
    const [first, second, third] = runs.filter((run) => run.size === 11.5);
    expect(cap.text).toBe('');
    expect(cap.y).toBeCloseTo(third!.y);
    // FACTS T-24: the cap's height is two lines and the capitals of the text (0.65 em in the typewriter).
    expect(cap.size * 0.65).toBeCloseTo(28 + 11.5 * 0.65);
    expect(first!.text.startsWith('The boat')).toBe(true);
    expect(second!.x).toBeGreaterThan(45 + 10);
  });
});
