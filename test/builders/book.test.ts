import { expect, test } from 'vitest';
import { schema } from '#book';
import {
  attribution,
  book,
  bookValue,
  caption,
  cell,
  chapter,
  em,
  epigraph,
  field,
  figure,
  item,
  lang,
  letter,
  line,
  link,
  list,
  note,
  p,
  part,
  quotation,
  row,
  sceneBreak,
  section,
  smallCaps,
  stanza,
  strong,
  subtitle,
  table,
  verse,
} from './book.ts';

test('every builder makes what the schema allows', () => {
  const text = book(
    section('dedication', null, p({ align: 'center' }, 'For no one')),
    part('North'),
    chapter(
      ['The ', em('Weir')],
      subtitle('or, Water'),
      epigraph('Slow water.', attribution('A miller')),
      p('One ', em('two ', strong('three')), note('A note ', p(em('again'))), ' ', lang('fr', 'quatre')),
      sceneBreak({ mark: 'space' }),
      verse(stanza('a', line({ indent: 1 }, 'b')), stanza('c')),
      letter('Dear sir', p('Yours')),
      quotation('q'),
      list({ ordered: true }, item('one'), item('two', list(item('three')))),
      figure('0'.repeat(64), { alt: 'a weir' }, caption('A weir')),
      table(row(cell('a'), cell('b'))),
      p(link('https://example.org/', 'there'), smallCaps('x'), field('isbn')),
    ),
  );
  expect(schema.nodeFromJSON(text.toJSON()).eq(text)).toBe(true);
  expect(text.child(2).attrs).toMatchObject({ id: 's3', kind: 'chapter', numbered: true, label: 'Chapter' });
  const ids: string[] = [];
  text.descendants((node) => {
    if (typeof node.attrs['id'] === 'string') ids.push(node.attrs['id']);
  });
  expect(new Set(ids).size).toBe(ids.length);
  expect(ids).not.toContain('');
});

test('a book value has a print edition and an ebook', () => {
  const value = bookValue(book(chapter('One', p('x'))), { metadata: { title: 'Other' } });
  expect(value.editions.map((each) => each.kind)).toEqual(['print', 'ebook']);
  expect(value.metadata.title).toBe('Other');
});
