import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type RawBlock, type RawParagraph, recognise } from '#manuscript';
import { centred, empties, inlines, manuscript, pageBreak, para } from './recogniseBuilders.ts';

/** Every word of the book and of what the report says about it. */
function everything(blocks: readonly RawBlock[]): string {
  const { book, report } = recognise(manuscript(blocks));
  book.text.check();
  const headings = book.text.children.map((section) => section.attrs['heading'] as string | null);
  const { title, subtitle, contributors } = book.metadata;
  const notes: string[] = [];
  book.text.descendants((node) => {
    if (node.type.name === 'note') notes.push(node.textContent);
  });
  const texts: string[] = [];
  book.text.descendants((node) => {
    if (node.isTextblock) texts.push(node.textContent);
  });
  const said = report.notices.map((notice) => notice.message);
  return [...texts, ...notes, ...headings, title, subtitle, ...contributors.map((each) => each.name), ...said]
    .join(' ')
    .toLowerCase();
}

/** Unique words, so that none can stand in for another. */
let counter = 0;
const word = (): string => `word${(counter++).toString(36)}q`;
const words = (count: number): string => {
  const text = Array.from({ length: count }, word).join(' ');
  return text.charAt(0).toUpperCase() + text.slice(1);
};

type Maker = () => readonly RawBlock[];

const kinds: readonly Maker[] = [
  () => [para(`${words(30)}.`)],
  () => [para(`${words(30)}.`, { indentFirst: 18 })],
  () => [para(`\t${words(4)}`)],
  () => [para(`\t\t${words(3)}`), para(`\t\t${words(3)}`)],
  () => [centred(words(2), { bold: true })],
  () => [pageBreak(), centred(words(2), { bold: true, size: 20 })],
  () => [pageBreak(), centred(`Chapter ${(counter % 9) + 1}`), centred(words(2))],
  () => [centred(`Part ${(counter % 4) + 1}: ${words(2)}`)],
  () => [para(`${(counter % 9) + 1}. ${words(3)}`, { align: 'center' })],
  () => [pageBreak(), para(`Prologue: ${words(2)}`, { align: 'center' })],
  () => [para(words(2), { style: 'heading 1', outlineLevel: 1 })],
  () => [para(words(2), { style: 'heading 2', outlineLevel: 2 })],
  () => [para(words(3), { style: 'Title' }), para(words(2), { style: 'Subtitle' })],
  () => [centred('by'), centred(words(2))],
  () => [para(`by ${words(2)}`)],
  () => [para(`${words(1)}@example.com`)],
  () => [para(words(8), { indentStart: 36, indentEnd: 36 }), para(`\u2014 ${words(2)}`, { align: 'end' })],
  () => [para(words(3), { style: 'Poem' }), para(words(3), { style: 'Poem' })],
  () => [para(`${words(4)}\n${words(4)}`)],
  () => [para(`${words(30)}.\n${words(30)}.`)],
  () => [para(words(4), { list: { ordered: false, level: counter % 3, start: 1, id: 'a' } })],
  () => [{ kind: 'table', rows: [[[para(words(2))], [para(words(2)), { kind: 'frame', blocks: [para(words(1))] }]]] }],
  () => [{ kind: 'frame', blocks: [para(words(2), { style: 'heading 1', outlineLevel: 1 })] }],
  () => [noted()],
  () => [para([{ kind: 'image', asset: 'c'.repeat(64), alt: '', width: null }, ...inlines(words(2))])],
  () => [para([...inlines(words(3)), { kind: 'pageBreak' }, ...inlines(words(3))])],
  () => [pageBreak(), para(`Copyright \u00a9 2024 ${words(3)}`)],
  () => [pageBreak(), para(`For ${words(2)}`, { align: 'center' })],
  () => [pageBreak(), para(`\u201c${words(6)}\u201d`), para(words(2), { align: 'end' })],
  () => [centred('***')],
  () => [para([], { rule: true })],
  () => empties(1),
  () => empties(7),
  () => [centred('THE END')],
];

function noted(): RawParagraph {
  return para([
    ...inlines(words(2)),
    { kind: 'note', place: 'foot', paragraphs: [para(words(3)), para(words(2))] },
    ...inlines(` ${words(2)}`),
  ]);
}

test('no word is lost, whatever stands where', () => {
  fc.assert(
    fc.property(fc.array(fc.nat({ max: kinds.length - 1 }), { minLength: 1, maxLength: 40 }), (picks) => {
      counter = 0;
      const blocks = picks.flatMap((pick) => kinds[pick]?.() ?? []);
      const found = everything(blocks);
      const missing = Array.from({ length: counter }, (_, at) => `word${at.toString(36)}q`).filter(
        (each) => !found.includes(each),
      );
      expect(missing).toEqual([]);
    }),
    { numRuns: 400 },
  );
});
