/** The running order as it is changed: what moves, where new sections stand, and how titles become others. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { applyChange, type Book, type Change, countWords, isSectionKind, SECTION_KINDS, textOf } from '#book';
import { moveBefore, moveBy, withChapters } from '../../renderer/runningOrder/moves.ts';
import { addSection, duplicate, retitle, splitAt, typedTitle } from '../../renderer/runningOrder/sections.ts';
import { nameOfRow, outlineOf, type SectionRow, titleOf } from '../../renderer/state/outline.ts';
import { book, bookValue, chapter, em, note, p, part, section } from '../builders/book.ts';

/** A dedication, a prologue, two parts with two chapters each, an epilogue, thanks. */
function sample(): Book {
  return bookValue(
    book(
      section('dedication', null, p('For M.')),
      section('prologue', 'Before', p('Once.')),
      part('North'),
      chapter('One', p('a')),
      chapter('Two', p('b'), p('c')),
      part('South'),
      chapter('Three', p('d')),
      chapter(['The ', em('Four')], p('e')),
      section('epilogue', 'After', p('End.')),
      section('acknowledgments', 'Thanks', p('All.')),
    ),
  );
}

function rowsOf(value: Book): readonly SectionRow[] {
  return outlineOf({ book: value, pages: [], findings: [], changed: new Set() }, []);
}

/** Applies a change, and holds that it can be taken back. */
function after(value: Book, change: Change | null): Book {
  if (!change) return value;
  const applied = applyChange(value, change);
  if (!applied.ok) throw new RangeError(applied.problem);
  const back = applyChange(applied.value.book, applied.value.inverse);
  expect(back.ok && back.value.book.text.eq(value.text)).toBe(true);
  return applied.value.book;
}

/** The order as a line of initials. */
function order(value: Book): string {
  return value.text.children.map((each) => (titleOf(each) || String(each.attrs['kind'])).slice(0, 2)).join(' ');
}

function idOf(value: Book, title: string): string {
  const found = value.text.children.find((each) => titleOf(each) === title);
  if (!found) throw new RangeError(`no section is called ${title}`);
  return String(found.attrs['id']);
}

test('rows say number, part, matter and name', () => {
  const rows = rowsOf(sample());
  expect(rows.map(nameOfRow)).toEqual([
    'Dedication',
    'Before',
    'I North',
    '1 One',
    '2 Two',
    'II South',
    '3 Three',
    '4 The Four',
    'After',
    'Thanks',
  ]);
  expect(rows.map((row) => row.matter[1]).join('')).toBe('rooooooooa');
  expect(rows[4]?.part).toBe(rows[2]?.id);
});

test('a row that says the same stays the same object', () => {
  const value = sample();
  const before = rowsOf(value);
  const change: Change = { kind: 'setSection', section: idOf(value, 'One'), set: { numbered: false } };
  const rows = outlineOf({ book: after(value, change), pages: [], findings: [], changed: new Set() }, before);
  // The chapters, which count on from it, and nothing else.
  expect(rows.map((row, at) => (row === before[at] ? '=' : row.number)).join(' ')).toBe('= = =  1 = 2 3 = =');
  expect(outlineOf({ book: value, pages: [], findings: [], changed: new Set() }, before)).toBe(before);
});

test('one section goes past its neighbour, and stops at the ends', () => {
  const value = sample();
  const one = new Set([idOf(value, 'One')]);
  expect(order(after(value, moveBy(rowsOf(value), one, 1)))).toBe('de Be No Tw On So Th Th Af Th');
  expect(order(after(value, moveBy(rowsOf(value), one, -1)))).toBe('de Be On No Tw So Th Th Af Th');
  expect(moveBy(rowsOf(value), new Set([idOf(value, 'Thanks')]), 1)).toBe(null);
  expect(moveBy(rowsOf(value), new Set(['s1']), -1)).toBe(null);
});

test('a part takes its chapters along, past the whole of the next part', () => {
  const value = sample();
  const rows = rowsOf(value);
  const north = new Set([idOf(value, 'North')]);
  const south = new Set([idOf(value, 'South')]);
  expect(withChapters(rows, north)).toEqual(rows.slice(2, 5).map((row) => row.id));
  expect(order(after(value, moveBy(rows, north, 1)))).toBe('de Be So Th Th No On Tw Af Th');
  expect(order(after(value, moveBy(rows, south, -1)))).toBe('de Be So Th Th No On Tw Af Th');
});

test('several land together in their own order, never before themselves', () => {
  const value = sample();
  const rows = rowsOf(value);
  const [one, three, after1] = [idOf(value, 'One'), idOf(value, 'Three'), idOf(value, 'After')];
  expect(order(after(value, moveBefore(rows, [one, three], after1)))).toBe('de Be No Tw So Th On Th Af Th');
  expect(order(after(value, moveBefore(rows, [one, three], null)))).toBe('de Be No Tw So Th Af Th On Th');
  expect(moveBefore(rows, [one], one)).toBe(null);
});

test('wherever sections land, the others keep their order and nothing is lost', () => {
  const value = sample();
  const rows = rowsOf(value);
  const ids = rows.map((row) => row.id);
  fc.assert(
    fc.property(fc.subarray(ids, { minLength: 1 }), fc.option(fc.constantFrom(...ids)), (moving, before) => {
      const result = after(value, moveBefore(rows, moving, before)).text.children.map((each) =>
        String(each.attrs['id']),
      );
      const rest = ids.filter((id) => !moving.includes(id));
      expect(result.filter((id) => !moving.includes(id))).toEqual(rest);
      const at = result.indexOf(moving[0]!);
      expect(result.slice(at, at + moving.length)).toEqual(moving);
    }),
  );
});

test('every kind can be added, stands in its own matter, and has ids of its own', () => {
  const value = sample();
  for (const kind of SECTION_KINDS) {
    const { change, section: id } = addSection(value, rowsOf(value), kind, null);
    const next = after(value, change);
    const row = rowsOf(next).find((each) => each.id === id);
    expect(isSectionKind(row?.kind)).toBe(true);
    expect(next.text.childCount).toBe(value.text.childCount + 1);
    if (kind === 'dedication' || kind === 'copyright') expect(row?.matter).toBe('front');
    if (kind === 'chapter' || kind === 'part') expect(row?.matter).toBe('body');
    if (kind === 'aboutAuthor' || kind === 'index') expect(row?.matter).toBe('back');
  }
});

test('a new chapter comes after the one in view, a new part after the chapters of its part', () => {
  const value = sample();
  const rows = rowsOf(value);
  const chapterAdded = addSection(value, rows, 'chapter', idOf(value, 'One'));
  expect(chapterAdded.change).toMatchObject({ index: 4 });
  expect(
    rowsOf(after(value, chapterAdded.change))
      .map((row) => row.number)
      .join(' ')
      .trim(),
  ).toBe('I 1 2 3 II 4 5');
  expect(addSection(value, rows, 'part', idOf(value, 'One')).change).toMatchObject({ index: 5 });
});

test('a copy has the same words and other ids', () => {
  const value = sample();
  const copied = duplicate(value, idOf(value, 'Two'));
  const next = after(value, copied?.change ?? null);
  expect(order(next)).toBe('de Be No On Tw Tw So Th Th Af Th');
  expect(textOf(next.text.child(5))).toBe(textOf(next.text.child(4)));
  expect(countWords(next.text.child(5))).toBe(2);
  expect(duplicate(value, 'none')).toBe(null);
});

test('a title becomes another by the letters that differ, so that its italics stay', () => {
  const value = sample();
  const id = idOf(value, 'The Four');
  const title = (next: Book) => next.text.children.find((each) => each.attrs['id'] === id)?.firstChild;
  const longer = title(after(value, retitle(value, id, 'The Fourth')));
  expect(longer?.textContent).toBe('The Fourth');
  expect(longer?.lastChild?.marks.map((mark) => mark.type.name)).toEqual(['emphasis']);
  expect(retitle(value, id, ' The Four ')).toBe(null);
  expect(title(after(value, retitle(value, id, '')))?.type.name).toBe('paragraph');
  const dedication = after(value, retitle(value, 's1', 'To M.'));
  expect(titleOf(dedication.text.child(0))).toBe('To M.');
});

test('any title can be typed over any other', () => {
  const text = fc.string({ unit: fc.constantFrom('a', 'b', ' ', 'é', '“'), maxLength: 12 });
  fc.assert(
    fc.property(text, text, (first, second) => {
      const value = bookValue(book(chapter('x', p('y'))));
      const one = after(value, retitle(value, 's1', first));
      const two = after(one, retitle(one, 's1', second));
      expect(titleOf(two.text.child(0))).toBe(second.trim());
    }),
  );
});

test('a title with a note is left to the text', () => {
  const value = bookValue(book(chapter(['One', note('x')], p('y'))));
  expect(typedTitle(value, 's1')).toBe(null);
});

test('a section is split before the block of the cursor, not before its first', () => {
  const value = sample();
  const two = idOf(value, 'Two');
  const node = value.text.children.find((each) => each.attrs['id'] === two);
  const [, first, second] = node?.children ?? [];
  expect(splitAt(value, two, String(first?.attrs['id']))).toBe(null);
  const split = splitAt(value, two, String(second?.attrs['id']));
  expect(order(after(value, split?.change ?? null))).toBe('de Be No On Tw ch So Th Th Af Th');
});
