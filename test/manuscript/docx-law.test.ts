/**
 * Laws over random manuscripts: the text that goes in comes out, once and in order; formatting changes no words; the
 * same bytes give the same manuscript.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDocx } from '#manuscript';
import { comment, del, docx, field, ins, link, note, type Piece, p, r, table } from '../builders/docx.ts';
import { line, paragraphs, readFreely } from './docxReading.ts';

interface Made {
  readonly piece: Piece;
  readonly shown: string;
}

/** Text as authors type it, with every character that XML has to escape. */
const text = fc.stringMatching(/^[a-zé—’“&<>"' 0-9]{1,12}$/);

const look = fc.record(
  {
    italic: fc.boolean(),
    bold: fc.boolean(),
    underline: fc.boolean(),
    smallCaps: fc.boolean(),
    style: fc.constantFrom('Emphasis', 'Unknown'),
    size: fc.constantFrom(9, 12, 18.5),
    language: fc.constantFrom('en-GB', 'fr-FR'),
  },
  { requiredKeys: [] },
);

const run: fc.Arbitrary<Made> = fc.tuple(text, look).map(([shown, how]) => ({ piece: r(shown, how), shown }));

const mark: fc.Arbitrary<Made> = fc.constantFrom(
  { piece: r('\t'), shown: '<tab>' },
  { piece: r('\n'), shown: '<line>' },
  { piece: r('\f'), shown: '<page>' },
);

const inline: fc.Arbitrary<Made> = fc.oneof(
  { weight: 4, arbitrary: run },
  mark,
  text.map((gone) => ({ piece: del(gone), shown: '' })),
  run.map(({ piece, shown }) => ({ piece: ins(piece), shown })),
  run.map(({ piece, shown }) => ({ piece: link('https://example.com', piece), shown })),
  run.map(({ piece, shown }) => ({ piece: field(' REF place ', piece), shown })),
  run.map(({ piece, shown }) => ({ piece: comment('Why?', piece), shown })),
  text.map((inside) => ({ piece: note(inside), shown: `[foot: ${inside.trimStart()}]` })),
);

const paragraph: fc.Arbitrary<Made> = fc
  .tuple(fc.array(inline, { maxLength: 8 }), fc.constantFrom('Heading1', 'Quote', 'Normal', 'Unknown'))
  .map(([parts, style]) => ({
    piece: p(
      parts.map((each) => each.piece),
      { style },
    ),
    shown: parts.map((each) => each.shown).join(''),
  }));

describe('text in, text out', () => {
  it('holds for every mixture of runs', () => {
    fc.assert(
      fc.property(fc.array(paragraph, { maxLength: 6 }), (blocks) => {
        const manuscript = readFreely(blocks.map((each) => each.piece));
        expect(paragraphs(manuscript).map(line)).toEqual(blocks.map((each) => each.shown));
      }),
      { numRuns: 150 },
    );
  });

  it('holds inside tables', () => {
    fc.assert(
      fc.property(fc.array(paragraph, { minLength: 1, maxLength: 4 }), (blocks) => {
        const { blocks: read } = readFreely([table([[blocks.map((each) => each.piece)]])]);
        const [cell] = read.flatMap((each) => (each.kind === 'table' ? each.rows.flat() : []));
        const lines = cell?.map((each) => (each.kind === 'paragraph' ? line(each) : each.kind));
        expect(lines).toEqual(blocks.map((each) => each.shown));
      }),
      { numRuns: 50 },
    );
  });

  it('holds across paragraphs joined by tracked deletion', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(text, fc.boolean()), { minLength: 1, maxLength: 6 }), (parts) => {
        const blocks = parts.map(([shown, markDeleted]) => p(shown, { markDeleted }));
        expect(paragraphs(readFreely(blocks)).map(line).join('')).toBe(parts.map(([shown]) => shown).join(''));
      }),
      { numRuns: 50 },
    );
  });

  it('never leaves two runs of one look side by side, nor an empty one', () => {
    fc.assert(
      fc.property(fc.array(run, { maxLength: 8 }), (parts) => {
        const [only] = paragraphs(readFreely([p(parts.map((each) => each.piece))]));
        const keys = only!.inlines.map((each) => JSON.stringify({ ...each, text: '' }));
        expect(keys.every((key, index) => key !== keys[index + 1])).toBe(true);
        expect(only!.inlines.every((each) => each.kind === 'text' && each.text !== '')).toBe(true);
      }),
      { numRuns: 100 },
    );
  });
});

describe('the same bytes', () => {
  it('give the same manuscript', () => {
    fc.assert(
      fc.property(fc.array(paragraph, { maxLength: 3 }), (blocks) => {
        const bytes = docx(blocks.map((each) => each.piece));
        const [once, again] = [readDocx(bytes, 'a.docx'), readDocx(bytes, 'a.docx')];
        expect(once).toEqual(again);
      }),
      { numRuns: 20 },
    );
  });
});
