import { expect, test } from 'vitest';
import { applyChange, type Book, type Change, changesSince, editionMarks } from '#book';
import { readProject, writeProject } from '#project';
import { book, bookValue, chapter, field, p, section } from '../builders/book.ts';

function sample(): Book {
  return bookValue(
    book(
      section('copyright', null, p('© ', field('year'), ' ', field('author'))),
      chapter('One', p('A lamp.'), p({ editions: ['ebook'] }, 'A link.')),
      chapter('Two', p('A tide.')),
    ),
  );
}

function after(value: Book, ...changes: readonly Change[]): Book {
  const applied = applyChange(value, { kind: 'group', changes });
  if (!applied.ok) throw new Error(applied.problem);
  return applied.value.book;
}

function changed(edition: string, ...changes: readonly Change[]) {
  const value = sample();
  return changesSince(editionMarks(value, edition), editionMarks(after(value, ...changes), edition));
}

const NONE = { settings: false, sections: [], dropped: 0, moved: false };

test('nothing has changed in a book that was kept and opened again', () => {
  const value = { ...sample(), designs: [{ id: 'quoin', settings: { b: 1, a: { d: null, c: [2] } } }] };
  const again = readProject(writeProject(value));
  if (!again.ok) throw new Error(again.problem);
  for (const { id } of value.editions) {
    expect(changesSince(editionMarks(value, id), editionMarks(again.value, id))).toEqual(NONE);
  }
});

test('a section changes in the editions in which it reads otherwise', () => {
  const limit: Change = { kind: 'setSection', section: 's3', set: { editions: ['print'] } };
  expect(changed('print', limit)).toEqual(NONE);
  expect(changed('ebook', limit)).toEqual({ ...NONE, dropped: 1 });
  const link = { section: 's2', steps: [{ stepType: 'replace', from: 15, to: 16 }] };
  expect(sample().text.child(1).textBetween(15, 16)).toBe('A');
  expect(changed('ebook', { kind: 'editText', ...link }).sections).toEqual(['s2']);
  expect(changed('print', { kind: 'editText', ...link })).toEqual(NONE);
});

test('book details and settings change the settings, and sections that name them', () => {
  expect(changed('print', { kind: 'setMetadata', set: { description: 'x' } })).toEqual({ ...NONE, settings: true });
  expect(changed('print', { kind: 'setMetadata', set: { year: 2030 } })).toEqual({
    ...NONE,
    settings: true,
    sections: ['s1'],
  });
  expect(changed('print', { kind: 'setMetadata', set: { modified: 99 } })).toEqual(NONE);
  const [print, ebook] = sample().editions;
  expect(changed('print', { kind: 'putEdition', edition: { ...ebook!, name: 'Other' }, index: 1 })).toEqual(NONE);
  expect(changed('print', { kind: 'putEdition', edition: { ...print!, isbn: '9780306406157' }, index: 0 })).toEqual({
    ...NONE,
    settings: true,
  });
});

test('sections that moved, came and went', () => {
  expect(changed('print', { kind: 'moveSection', section: 's3', index: 0 })).toEqual({ ...NONE, moved: true });
  expect(changed('print', { kind: 'dropSection', section: 's2' })).toEqual({ ...NONE, dropped: 1 });
  const split: Change = { kind: 'splitSection', section: 's3', block: 'b5', added: 'new', set: {} };
  expect(sample().text.child(2).child(1).attrs['id']).toBe('b6');
  expect(changed('print', { ...split, block: 'b6' }).sections).toEqual(['s3', 'new']);
});
