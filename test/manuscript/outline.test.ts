import { expect, test } from 'vitest';
import { outlineOf, outlineText } from '#manuscript';
import {
  book,
  bookValue,
  caption,
  chapter,
  em,
  figure,
  note,
  p,
  sceneBreak,
  section,
  stanza,
  strong,
  subtitle,
  verse,
} from '../builders/book.ts';

const novel = bookValue(
  book(
    section('dedication', null, p('For no one')),
    chapter(
      'The Weir',
      { heading: 'Chapter 1: The Weir' },
      subtitle('or, Water'),
      p('It\u2019s ', em('old, ', strong('very')), ' old.', note('A note ', p('of two'))),
      sceneBreak(),
      verse(stanza('Slow water', 'goes ', 'under')),
      figure('0'.repeat(64), { alt: 'a weir' }, caption('A weir')),
    ),
  ),
  {
    metadata: {
      title: 'The Long Water',
      contributors: [{ name: 'Ines Marlow', fileAs: null, role: 'aut' }],
      language: 'en-GB',
    },
  },
);

test('the outline counts the body of each section', () => {
  const outline = outlineOf(novel, {
    sections: [],
    notices: [{ kind: 'quote', count: 2, message: 'Straight quotation marks were curled.' }],
  });
  expect(Object.keys(outline)).toEqual(['title', 'author', 'language', 'sections', 'notices']);
  expect(outline).toMatchObject({ title: 'The Long Water', author: 'Ines Marlow', language: 'en-GB' });
  expect(outline.sections[0]).toEqual({
    id: 's1',
    kind: 'dedication',
    heading: null,
    title: '',
    words: 3,
    paragraphs: 1,
    sceneBreaks: 0,
    emphases: 0,
    notes: 0,
    images: 0,
  });
  expect(outline.sections[1]).toMatchObject({
    words: 10,
    paragraphs: 5,
    sceneBreaks: 1,
    emphases: 1,
    notes: 1,
    images: 1,
  });
});

test('with the text asked for, paragraphs stand one a line, headings and notes apart', () => {
  const [, chapterOne] = outlineOf(novel, undefined, { text: true }).sections;
  expect(chapterOne?.text).toBe('It\u2019s old, very old.\nSlow water\ngoes \nunder\nA weir');
  expect(chapterOne?.emphasisTexts).toEqual(['old, very']);
  expect(chapterOne?.noteTexts).toEqual(['A note  of two']);
});

test('for a terminal, a line a section', () => {
  const text = outlineText(outlineOf(novel));
  expect(text.split('\n').filter((each) => each !== '')).toHaveLength(3);
  expect(text).toContain('The Long Water by Ines Marlow (en-GB, 13 words)');
  expect(text).toContain('(1 scene break, 1 emphasis, 1 note, 1 image)');
});
