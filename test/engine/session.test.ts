/** A book being worked on: what a change makes again, what it leaves alone, and how a layout goes stale. */
import { beforeAll, describe, expect, it } from 'vitest';
import { type Book, type Change, replaceText } from '#book';
import { Engine, type LayoutStep, type PrintBook, Session } from '#engine';
import { loadHyphenator } from '#type';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { testLibrary } from '../type/fonts.ts';

const LINE =
  'The ferry lay on the far bank with its lamp lit, and nobody on this side had thought to bring a horn or a bell, ' +
  'so that they stood in the reeds until the tide had turned and called across the water by turns. ';

/** Three chapters of some pages each. */
function threeChapters(): Book {
  const paragraphs = (name: string) =>
    Array.from({ length: 40 }, (_, index) => p(`${name} ${index}. ${LINE.repeat(2)}`));
  return bookValue(
    book(chapter('One', ...paragraphs('A')), chapter('Two', ...paragraphs('B')), chapter('Three', p(LINE))),
  );
}

let engine: Engine;

beforeAll(async () => {
  const english = await loadHyphenator('en-US');
  engine = new Engine({ library: await testLibrary(), hyphenators: new Map(english ? [['en-US', english]] : []) });
});

/** A letter put into the 21st paragraph of a section. */
function typed(value: Book, section: number): Change {
  const node = value.text.child(section);
  const block = node.child(21);
  const change = replaceText(value, {
    section: String(node.attrs['id']),
    block: String(block.attrs['id']),
    from: 10,
    to: 10,
    text: 'x',
  });
  if (!change) throw new RangeError('no such place');
  return change;
}

function finished(steps: readonly LayoutStep[]): PrintBook {
  const last = steps.at(-1);
  if (last?.kind !== 'book') throw new RangeError('the layout did not end');
  return last.print;
}

describe('Session', () => {
  it('lays out the whole book, reporting each section on the way', () => {
    const session = new Session(engine, threeChapters());
    const steps = [...session.layout('print')];
    expect(steps.filter((step) => step.kind === 'progress').map((step) => step.done)).toEqual([1, 2, 3]);
    expect(finished(steps).madeUp.pages.length).toBeGreaterThan(8);
  });

  it('shows the section in view first, as the whole book has it afterwards', () => {
    const session = new Session(engine, threeChapters());
    finished([...session.layout('print')]);
    const section = String(session.book.text.child(1).attrs['id']);
    expect(session.apply(typed(session.book, 1)).ok).toBe(true);
    const steps = [...session.layout('print', section)];
    const [first] = steps;
    if (first?.kind !== 'section') throw new RangeError('the section did not come first');
    const pages = finished(steps).madeUp.pages.filter((page) => page.section === section && !page.blank);
    expect(first.pages).toEqual(pages);
    // The very objects, so that a screen paints no page twice.
    for (const [index, page] of first.pages.entries()) expect(page).toBe(pages[index]);
  });

  it('keeps every page on which nothing changed', () => {
    const session = new Session(engine, threeChapters());
    const before = finished([...session.layout('print')]).madeUp.pages;
    session.apply(typed(session.book, 1));
    const after = finished([...session.layout('print')]).madeUp.pages;
    expect(after.length).toBe(before.length);
    const changed = after.filter((page, index) => page !== before[index]);
    expect(changed.length).toBeGreaterThan(0);
    expect(changed.length).toBeLessThanOrEqual(3);
  });

  it('comes to the pages that a new session makes of the same book', () => {
    const session = new Session(engine, threeChapters());
    finished([...session.layout('print')]);
    session.apply(typed(session.book, 0));
    const edited = finished([...session.layout('print')]).madeUp.pages;
    const anew = finished([...new Session(engine, session.book).layout('print')]).madeUp.pages;
    expect(edited).toEqual(anew);
  });

  it('ends a layout that a change has made stale', () => {
    const session = new Session(engine, threeChapters());
    const layout = session.layout('print');
    expect(layout.next().value?.kind).toBe('progress');
    session.apply(typed(session.book, 0));
    expect(layout.next().done).toBe(true);
  });

  it('refuses an impossible change and stays as it was', () => {
    const session = new Session(engine, threeChapters());
    const outcome = session.apply({ kind: 'dropSection', section: 'nowhere' });
    expect([outcome.ok, session.version]).toEqual([false, 0]);
  });
});
