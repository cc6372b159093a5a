import { expect, test } from 'vitest';
import { type Book, hasId, nodeById } from '#book';
import { type RawBlock, recognise } from '#manuscript';
import { centred, empties, empty, inlines, manuscript, Prose, pageBreak, para } from './recogniseBuilders.ts';

const prose = new Prose('en', 47);
const text = (paragraphs = 5): readonly RawBlock[] =>
  Array.from({ length: paragraphs }, () => para(prose.paragraph(4), { indentFirst: 18 }));
const heading = (line: string): RawBlock => centred(line, { bold: true });

/** The book of a first chapter with this inside and a second one, its laws checked. */
function bookWith(inside: readonly RawBlock[]): Book {
  const blocks = [heading('Chapter 1'), ...inside, pageBreak(), heading('Chapter 2'), ...text()];
  const { book } = recognise(manuscript(blocks));
  const ids = book.remarks.map((each) => each.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const { block, message } of book.remarks) {
    expect(hasId(book.text, block)).toBe(true);
    expect(message).toMatch(/^[A-Z“].*\.$/);
  }
  return book;
}

/** The remarks beside blocks: what each stands beside, and what it says. */
function beside(inside: readonly RawBlock[]): readonly string[] {
  const book = bookWith(inside);
  return book.remarks
    .filter(({ kind }) => kind !== 'section')
    .map(({ block, message }) => `${nodeById(book.text, block)?.type.name}: ${message}`);
}

test('each section says why it was taken so', () => {
  const { text: all, remarks } = bookWith(text());
  expect(remarks.map(({ block }) => block)).toEqual(all.children.map((each) => each.attrs['id']));
  expect(remarks[0]?.message).toMatch(/^Taken as “Chapter”: centred, bold, .*\.$/);
});

test('scene breaks that no mark shows', () => {
  expect(beside([...text(9), empty(), ...text(9)])).toEqual([
    'sceneBreak: Taken as a scene break: a blank line between paragraphs.',
  ]);
  expect(beside([...text(9), ...empties(3), ...text(9)])).toEqual([
    'sceneBreak: Taken as a scene break: three blank lines between paragraphs.',
  ]);
  expect(beside([...text(12), para(prose.paragraph(3), { spaceBefore: 24, indentFirst: 18 }), ...text(12)])).toEqual([
    'sceneBreak: Taken as a scene break: extra space between paragraphs.',
  ]);
  expect(beside([...text(9), pageBreak(), ...text(9)])).toEqual([
    'sceneBreak: Taken as a scene break: a new page between paragraphs.',
  ]);
  expect(beside([...text(), para([], { rule: true }), ...text()])).toEqual([
    'sceneBreak: Taken as a scene break: a drawn line.',
  ]);
});

test('what is plain to see needs no remark', () => {
  expect(beside([...text(), centred('* * *'), ...text()])).toEqual([]);
});

test('verse, letters and quotations by their look or their style', () => {
  const verse = ['Low the water,', 'low the light,', 'nobody crosses', 'the river tonight,'];
  expect(beside([...text(), ...verse.map((line) => para(line, { indentStart: 72 })), ...text()])).toEqual([
    'verse: Taken as verse: lines set in from the margin.',
  ]);
  expect(beside([...text(), para('Low water\nand no light', { style: 'Poem' }), ...text()])).toEqual([
    'verse: Taken as verse: its style is “Poem”.',
  ]);
  const set = { indentStart: 36, indentEnd: 36 };
  expect(beside([...text(), para('Dear Anna,', set), para(prose.paragraph(4), set), ...text()])).toEqual([
    'setOff: Taken as a letter: set in from the margin, with a salutation.',
  ]);
  expect(beside([...text(), para(prose.paragraph(4), set), ...text()])).toEqual([
    'quotation: Taken as a quotation: lines set in from the margin.',
  ]);
});

test('soft returns, frames, and links that lead nowhere', () => {
  expect(
    beside([...text(), para('The lamp went\nout in the long wet night that came after it, and'), ...text()]),
  ).toEqual(['paragraph: A soft return became a space.']);
  const two =
    'The lamp went out in the long wet night of the flood.\nNobody in the house had thought to fill it before.';
  expect(beside([...text(), para(two), ...text()])).toEqual([
    'paragraph: One paragraph was parted into 2 at its soft returns.',
  ]);
  expect(beside([...text(), { kind: 'frame', blocks: [para('Closed until spring')] }, ...text()])).toEqual([
    'setOff: Taken as a sign: it stood in a frame beside the text.',
  ]);
  const linked = para([
    ...inlines('See '),
    ...inlines('the map', { href: 'file:///maps/1' }),
    ...inlines(' for more.'),
  ]);
  expect(beside([...text(), linked, ...text()])).toEqual([
    'paragraph: A link that leads nowhere outside the file was dropped; the text was kept.',
  ]);
});

test('the mark of the end is named where it stood', () => {
  const { book } = recognise(manuscript([heading('Chapter 1'), ...text(9), centred('THE END')]));
  const last = book.remarks.at(-1);
  expect(last?.message).toBe('“THE END” was left out after this: it marks the end of the manuscript.');
  expect(last?.block).toBe(book.text.lastChild?.lastChild?.attrs['id']);
});
