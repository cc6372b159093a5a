/** A book being worked on: what a change makes again, what it leaves alone, and how a layout goes stale. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Book, type Change, replaceText } from '#book';
import { Engine, type LayoutStep, type PrintBook, Session } from '#engine';
import { loadHyphenator } from '#type';
import { book, bookValue, chapter, note, p, sceneBreak } from '../builders/book.ts';
import { testLibrary } from '../type/fonts.ts';

const LINE =
  'The ferry lay on the far bank with its lamp lit, and nobody on this side had thought to bring a horn or a bell, ' +
  'so that they stood in the reeds until the tide had turned and called across the water by turns. ';

/** Three chapters of some pages each, with scene breaks and notes. */
function threeChapters(): Book {
  const paragraphs = (name: string) =>
    Array.from({ length: 40 }, (_, index) => {
      if (index % 15 === 14) return sceneBreak();
      const text = `${name} ${index}. ${LINE.repeat(1 + (index % 4))}`;
      return index % 9 === 4 ? p(text, note(p(LINE)), LINE) : p(text);
    });
  return bookValue(
    book(chapter('One', ...paragraphs('A')), chapter('Two', ...paragraphs('B')), chapter('Three', p(LINE))),
  );
}

let engine: Engine;
let newEngine: () => Engine;

beforeAll(async () => {
  const english = await loadHyphenator('en-US');
  const parts = { library: await testLibrary(), hyphenators: new Map(english ? [['en-US', english]] : []) };
  newEngine = () => new Engine(parts);
  engine = newEngine();
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
  const book = steps.find((step) => step.kind === 'book');
  if (!book) throw new RangeError('the layout did not end');
  return book.print;
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

  it('sets every page once, those of the section in view first', () => {
    const session = new Session(engine, threeChapters());
    const section = String(session.book.text.child(1).attrs['id']);
    const steps = [...session.layout('print', section)];
    const set = steps.flatMap((step) => (step.kind === 'pages' ? step.pages : []));
    const { pages, pageOf } = finished(steps).madeUp;
    expect(set[0]?.index).toBe(pageOf(section));
    expect([...set].sort((one, other) => one.index - other.index)).toEqual(pages);
    for (const page of set) expect(page).toBe(pages[page.index]);
  });

  it('uses spare time once, when all pages are shown', () => {
    const session = new Session(newEngine(), threeChapters());
    const kinds = (): readonly LayoutStep['kind'][] => [...session.layout('print')].map(({ kind }) => kind);
    const first = kinds();
    expect(first).toContain('spare');
    expect(first.indexOf('spare')).toBeGreaterThan(first.lastIndexOf('pages'));
    expect(kinds()).not.toContain('spare');
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

  it('tells of a character without a glyph that was typed far from the first page of its section', () => {
    const session = new Session(engine, threeChapters());
    const before = finished([...session.layout('print')]).madeUp;
    const node = session.book.text.child(1);
    const place = { section: String(node.attrs['id']), block: String(node.child(38).attrs['id']) };
    const change = replaceText(session.book, { ...place, from: 3, to: 3, text: '\u{10330}' });
    expect(change && session.apply(change).ok).toBe(true);
    const after = finished([...session.layout('print', place.section)]).madeUp;
    const opener = before.pageOf(place.section)!;
    expect(after.page(opener)).toBe(before.page(opener));
    expect(after.findings).toMatchObject([{ rule: 'type/missing-glyph', at: { block: place.block, offset: 3 } }]);
  });

  it('comes to the pages of a new session after any edits, one upon another', () => {
    const words = fc.constantFrom('x', ' ', 'horn ', 'and the tide turned under them ', LINE, LINE.repeat(3), '');
    const edit = fc.record({ section: fc.nat(1), block: fc.nat(39), from: fc.nat(60), drop: fc.nat(200), text: words });
    fc.assert(
      fc.property(fc.array(edit, { minLength: 3, maxLength: 12 }), (edits) => {
        const session = new Session(engine, threeChapters());
        finished([...session.layout('print')]);
        for (const { section, block, from, drop, text } of edits) {
          const node = session.book.text.child(section);
          const paragraph = node.child(1 + (block % (node.childCount - 1)));
          const start = Math.min(from, paragraph.content.size);
          const to = Math.min(start + drop, paragraph.content.size);
          const place = { section: String(node.attrs['id']), block: String(paragraph.attrs['id']), from: start, to };
          const change = replaceText(session.book, { ...place, text });
          if (change) session.apply(change);
          for (const step of session.layout('print', place.section)) if (step.kind === 'section') break;
        }
        const edited = finished([...session.layout('print')]).madeUp;
        const anew = finished([...new Session(newEngine(), session.book).layout('print')]).madeUp;
        expect(edited.pages).toEqual(anew.pages);
        expect([edited.outline, edited.pageStarts, edited.findings]).toEqual([
          anew.outline,
          anew.pageStarts,
          anew.findings,
        ]);
      }),
      { numRuns: 12 },
    );
  });

  it('shows the section in view at a new trim', () => {
    const session = new Session(engine, threeChapters());
    finished([...session.layout('print')]);
    const index = session.book.editions.findIndex((edition) => edition.id === 'print');
    const edition = session.book.editions[index];
    if (edition?.kind !== 'print') throw new RangeError('no print edition');
    session.apply({ kind: 'putEdition', index, edition: { ...edition, trim: { width: 432, height: 648 } } });
    const first = session.layout('print', String(session.book.text.child(1).attrs['id'])).next().value;
    expect(first?.kind === 'section' && first.pages[0]?.size).toEqual({ width: 432, height: 648 });
  });

  it('ends a layout that a change has made stale', () => {
    const session = new Session(engine, threeChapters());
    const layout = session.layout('print');
    expect(layout.next().value?.kind).toBe('progress');
    session.apply(typed(session.book, 0));
    expect(layout.next().done).toBe(true);
  });

  it('sets no more pages of a layout that a change has made stale', () => {
    const session = new Session(engine, threeChapters());
    const layout = session.layout('print');
    for (let step = layout.next().value; step?.kind !== 'book'; step = layout.next().value);
    session.apply(typed(session.book, 0));
    expect(layout.next().done).toBe(true);
  });

  it('refuses an impossible change and stays as it was', () => {
    const session = new Session(engine, threeChapters());
    const outcome = session.apply({ kind: 'dropSection', section: 'nowhere' });
    expect([outcome.ok, session.version]).toEqual([false, 0]);
  });
});
