import fc from 'fast-check';
import type { Node } from 'prosemirror-model';
import { expect, test } from 'vitest';
import { countWords, flatText, INLINE_OBJECT, positionIn, textOf } from '#book';
import {
  attribution,
  br,
  chapter,
  em,
  field,
  item,
  line,
  list,
  note,
  p,
  quotation,
  stanza,
  strong,
  verse,
} from '../builders/book.ts';

test('line breaks, fields and notes count as one in the flat text', () => {
  const paragraph = p('one', br(), em('two', note('aside')), field('title'), '.');
  expect(flatText(paragraph)).toBe(`one\ntwo${INLINE_OBJECT}${INLINE_OBJECT}.`);
  expect(textOf(paragraph)).toBe('one two.');
});

test('the text of a container is its text blocks, one a line', () => {
  const poem = quotation(verse(stanza('a', line('b')), stanza('c')), attribution('Someone'));
  expect(textOf(poem)).toBe('a\nb\nc\nSomeone');
});

// Word rule of the command's outline: letters, marks and digits, with apostrophes inside.
test('words are counted in the body of a section', () => {
  expect(countWords(p('Don’t it’s ’tis 1984 half-way naïve e\u0301te\u0301 — …'))).toBe(8);
  expect(countWords(p('under', em('line'), 'd ', note('not this'), 'word'))).toBe(2);
  expect(countWords(chapter('Not the title', p('one two'), list(item('three'))))).toBe(3);
});

function anyParagraph(): fc.Arbitrary<Node> {
  const inline = fc.oneof(
    fc.string({ minLength: 1, maxLength: 6 }),
    fc.constant(br()),
    fc.constant(field('year')),
    fc.constant(note('n')),
    fc.constant(strong('x')),
  );
  return fc.array(inline, { maxLength: 6 }).map((inlines) => p(...inlines));
}

test('each offset of the flat text has its position', () => {
  fc.assert(
    fc.property(anyParagraph(), (paragraph) => {
      const flat = flatText(paragraph);
      for (let offset = 0; offset < flat.length; offset++) {
        const position = positionIn(paragraph, offset);
        const { node, offset: start } = paragraph.childAfter(position);
        const seen = node?.isText
          ? node.text?.charAt(position - start)
          : node?.type.name === 'lineBreak'
            ? '\n'
            : INLINE_OBJECT;
        expect(seen).toBe(flat.charAt(offset));
      }
      expect(positionIn(paragraph, flat.length)).toBe(paragraph.content.size);
      expect(() => positionIn(paragraph, flat.length + 1)).toThrow(RangeError);
    }),
  );
});

test('words are counted as the pattern matches them', () => {
  const pattern = /[\p{L}\p{M}\p{N}]+(?:['\u2019][\p{L}\p{M}\p{N}]+)*/gu;
  const signs = fc.constantFrom(
    'a',
    'Z',
    '7',
    "'",
    '\u2019',
    ' ',
    '-',
    'é',
    'e\u0301',
    '\u{1d400}',
    '\u{1f600}',
    '\ud835',
  );
  const texts = fc.oneof(
    fc.array(signs).map((each) => each.join('')),
    fc.string({ unit: 'binary' }),
  );
  fc.assert(fc.property(texts, (text) => countWords(p(text || ' ')) === (text.match(pattern)?.length ?? 0)));
});
