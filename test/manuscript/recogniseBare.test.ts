/** Manuscripts with few signs: titles that no style names, poems and letters at the margin, emphasis typed as marks. */
import { describe, expect, test } from 'vitest';
import { optionsWithout, outlineOf, type RawBlock, type RecogniseOptions, recognise } from '#manuscript';
import { centred, empty, inlines, manuscript, Prose, para } from './recogniseBuilders.ts';

const prose = new Prose('en', 33);
const text = (paragraphs = 5): readonly RawBlock[] =>
  Array.from({ length: paragraphs }, () => para(prose.paragraph(5), { indentFirst: 18 }));
const styled = (line: string, level = 1, look = {}): RawBlock =>
  para(line, { style: `heading ${level}`, outlineLevel: level, ...look });

function read(blocks: readonly RawBlock[], options: RecogniseOptions = {}) {
  const { book, report } = recognise(manuscript(blocks), options);
  book.text.check();
  const { title, author, sections } = outlineOf(book, report, { text: true });
  return { book, title, author, sections, kinds: sections.map(({ kind }) => kind), notices: report.notices };
}

const chapters = ['Chapter 1', 'Chapter 2'].flatMap((name) => [styled(name), ...text()]);

describe('a title that no style names', () => {
  test.each<[string, readonly RawBlock[]]>([
    ['in capitals', [para('THE LONG WATER'), empty()]],
    ['in plain letters', [para('The Long Water')]],
    ['as the first heading, at the left', [styled('The Long Water')]],
    ['as the first heading, in the middle', [styled('The Long Water', 1, { align: 'center' })]],
  ])('%s, by itself above the first heading', (_, lines) => {
    const { title, kinds } = read([...lines, styled('Prologue'), ...text(), ...chapters]);
    expect(title).toBe('The Long Water');
    expect(kinds).toEqual(['prologue', 'chapter', 'chapter']);
  });

  test.each([
    [['The Long Water', 'Ines Marlow'], 'Ines Marlow', null],
    [['The Long Water', 'The Second Mill Book', 'Ines Marlow'], 'Ines Marlow', 'The Second Mill Book'],
    [['The Long Water', 'A NOVEL BY INES MARLOW'], 'Ines Marlow', 'A NOVEL'],
    [['The Long Water', 'Ines Marlow and Tam Reed'], 'Ines Marlow, Tam Reed', null],
  ])('with what stands below it: %j', (lines, author, subtitle) => {
    const { book, title, author: found } = read([...lines.map((line) => para(line)), ...chapters]);
    expect([title, found, book.metadata.subtitle]).toEqual(['The Long Water', author, subtitle]);
  });

  test('as a heading with a subtitle and a name, among headings of the same level', () => {
    const lines = [styled('Reading Water'), centred('A Handbook'), centred('Ines Marlow')];
    const { title, author, kinds } = read([...lines, styled('Introduction'), ...text(), styled('Levels'), ...text()]);
    expect([title, author]).toEqual(['Reading Water', 'Ines Marlow']);
    expect(kinds).toEqual(['introduction', 'chapter']);
  });

  test('under its name, as forms of submission ask for it', () => {
    const lines = ['Title: The Long Water', 'Author: Ines Marlow', 'Genre: Crime', 'Word count: 80,000'];
    const { title, author, kinds, notices } = read([...lines.map((line) => para(line)), ...chapters]);
    expect([title, author]).toEqual(['The Long Water', 'Ines Marlow']);
    expect(kinds).toEqual(['chapter', 'chapter']);
    expect(notices.find(({ kind }) => kind === 'title-page-line')?.message).toContain('“Genre: Crime”');
  });

  test('is that of the only heading, which stays', () => {
    const { title, sections } = read([styled('The Lamp'), ...text(9)]);
    expect([title, ...sections.map(({ heading }) => heading)]).toEqual(['The Lamp', 'The Lamp']);
  });

  test.each([
    ['For my mother', 'dedication'],
    ['“No bridge was ever built by asking.”', 'epigraph'],
    ['for those who wait', 'dedication'],
  ])('is not %s', (line, kind) => {
    expect(read([para(line), ...chapters]).kinds).toEqual([kind, 'chapter', 'chapter']);
  });
});

describe('names of sections in the look of chapters', () => {
  test('need no room around them', () => {
    const bold = (line: string): RawBlock => centred(line, { bold: true });
    const { kinds } = read([
      bold('Chapter 1'),
      ...text(),
      bold('Chapter 2'),
      ...text(),
      bold('Acknowledgments'),
      ...text(1),
    ]);
    expect(kinds).toEqual(['chapter', 'chapter', 'acknowledgments']);
  });
});

const LINES = [
  'The river keeps no count of boats,',
  'nor of the men who row;',
  'it takes the lamp, it takes the rope,',
  'it lets the ferry go.',
];

describe('poems on pages of their own', () => {
  const poem = (title: string): readonly RawBlock[] => [
    para(inlines(title, { bold: true }), { pageBreakBefore: true }),
    ...LINES.map((line) => para(line)),
    empty(),
    ...LINES.map((line) => para(line)),
  ];

  test('are sections of stanzas under their titles', () => {
    const titles = ['Heron', 'Low Tide', 'Rope'];
    const { book, sections } = read([centred('Counting Water', { size: 20 }), ...titles.flatMap(poem)]);
    expect(sections.map(({ title }) => title)).toEqual(titles);
    for (const section of book.text.children) {
      const [verse, ...more] = section.children.filter(({ type }) => type.name !== 'sectionTitle');
      expect([verse?.type.name, more.length]).toEqual(['verse', 0]);
      expect(verse?.children.map((stanza) => stanza.childCount)).toEqual([4, 4]);
    }
  });

  test('are not what short talk is', () => {
    const talk = ['“Where is it?”', '“On the quay.”', '“Since when?”', '“Since the flood.”', '“Come home.”'];
    const { book } = read([styled('The Quay'), ...talk.map((line) => para(line)), styled('The Mill'), ...text()]);
    expect(book.text.child(0).children.map(({ type }) => type.name)).toEqual([
      'sectionTitle',
      ...talk.map(() => 'paragraph'),
    ]);
  });
});

describe('a letter at the margin', () => {
  const letter = ['Dear Tam,', prose.paragraph(3), 'Yours ever,', 'Ines'];
  const blocksOf = (lines: readonly string[]) =>
    read([
      styled('Chapter 1'),
      ...text(),
      ...lines.map((line) => para(line)),
      ...text(),
      styled('Chapter 2'),
      ...text(),
    ])
      .book.text.child(0)
      .children.map(({ type, attrs, childCount }) =>
        type.name === 'setOff' ? `${attrs['form']} ${childCount}` : type.name,
      );

  test('goes from its salutation to its signature, and says so', () => {
    expect(blocksOf(letter).filter((name) => name !== 'paragraph')).toEqual(['letter 4']);
    const { book } = read([styled('Chapter 1'), ...text(), ...letter.map((line) => para(line)), ...text()]);
    expect(book.remarks.find(({ kind }) => kind === 'letter')?.message).toBe(
      'Taken as a letter: from its salutation to its signature.',
    );
  });

  test.each<[string, readonly string[]]>([
    ['without a signature', letter.slice(0, 2)],
    ['as speech', ['“Dear Tam,', ...letter.slice(1)]],
  ])('is none %s', (_, lines) => {
    expect(blocksOf(lines)).not.toContain('letter 4');
    expect(blocksOf(lines).every((name) => name === 'paragraph')).toBe(true);
  });
});

describe('emphasis typed as marks', () => {
  const shown = (typed: string, options: RecogniseOptions = {}): string =>
    read([styled('Chapter 1'), para(typed), ...text()], options)
      .book.text.child(0)
      .child(0)
      .children.map((node) => node.marks.map(({ type }) => `<${type.name}>`).join('') + node.text)
      .join('|');

  test.each([
    ['She said _never_.', 'She said |<emphasis>never|.'],
    ['It was *quite* dark.', 'It was |<emphasis>quite| dark.'],
    ['The _Long Water_, **now**!', 'The |<emphasis>Long Water|, |<strong>now|!'],
    ['“_Never_?”', '“|<emphasis>Never|?”'],
  ])('%s', (typed, wanted) => {
    expect(shown(typed)).toBe(wanted);
  });

  test.each([
    'my_file_name',
    'Name: ____ Date: ____',
    'a note* and another note*',
    '2 * 3 * 4',
    'snake_ and _ snake',
    '* a star',
  ])('stays: %s', (typed) => {
    expect(shown(typed)).toBe(typed);
  });

  test('can be left as typed, and is counted', () => {
    expect(shown('She said _never_.', optionsWithout(['emphasis']))).toBe('She said _never_.');
    const { notices } = read([styled('Chapter 1'), para('_One_ and _two_.'), ...text()]);
    expect(notices.find(({ kind }) => kind === 'emphasis')?.count).toBe(2);
  });
});

describe('chapters with few signs', () => {
  const bold = (line: string, look = {}): RawBlock => para(inlines(line, { bold: true }), { align: 'center', ...look });
  const headings = (blocks: readonly RawBlock[]) => read(blocks).sections.map(({ heading }) => heading);

  test('may be as short as one line where each begins a page', () => {
    const short = Array.from({ length: 6 }, (_, at) => [
      para(`${at + 1}`, { align: 'center', pageBreakBefore: true }),
      para(prose.sentence(12)),
    ]);
    expect(headings(short.flat())).toEqual(['1', '2', '3', '4', '5', '6']);
  });

  test('are counted by ordinals behind an article', () => {
    const nights = ['The First Night', 'The Second Night', 'The Third Night'];
    const { sections } = read(nights.flatMap((night) => [bold(night), ...text()]));
    expect(sections.map(({ title }) => title)).toEqual(nights);
  });

  test('have no time of day for a title', () => {
    const { sections } = read([
      styled('Chapter 1'),
      bold('09:14'),
      ...text(),
      bold('11:40'),
      ...text(),
      styled('Chapter 2'),
      ...text(),
    ]);
    expect(sections.map(({ title }) => title)).toEqual(['', '']);
  });

  test('stand in parts whose names stand below their numbers, and whose mottos do not join them', () => {
    const italic = (line: string): RawBlock => para(inlines(line, { italic: true }), { align: 'center' });
    const blocks = [
      bold('PART ONE', { pageBreakBefore: true }),
      italic('The Near Bank'),
      italic('“No bridge was ever built by asking.”'),
      ...['1', '2'].flatMap((number) => [bold(number, { pageBreakBefore: true }), ...text()]),
      bold('PART TWO', { pageBreakBefore: true }),
      italic('Nobody asks twice.'),
      ...['3', '4'].flatMap((number) => [bold(number, { pageBreakBefore: true }), ...text()]),
    ];
    expect(headings(blocks)).toEqual(['PART ONE: The Near Bank', '1', '2', 'PART TWO', '3', '4']);
  });

  test('stand under the title right above the first number of each tale', () => {
    const tale = (title: string) => [para(title), ...['I', 'II'].flatMap((number) => [styled(number), ...text()])];
    const { kinds, sections } = read([...tale('THE FERRY'), ...tale('THE MILL'), ...tale('THE WEIR')]);
    // The first title is the book's: nothing is counted before it.
    expect(kinds).toEqual(['chapter', 'chapter', 'part', 'chapter', 'chapter', 'part', 'chapter', 'chapter']);
    expect(sections.filter(({ kind }) => kind === 'part').map(({ title }) => title)).toEqual(['The Mill', 'The Weir']);
  });

  test('follow a title page that stands behind the copyright page', () => {
    const rights = ['Copyright © 2026 Ines Marlow', 'All rights reserved.'].map((line) => para(line));
    const page = [para('The Long Water', { align: 'center', pageBreakBefore: true }), centred('Ines Marlow')];
    const { title, author, kinds } = read([...rights, ...page, ...chapters]);
    expect([title, author]).toEqual(['The Long Water', 'Ines Marlow']);
    expect(kinds).toEqual(['copyright', 'chapter', 'chapter']);
  });
});
