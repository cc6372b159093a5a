import { expect, test } from 'vitest';
import { type Book, selectEdition, textOf } from '#book';
import {
  attribution,
  book,
  bookValue,
  chapter,
  EBOOK,
  em,
  field,
  item,
  list,
  note,
  PRINT,
  p,
  part,
  quotation,
  sceneBreak,
  section,
} from '../builders/book.ts';

/** Titles and numbers of an edition, one a section: "front dedication", "body chapter 2 The Weir < s3". */
function outline(value: Book, edition: string): readonly string[] {
  return selectEdition(value, edition).sections.map((each) =>
    [each.matter, each.kind, each.number, each.titleText, each.part && `< ${each.part}`].filter(Boolean).join(' '),
  );
}

function texts(value: Book, edition: string): readonly string[] {
  return selectEdition(value, edition).sections.map((each) => textOf(each.node));
}

test('an unknown edition is a mistake of the caller', () => {
  expect(() => selectEdition(bookValue(book()), 'none')).toThrow(RangeError);
});

test('a book without limits and fields is shown by its own nodes', () => {
  const value = bookValue(book(chapter('One', p('a ', em('b'))), chapter('Two', p('c'))));
  const view = selectEdition(value, 'print');
  expect(view.sections.map((each) => each.node)).toEqual([...value.text.children]);
  expect(view.sections.every((each, index) => each.node === value.text.child(index))).toBe(true);
  expect(view.sections[0]?.blocks).toHaveLength(1);
  expect(view.sections[0]?.titleText).toBe('One');
});

test('blocks and sections are held to their editions', () => {
  const value = bookValue(
    book(
      chapter('One', p('both'), p({ editions: ['ebook'] }, 'screen'), p({ editions: ['print'] }, 'paper')),
      section('alsoBy', 'Also', { editions: ['ebook'] }, p('links')),
    ),
  );
  expect(texts(value, 'print')).toEqual(['One\nboth\npaper']);
  expect(texts(value, 'ebook')).toEqual(['One\nboth\nscreen', 'Also\nlinks']);
});

test('containers left empty go, and a section that lost its text goes with its title', () => {
  const ebookOnly = { editions: ['ebook'] };
  const value = bookValue(
    book(
      chapter(
        'One',
        p('kept'),
        quotation(p(ebookOnly, 'gone'), attribution('gone too')),
        list({ editions: ['ebook'] }, item('x')),
      ),
      section('aboutAuthor', 'About', p(ebookOnly, 'gone')),
      part('Stays', p(ebookOnly, 'gone')),
    ),
  );
  expect(texts(value, 'print')).toEqual(['One\nkept', 'Stays']);
});

test('fields are filled with what the edition and the metadata say', () => {
  const value = bookValue(
    book(
      section(
        'copyright',
        null,
        p('Copyright © ', field('year'), ' ', field('rightsHolder')),
        p('ISBN ', field('isbn'), ' (', field('editionName'), ')'),
        p('Set by ', field('publisher'), ' in ', field('place')),
        p(field('subtitle')),
        p(em(field('title')), ' by ', field('author')),
      ),
    ),
    {
      metadata: {
        year: null,
        place: 'Utrecht',
        contributors: ['A', 'B', 'C'].map((name) => ({ name, fileAs: null, role: 'aut' })),
      },
      editions: [{ ...PRINT, isbn: '9780306406157' }, EBOOK],
    },
  );
  const [copyright] = selectEdition(value, 'print').sections;
  expect(copyright?.blocks.map(textOf)).toEqual([
    'Copyright © Ines Verhoeven',
    'ISBN 978-0-306-40615-7 (Paperback)',
    'Set by in Utrecht',
    'The Salt Ledger by A, B and C',
  ]);
  expect(copyright?.blocks[3]?.firstChild?.marks[0]?.type.name).toBe('emphasis');
  expect(texts(value, 'ebook')[0]).not.toContain('ISBN');
});

test('sections are numbered among their label, parts apart, and restart where a part says so', () => {
  const value = bookValue(
    book(
      section('dedication', null, p('x')),
      section('prologue', 'Before', p('x')),
      part('North'),
      chapter('A', p('x')),
      chapter(null, p('x')),
      section('chapter', 'Letter home', { numbered: true, label: 'Letter' }, p('x')),
      part('South', { restart: true }),
      chapter('B', { label: 'CHAPTER' }, p('x')),
      chapter('C', { startNumber: 12 }, p('x')),
      chapter('D', p('x')),
      section('epilogue', null, p('x')),
      section('acknowledgments', null, p('x')),
    ),
  );
  expect(outline(value, 'print')).toEqual([
    'front dedication',
    'body prologue Before',
    'body part 1 North',
    'body chapter 1 A < s3',
    'body chapter 2 < s3',
    'body chapter 1 Letter home < s3',
    'body part 2 South',
    'body chapter 1 B < s7',
    'body chapter 12 C < s7',
    'body chapter 13 D < s7',
    'body epilogue',
    'back acknowledgments',
  ]);
});

test('numbered sections under more than one label can not be told by their number', () => {
  const labelled = (label: string | null) => section('chapter', 'T', { numbered: true, label }, p('x'));
  const needs = (...sections: Parameters<typeof book>) =>
    selectEdition(bookValue(book(...sections)), 'print').sections.map(({ needsLabel }) => needsLabel);
  expect(needs(part('North'), labelled('Chapter'), labelled('CHAPTER'), labelled(null))).toEqual(Array(4).fill(false));
  expect(
    needs(part('North'), labelled('Letter'), labelled('Chapter'), labelled(null), section('epilogue', null, p('x'))),
  ).toEqual([false, true, true, false, false]);
});

test('kinds without a home belong where they stand', () => {
  const value = bookValue(
    book(
      section('acknowledgments', null, p('x')),
      chapter(null, p('x')),
      section('other', null, p('x')),
      chapter(null, p('x')),
      section('copyright', null, p('moved to the end')),
      section('note', null, p('x')),
    ),
  );
  expect(outline(value, 'print').map((line) => line.split(' ')[0])).toEqual([
    'front',
    'body',
    'body',
    'body',
    'back',
    'back',
  ]);
  expect(outline(bookValue(book(section('titlePage', null), section('other', 'A', p('x')))), 'print')).toEqual([
    'front titlePage',
    'body other A',
  ]);
});

test('generated matter is marked, and ebooks have no half title', () => {
  const value = bookValue(
    book(section('halfTitle', null), section('titlePage', null), section('contents', 'Contents'), chapter('A', p('x'))),
  );
  const marks = (edition: string) =>
    selectEdition(value, edition).sections.map((each) => [each.kind, each.generated] as const);
  expect(marks('print')).toEqual([
    ['halfTitle', true],
    ['titlePage', true],
    ['contents', true],
    ['chapter', false],
  ]);
  expect(marks('ebook').map(([kind]) => kind)).toEqual(['titlePage', 'contents', 'chapter']);
});

test('notes are counted anew in each section and know their block', () => {
  const value = bookValue(
    book(
      chapter('A', p('x', note('first'), 'y', note('second', p({ editions: ['ebook'] }, 'more')))),
      chapter('B', quotation(p('z', note('third')))),
    ),
  );
  const view = selectEdition(value, 'print');
  const notes = [...view.notes.values()];
  expect(notes.map((each) => [each.number, each.section, textOf(each.node)])).toEqual([
    [1, 's1', 'first'],
    [2, 's1', 'second'],
    [1, 's2', 'third'],
  ]);
  const holders = notes.map((each) => {
    let holder = '';
    value.text.descendants((node) => {
      if (node.children.some((child) => child.attrs['id'] === each.id)) holder = String(node.attrs['id']);
    });
    return holder;
  });
  expect(notes.map((each) => each.block)).toEqual(holders);
});

test('after an edit only the edited section is built anew', () => {
  const first = bookValue(
    book(
      section('copyright', null, p(field('title'))),
      chapter('A', p('x', note('n'))),
      chapter('B', p('y'), sceneBreak()),
    ),
  );
  const before = selectEdition(first, 'print');
  const edited = first.text.child(2).copy(first.text.child(2).content.cut(0, 2));
  const second = { ...first, text: first.text.copy(first.text.content.replaceChild(2, edited)) };
  const after = selectEdition(second, 'print');
  expect(after.sections[0]).toBe(before.sections[0]);
  expect(after.sections[1]).toBe(before.sections[1]);
  expect(after.sections[2]).not.toBe(before.sections[2]);
  expect(selectEdition(first, 'print')).toBe(before);
  const renamed = { ...first, metadata: { ...first.metadata, title: 'Other' } };
  const retitled = selectEdition(renamed, 'print');
  expect(retitled.sections[0]?.blocks.map(textOf)).toEqual(['Other']);
  expect(retitled.sections[1]).toBe(before.sections[1]);
});
