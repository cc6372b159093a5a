import type { Node } from 'prosemirror-model';
import { expect, test } from 'vitest';
import { type Book, furnish, newBook, schema, selectEdition, textOf } from '#book';
import { book, chapter, METADATA, PRINT, p, section } from '../builders/book.ts';

/** A book of these sections as recognition hands it over. */
function recognised(...sections: readonly Node[]): Book {
  return newBook({ metadata: { ...METADATA, identifier: '' }, sections: book(...sections).children });
}

function kinds(value: Book): readonly string[] {
  return value.text.children.map((each) => String(each.attrs['kind']));
}

const TWO_CHAPTERS = [chapter('A', p('x')), chapter('B', p('y'))];

test('a new book has two editions, standard matter and an identifier', () => {
  const value = furnish(recognised(...TWO_CHAPTERS));
  expect(value.editions.map((each) => [each.id, each.kind, each.notes])).toEqual([
    ['print', 'print', 'foot'],
    ['ebook', 'ebook', 'chapter'],
  ]);
  expect(value.editions[0]).toMatchObject({ trim: { width: 396, height: 612 }, design: 'quoin' });
  expect(kinds(value)).toEqual(['halfTitle', 'titlePage', 'copyright', 'contents', 'chapter', 'chapter']);
  expect(value.metadata.identifier).toMatch(
    /^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
  );
  expect(() => value.text.check()).not.toThrow();
  expect(selectEdition(value, 'ebook').sections.map((each) => each.kind)).toEqual([
    'titlePage',
    'copyright',
    'contents',
    'chapter',
    'chapter',
  ]);
});

// The Chicago Manual of Style, 17th ed., 1.4.
test('matter is put at its canonical place among the sections of the author, which keep their order', () => {
  const value = furnish(
    recognised(
      section('alsoBy', null, p('x')),
      section('epigraph', null, p('x')),
      section('dedication', null, p('x')),
      section('foreword', null, p('x')),
      section('note', null, p('x')),
      ...TWO_CHAPTERS,
      section('aboutAuthor', null, p('x')),
    ),
  );
  expect(kinds(value)).toEqual([
    'halfTitle',
    'alsoBy',
    'titlePage',
    'copyright',
    'epigraph',
    'dedication',
    'contents',
    'foreword',
    'note',
    'chapter',
    'chapter',
    'aboutAuthor',
  ]);
});

test('what the book has of its own stays as it is', () => {
  const own = recognised(section('copyright', null, p('All mine.')), ...TWO_CHAPTERS);
  const value = furnish({ ...own, editions: [{ ...PRINT, id: 'large' }] });
  expect(kinds(value).filter((kind) => kind === 'copyright')).toHaveLength(1);
  expect(value.editions.map((each) => each.id)).toEqual(['large', 'ebook']);
  expect(own.text.children.every((each) => value.text.children.includes(each))).toBe(true);
  expect(furnish(value)).toBe(value);
});

test('contents need two sections of the body with a title or a number', () => {
  const bare = furnish(recognised(chapter('A', p('x')), section('chapter', null, p('y'))));
  expect(kinds(bare)).not.toContain('contents');
  const numbered = furnish(recognised(chapter(null, p('x')), chapter(null, p('y'))));
  expect(kinds(numbered)).toContain('contents');
});

test('the copyright page says what is known and no more', () => {
  const page = (metadata: Partial<Book['metadata']>, isbn: string | null = null) => {
    const value = furnish(
      newBook({ metadata: { ...METADATA, ...metadata }, sections: book(...TWO_CHAPTERS).children }),
    );
    const editions = value.editions.map((each) => ({ ...each, isbn }));
    const view = selectEdition({ ...value, editions }, 'print');
    return view.sections.find((each) => each.kind === 'copyright')?.blocks.map(textOf);
  };
  expect(page({})).toEqual(['Copyright © 2021 Ines Verhoeven', 'All rights reserved.']);
  expect(page({ year: null, rightsHolder: null, contributors: [] })).toEqual(['All rights reserved.']);
  expect(page({ language: 'de-CH', publisher: 'Wehrverlag' }, '9783161484100')).toEqual([
    'Copyright © 2021 Ines Verhoeven',
    'Alle Rechte vorbehalten.',
    'Wehrverlag',
    'ISBN 978-3-16-148410-0 (Taschenbuch)',
  ]);
});

test('ids never clash with those of the book', () => {
  const value = furnish(recognised(chapter('A', { id: 'copyright' }, p({ id: 'title-page' }, 'x')), TWO_CHAPTERS[1]!));
  const ids: string[] = [];
  value.text.descendants((node) => {
    if (node.attrs['id']) ids.push(String(node.attrs['id']));
  });
  expect(new Set(ids).size).toBe(ids.length);
  expect(ids).toContain('title-page-2');
  expect(ids).toContain('copyright-2');
});

test('the identifier follows the content and nothing else', () => {
  const identifier = (text: string, title = 'T') =>
    furnish(newBook({ metadata: { title }, sections: book(chapter('A', p(text))).children })).metadata.identifier;
  expect(identifier('x')).toBe(identifier('x'));
  expect(identifier('x')).not.toBe(identifier('y'));
  expect(identifier('x')).not.toBe(identifier('x', 'U'));
});

test('an empty book can be furnished', () => {
  const value = furnish(newBook({ sections: [] }));
  expect(kinds(value)).toEqual(['halfTitle', 'titlePage', 'copyright']);
  expect(schema.nodeFromJSON(value.text.toJSON()).eq(value.text)).toBe(true);
});
