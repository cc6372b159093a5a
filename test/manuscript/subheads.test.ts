import { describe, expect, test } from 'vitest';
import { type RawBlock, recognise } from '#manuscript';
import { centred, inlines, manuscript, Prose, pageBreak, para } from './recogniseBuilders.ts';

const prose = new Prose('en', 5);
const text = (sentences: number): RawBlock => para(prose.paragraph(sentences), { indentFirst: 18 });
const chapter = (number: number): readonly RawBlock[] => [pageBreak(), centred(`Chapter ${number}`, { bold: true })];
const bold = (line: string): RawBlock => para(inlines(line, { bold: true }));

/** The subheads of the book, section by section; checks the book against the schema on the way. */
function subheads(blocks: readonly RawBlock[]): readonly (readonly string[])[] {
  const { book } = recognise(manuscript(blocks));
  book.text.check();
  return book.text.children.map((section) =>
    section.children.filter((block) => block.type.name === 'heading').map((block) => block.textContent),
  );
}

describe('short lines in bold at the margin', () => {
  test('are subheads where text stands below each, and say why', () => {
    const blocks = [
      ...chapter(1),
      text(6),
      bold('The stove'),
      text(8),
      bold('What is salt?'),
      text(9),
      ...chapter(2),
      text(5),
      bold('The cellar'),
      text(8),
    ];
    expect(subheads(blocks)).toEqual([['The stove', 'What is salt?'], ['The cellar']]);
    const { book } = recognise(manuscript(blocks));
    const remarks = book.remarks.filter((each) => each.kind === 'subhead').map((each) => each.message);
    expect(remarks).toEqual(
      Array.from({ length: 3 }, () => 'Taken as a subhead: bold, one of 3 lines of this look with text below.'),
    );
  });

  test('stay text where there is but one', () => {
    expect(subheads([...chapter(1), text(8), bold('Keep out'), text(8), ...chapter(2), text(9)])).toEqual([[], []]);
  });

  test('stay text where they are messages, sentences or speech', () => {
    const messages = ['Where are you', 'On the quay', 'Since when', 'Since the flood', 'Come home'];
    expect(subheads([...chapter(1), text(8), ...messages.map(bold), text(8), ...chapter(2), text(8)])).toEqual([
      [],
      [],
    ]);
    for (const line of ['He left.', '\u201cHe left\u201d', 'He left,', 'He left\u2026']) {
      expect(subheads([...chapter(1), text(8), bold(line), text(8), bold(line), text(8)])).toEqual([[]]);
    }
  });

  test('stay text where little stands below them', () => {
    const letters = ['From the mill', 'From the weir', 'From the lock'].flatMap((line) => [bold(line), text(1)]);
    expect(
      subheads([...chapter(1), text(8), ...letters, bold('From the sea'), text(1), ...chapter(2), text(8)]),
    ).toEqual([[], []]);
  });
});
