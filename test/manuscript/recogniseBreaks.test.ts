import { describe, expect, test } from 'vitest';
import { outlineOf, type RawBlock, recognise } from '#manuscript';
import { centred, empties, empty, inlines, manuscript, Prose, pageBreak, para } from './recogniseBuilders.ts';

const prose = new Prose('en', 31);
const text = (paragraphs = 5): readonly RawBlock[] =>
  Array.from({ length: paragraphs }, () => para(prose.paragraph(4), { indentFirst: 18 }));
const heading = (line: string): RawBlock => centred(line, { bold: true });

/** Scene breaks of the first of two chapters. */
function breaks(inside: readonly RawBlock[]): number {
  const { book } = recognise(
    manuscript([heading('Chapter 1'), ...inside, pageBreak(), heading('Chapter 2'), ...text()]),
  );
  book.text.check();
  return outlineOf(book).sections[0]?.sceneBreaks ?? -1;
}

describe('scene breaks', () => {
  test.each([
    '* * *',
    '***',
    '#',
    '# # #',
    '~',
    '~ ~ ~',
    '\u25ca',
    '---',
    '- - -',
    '\u2022 \u2022 \u2022',
    '\u2042',
    '\u2767',
    '\u2014',
    '. . .',
    'oOo',
    '<>',
    '+',
  ])('the mark %s', (mark) => {
    expect(breaks([...text(), centred(mark), ...text()])).toBe(1);
    expect(breaks([...text(), empty(), centred(mark), empty(), ...text()])).toBe(1);
  });

  test('a mark that is not centred', () => {
    expect(breaks([...text(), para('***'), ...text()])).toBe(1);
  });

  test('a drawn rule', () => {
    expect(breaks([...text(), para([], { rule: true }), ...text()])).toBe(1);
    expect(breaks([...text(12), para(prose.paragraph(3), { rule: true, indentFirst: 18 }), ...text(12)])).toBe(1);
  });

  test('blank lines, where paragraphs follow without', () => {
    expect(breaks([...text(9), empty(), ...text(9), empty(), ...text(9)])).toBe(2);
  });

  test('wider gaps, where every paragraph is parted by a blank line', () => {
    const apart = (count: number): readonly RawBlock[] => text(count).flatMap((block) => [block, empty()]);
    expect(breaks(apart(12))).toBe(0);
    expect(breaks([...apart(12), ...empties(2), ...apart(12)])).toBe(1);
  });

  test('a picture that stands between scenes again and again', () => {
    const ornament = para([{ kind: 'image', asset: 'a'.repeat(64), alt: '', width: 40 }], { align: 'center' });
    expect(breaks([...text(), ornament, ...text(), ornament, ...text(), ornament, ...text()])).toBe(3);
  });

  test('none at the beginning or end of a chapter, none twice', () => {
    expect(breaks([centred('***'), ...text(), centred('***'), centred('***'), ...text(), centred('***')])).toBe(1);
  });

  test('speech that has no letters is no break', () => {
    expect(
      breaks([...text(), para('\u201c?\u201d'), ...text(), para('\u201c. . .\u201d'), ...text(), para('!'), ...text()]),
    ).toBe(0);
  });

  test('space around what is set apart is no break', () => {
    const letter = [
      empty(),
      para('Dear Mara,', { indentStart: 36 }),
      para(prose.paragraph(3), { indentStart: 36 }),
      empty(),
    ];
    expect(breaks([...text(), ...letter, ...text()])).toBe(0);
    const verse = [empty(), ...['\t\tSlow water, slow,', '\t\tand the moon'].map((line) => para(line)), empty()];
    expect(breaks([...text(), ...verse, ...text()])).toBe(0);
    expect(breaks([...text(), empty(), centred('NO ENTRY'), empty(), ...text()])).toBe(0);
  });
});

describe('blocks', () => {
  /** Names of the blocks of the first chapter, the usual paragraphs left out. */
  function names(inside: readonly RawBlock[]): readonly string[] {
    const { book } = recognise(
      manuscript([heading('Chapter 1'), ...text(), ...inside, ...text(), pageBreak(), heading('Chapter 2'), ...text()]),
    );
    book.text.check();
    return book.text
      .child(0)
      .children.map((node) => node.type.name)
      .filter((name) => name !== 'paragraph' && name !== 'sectionTitle');
  }

  test('quotation, letter, verse, list', () => {
    const quote = para(prose.paragraph(3), { indentStart: 36, indentEnd: 36 });
    expect(names([quote, quote])).toEqual(['quotation']);
    const letter = [para('Dear Mara,', { indentStart: 36 }), quote, para('Yours, T.', { indentStart: 36 })];
    expect(names(letter)).toEqual(['setOff']);
    const dated = [para('Marlow, 3rd May', { align: 'end' }), ...letter, para('Tobias', { align: 'end' })];
    expect(names(dated)).toEqual(['setOff']);
    expect(
      names(
        ['Slow water, slow,', 'and the moon on the weir', 'goes under'].map((line) => para(line, { style: 'Poem' })),
      ),
    ).toEqual(['verse']);
    const item = (line: string, level = 0): RawBlock =>
      para(line, { list: { ordered: false, level, start: 1, id: '1' } });
    expect(names([item('Rope'), item('Hemp', 1), item('Oil')])).toEqual(['list']);
  });

  test('one paragraph moved in from the left alone is no quotation, unless it is announced', () => {
    const moved = para(prose.paragraph(3), { indentStart: 36 });
    expect(names([moved])).toEqual([]);
    expect(names([moved, moved])).toEqual(['quotation']);
    expect(names([para(prose.paragraph(3), { indentStart: 36, indentEnd: 36 })])).toEqual(['quotation']);
    expect(names([para('The notice on the gate was plain enough:'), moved])).toEqual(['quotation']);
  });

  test('stanzas and their indents', () => {
    const lines = ['\t\tSlow water, slow,', '\t\t\tand the moon', '', '\t\tgoes under', '\t\tagain'];
    const inside = lines.map((line) => (line === '' ? empty() : para(line)));
    const body = text(8).map((block) =>
      block.kind === 'paragraph' ? para([{ kind: 'tab' }, ...block.inlines]) : block,
    );
    const { book } = recognise(
      manuscript([heading('Chapter 1'), ...body, ...inside, ...body, pageBreak(), heading('Chapter 2'), ...body]),
    );
    const verse = book.text.child(0).children.find((node) => node.type.name === 'verse');
    expect(
      verse?.children.map((stanza) => stanza.children.map((line) => [line.textContent, line.attrs['indent']])),
    ).toEqual([
      [
        ['Slow water, slow,', 0],
        ['and the moon', 1],
      ],
      [
        ['goes under', 0],
        ['again', 0],
      ],
    ]);
  });

  test('pictures and captions, tables, frames: no word is lost', () => {
    const picture = para([{ kind: 'image', asset: 'b'.repeat(64), alt: 'A weir', width: 234 }]);
    const table: RawBlock = { kind: 'table', rows: [[[para('one')], [para('two'), para('three')]]] };
    const frame: RawBlock = { kind: 'frame', blocks: [para('KEEP OUT')] };
    expect(names([picture, para('The weir in flood', { style: 'Caption' }), table, frame])).toEqual([
      'figure',
      'table',
      'setOff',
    ]);
    const { book } = recognise(manuscript([picture, table, frame]));
    expect(book.text.textContent).toBe('onetwothreeKEEP OUT');
    expect(book.text.child(0).child(0).attrs).toMatchObject({ alt: 'A weir', width: 0.5 });
  });

  test('pictures that had a page of the manuscript have one in the book, and no other', () => {
    const image = (size: { width: number; height?: number }) =>
      ({ kind: 'image', asset: 'b'.repeat(64), alt: 'A weir', ...size }) as const;
    const placed = (blocks: readonly RawBlock[]) => {
      const { book } = recognise(manuscript(blocks));
      const figures = book.text.children.flatMap((section) =>
        section.children.filter(({ type }) => type.name === 'figure'),
      );
      return { places: figures.map((figure) => figure.attrs['place']), book };
    };
    const alone = [
      ...text(),
      para([image({ width: 300, height: 400 })], { pageBreakBefore: true }),
      para('Next page.', { pageBreakBefore: true }),
      ...text(),
    ];
    const { places, book } = placed(alone);
    expect(places).toEqual(['page']);
    expect(book.remarks.map(({ message }) => message)).toContainEqual(
      expect.stringContaining('alone between two page'),
    );
    // The page breaks around it part no scenes.
    expect(book.text.child(0).children.some(({ type }) => type.name === 'sceneBreak')).toBe(false);
    // Letter paper is 612 by 792 points (8.5 by 11 in).
    expect(placed([...text(), para([image({ width: 612, height: 792 })]), ...text()]).places).toEqual(['bleed']);
    expect(placed([...text(), para([image({ width: 468, height: 640 })]), ...text()]).places).toEqual([null]);
    const heading = [...text(), para([image({ width: 300 })], { pageBreakBefore: true }), ...text()];
    expect(placed(heading).places).toEqual([null]);
  });

  test('alignment that the text asks for', () => {
    const blocks = [para('Yours, Tobias', { align: 'end' }), centred('NO ENTRY')];
    const { book } = recognise(manuscript([...text(), ...blocks, ...text()]));
    const aligned = book.text.child(0).children.filter((node) => node.attrs['align'] !== null);
    expect(aligned.map((node) => [node.textContent, node.attrs['align']])).toEqual([
      ['Yours, Tobias', 'end'],
      ['NO ENTRY', 'center'],
    ]);
  });

  test('notes at their references', () => {
    const noted = para([
      ...inlines('The weir'),
      {
        kind: 'note',
        place: 'foot',
        paragraphs: [para([...inlines(' See '), ...inlines('Mills', { italic: true }), ...inlines('.')])],
      },
      ...inlines(' was old.'),
    ]);
    const { book } = recognise(manuscript([noted]));
    const [section] = outlineOf(book, undefined, { text: true }).sections;
    expect(section).toMatchObject({ text: 'The weir was old.', notes: 1, noteTexts: ['See Mills.'], emphases: 0 });
  });
});
