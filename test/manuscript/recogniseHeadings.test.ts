import { describe, expect, test } from 'vitest';
import { outlineOf, type RawBlock, recognise } from '#manuscript';
import { centred, empties, empty, inlines, manuscript, Prose, pageBreak, para } from './recogniseBuilders.ts';

const prose = new Prose('en', 11);
/** Paragraphs of text, indented as in a book. */
const text = (paragraphs = 6): readonly RawBlock[] =>
  Array.from({ length: paragraphs }, () => para(prose.paragraph(5), { indentFirst: 18 }));

/** What was recognised: "kind heading" for each section; checks the book against the schema on the way. */
function sections(blocks: readonly RawBlock[], language: string | null = null): readonly string[] {
  const { book, report } = recognise(manuscript(blocks, { language }));
  book.text.check();
  expect(report.sections.map((each) => each.section)).toEqual(book.text.children.map((node) => node.attrs['id']));
  return outlineOf(book).sections.map((each) => `${each.kind} ${each.heading ?? '-'}`);
}

const bold = (line: string): RawBlock => centred(line, { bold: true });

describe('headings by their words', () => {
  test.each([
    [['Chapter 1', 'Chapter 2', 'Chapter 3'], 'Chapter', [1, 2, 3]],
    [['CHAPTER ONE', 'CHAPTER TWO', 'CHAPTER THREE'], 'Chapter', [1, 2, 3]],
    [['Chapter the First', 'Chapter the Second', 'Chapter the Third'], 'Chapter', [1, 2, 3]],
    [['Chapter Nineteen', 'Chapter Twenty', 'Chapter Twenty-One'], 'Chapter', [19, 20, 21]],
    [['Letter I', 'Letter II', 'Letter III'], 'Letter', [1, 2, 3]],
    [['Chapitre premier', 'Chapitre II', 'Chapitre trois'], 'Chapitre', [1, 2, 3]],
    [['Erstes Kapitel', 'Zweites Kapitel', 'Drittes Kapitel'], 'Kapitel', [1, 2, 3]],
    [['1. Kapitel', '2. Kapitel', '3. Kapitel'], 'Kapitel', [1, 2, 3]],
    [['Cap\u00edtulo I', 'Cap\u00edtulo segundo', 'Cap\u00edtulo 3'], 'Cap\u00edtulo', [1, 2, 3]],
    [['Capitolo primo', 'Capitolo secondo', 'Capitolo terzo'], 'Capitolo', [1, 2, 3]],
    [['Hoofdstuk een', 'Hoofdstuk twee', 'Hoofdstuk drie'], 'Hoofdstuk', [1, 2, 3]],
    [['1', '2', '3'], null, [1, 2, 3]],
    [['I.', 'II.', 'III.'], null, [1, 2, 3]],
    [['\u2013 1 \u2013', '\u2013 2 \u2013', '\u2013 3 \u2013'], null, [1, 2, 3]],
    [['One', 'Two', 'Three'], null, [1, 2, 3]],
    [['Stave One', 'Stave Two', 'Stave Three'], 'Stave', [1, 2, 3]],
  ])('%j', (headings, label, numbers) => {
    const languages: Readonly<Record<string, string>> = {
      Chapitre: 'fr',
      Kapitel: 'de',
      Cap\u00edtulo: 'es',
      Capitolo: 'it',
      Hoofdstuk: 'nl',
    };
    const language = languages[label ?? ''] ?? 'en';
    const words = new Prose(language === 'it' || language === 'nl' ? 'en' : language, 3);
    // Too little text to tell a language by where there is no word list for it.
    const count = language === 'it' || language === 'nl' ? 1 : 5;
    const blocks = headings.flatMap((heading) => [
      pageBreak(),
      centred(heading),
      ...Array.from({ length: count }, () => para(words.paragraph(count === 1 ? 1 : 4))),
    ]);
    const { book } = recognise(manuscript(blocks, { language }));
    let count2 = 0;
    const found = book.text.children.map((node) => {
      count2 = (node.attrs['startNumber'] as number | null) ?? count2 + 1;
      return [node.attrs['kind'], node.attrs['numbered'], node.attrs['label'], count2];
    });
    expect(found).toEqual(numbers.map((number) => ['chapter', true, label, number]));
  });

  test('number and title in one paragraph, in two, and parted by a soft return', () => {
    const blocks = [
      bold('Chapter 1: The Weir'),
      ...text(),
      bold('Chapter 2'),
      bold('Low Water'),
      ...text(),
      bold('Chapter 3\nA Lamp'),
      ...text(),
    ];
    const { book } = recognise(manuscript(blocks));
    const outline = outlineOf(book).sections;
    expect(outline.map((each) => each.heading)).toEqual([
      'Chapter 1: The Weir',
      'Chapter 2: Low Water',
      'Chapter 3: A Lamp',
    ]);
    expect(outline.map((each) => each.title)).toEqual(['The Weir', 'Low Water', 'A Lamp']);
  });

  test('parts hold chapters that begin again', () => {
    const chapter = (name: string): readonly RawBlock[] => [pageBreak(), bold(name), ...text(4)];
    const blocks = [
      pageBreak(),
      bold('PART ONE'),
      bold('The River'),
      ...chapter('Chapter 1'),
      ...chapter('Chapter 2'),
      pageBreak(),
      bold('PART TWO'),
      bold('The Sea'),
      ...chapter('Chapter 1'),
    ];
    const { book } = recognise(manuscript(blocks));
    expect(book.text.children.map((node) => [node.attrs['kind'], node.attrs['label'], node.attrs['restart']])).toEqual([
      ['part', 'Part', false],
      ['chapter', 'Chapter', false],
      ['chapter', 'Chapter', false],
      ['part', 'Part', true],
      ['chapter', 'Chapter', false],
    ]);
    expect(book.text.children.every((node) => node.attrs['startNumber'] === null)).toBe(true);
  });

  test('matter by its name in four languages', () => {
    const matter = (names: readonly string[], language: string): readonly string[] => {
      const words = new Prose(language, 5);
      const body = (): readonly RawBlock[] => Array.from({ length: 6 }, () => para(words.paragraph(5)));
      return sections(names.flatMap((name) => [pageBreak(), bold(name), ...body()])).map(
        (each) => each.split(' ')[0] ?? '',
      );
    };
    const kinds = ['foreword', 'prologue', 'chapter', 'epilogue', 'afterword', 'acknowledgments', 'aboutAuthor'];
    const english = [
      'Foreword',
      'Prologue',
      'Chapter 1',
      'Epilogue',
      'Afterword',
      'Acknowledgements',
      'About the Author',
    ];
    const french = [
      'Avant-propos',
      'Prologue',
      'Chapitre 1',
      '\u00c9pilogue',
      'Postface',
      'Remerciements',
      '\u00c0 propos de l\u2019auteur',
    ];
    const german = ['Geleitwort', 'Prolog', 'Kapitel 1', 'Epilog', 'Nachwort', 'Danksagung', '\u00dcber die Autorin'];
    const spanish = [
      'Presentaci\u00f3n',
      'Pr\u00f3logo',
      'Cap\u00edtulo 1',
      'Ep\u00edlogo',
      'Posfacio',
      'Agradecimientos',
      'Sobre la autora',
    ];
    expect(matter(english, 'en')).toEqual(kinds);
    expect(matter(french, 'fr')).toEqual(kinds);
    expect(matter(german, 'de')).toEqual(kinds);
    expect(matter(spanish, 'es')).toEqual(kinds);
  });
});

describe('headings by their look', () => {
  test('titles only, centred and bold on new pages', () => {
    const names = ['The Weir', 'What the Miller Saw', 'Low Water'];
    expect(sections(names.flatMap((name) => [pageBreak(), bold(name), ...text()]))).toEqual(
      names.map((name) => `chapter ${name}`),
    );
  });

  test('narrators\u2019 names that come again', () => {
    const names = ['Mara', 'Tobias', 'Mara', 'Tobias'];
    expect(sections(names.flatMap((name) => [pageBreak(), centred(name), ...text()]))).toEqual(
      names.map((name) => `chapter ${name}`),
    );
  });

  test('a style in some chapters, the look alone in others', () => {
    const blocks = [
      para('Chapter 1', { style: 'heading 1', outlineLevel: 1, align: 'center' }),
      ...text(),
      bold('Chapter 2'),
      ...text(),
      para('Chapter 3', { style: 'heading 1', outlineLevel: 1, align: 'center' }),
      ...text(),
    ];
    expect(sections(blocks)).toEqual(['chapter Chapter 1', 'chapter Chapter 2', 'chapter Chapter 3']);
  });

  test('numbers that the word processor counts', () => {
    const heading = (label: string, title: string): RawBlock =>
      para(title, {
        style: 'heading 1',
        outlineLevel: 1,
        list: { ordered: true, level: 0, start: 1, id: '1' },
        numberText: label,
      });
    const blocks = [
      heading('Chapter 1', 'The Weir'),
      ...text(),
      heading('Chapter 2', ''),
      ...text(),
      heading('3.', 'Home'),
      ...text(),
    ];
    const { book } = recognise(manuscript(blocks));
    expect(outlineOf(book).sections.map((each) => [each.heading, each.title])).toEqual([
      ['Chapter 1 The Weir', 'The Weir'],
      ['Chapter 2', ''],
      ['3. Home', 'Home'],
    ]);
    expect(book.text.children.map((node) => node.attrs['label'])).toEqual(['Chapter', 'Chapter', 'Chapter']);
  });

  test('a chapter without number among numbered ones of the same look', () => {
    const blocks = ['Chapter 1', 'Chapter 2', 'Walton, in Continuation', 'Chapter 3'].flatMap((name) => [
      empty(),
      bold(name),
      empty(),
      ...text(),
    ]);
    expect(sections(blocks)[2]).toBe('chapter Walton, in Continuation');
  });

  test('subheads of chapters stay inside where they head little, and become sections where they head much', () => {
    const h1 = (line: string): RawBlock => para(line, { style: 'heading 1', outlineLevel: 1 });
    const h2 = (line: string): RawBlock => para(line, { style: 'heading 2', outlineLevel: 2 });
    const short = (): RawBlock => para(prose.paragraph(4));
    const little = [
      h1('Chapter 1'),
      ...text(),
      h2('On Eels'),
      short(),
      h2('On Pike'),
      short(),
      h1('Chapter 2'),
      ...text(),
    ];
    expect(sections(little)).toEqual(['chapter Chapter 1', 'chapter Chapter 2']);
    const much = [h1('Chapter 1'), ...text(9), h1('Chapter 2'), ...text(9), h2('Walton, in Continuation'), ...text(20)];
    expect(sections(much)).toEqual(['chapter Chapter 1', 'chapter Chapter 2', 'chapter Walton, in Continuation']);
  });

  test('a title that happens to hold a number', () => {
    const names = ['Vitamin C', 'A Hundred Days', '100 Days', 'Room 9'];
    const blocks = names.flatMap((name) => [para(name, { style: 'heading 1', outlineLevel: 1 }), ...text()]);
    const { book } = recognise(manuscript(blocks));
    expect(outlineOf(book).sections.map((each) => each.title)).toEqual(names);
    expect(book.text.children.some((node) => node.attrs['numbered'])).toBe(false);
  });

  test('the first level holds parts where it has no text of its own', () => {
    const h = (level: number, line: string): RawBlock => para(line, { style: `heading ${level}`, outlineLevel: level });
    const blocks = [
      h(1, 'Prologue'),
      ...text(),
      h(1, 'The River'),
      h(2, 'Mara'),
      ...text(),
      h(2, 'Tobias'),
      ...text(),
      h(1, 'The Sea'),
      h(2, 'Mara'),
      ...text(),
    ];
    expect(sections(blocks)).toEqual([
      'prologue Prologue',
      'part The River',
      'chapter Mara',
      'chapter Tobias',
      'part The Sea',
      'chapter Mara',
    ]);
  });
});

describe('what is no heading', () => {
  const chapters = (inside: readonly RawBlock[]): readonly string[] =>
    sections(
      [1, 2, 3].flatMap((number) => [
        pageBreak(),
        bold(`Chapter ${number}`),
        ...text(),
        ...(number === 2 ? inside : []),
        ...text(),
      ]),
    );
  const three = ['chapter Chapter 1', 'chapter Chapter 2', 'chapter Chapter 3'];

  test.each<[string, readonly RawBlock[]]>([
    ['a sign', [centred('NO ENTRY')]],
    ['a telegram', [empty(), centred('ARRIVE TUESDAY STOP'), centred('BRING THE BOAT STOP'), empty()]],
    ['a one-letter line', [para('I', { indentFirst: 18 })]],
    ['a place and a date', [para('Marlow, September 1817', { align: 'end' })]],
    ['a run-in phrase in bold', [para([...inlines('The ferry.', { bold: true }), ...inlines(` ${prose.sentence()}`)])]],
    ['a sentence about a chapter', [para('Chapter 4 was the worst he had ever written.', { indentFirst: 18 })]],
    ['speech about a part', [para('\u201cPart 2,\u201d she said, \u201cis lost.\u201d', { indentFirst: 18 })]],
    [
      'a list',
      ['Rope', 'Oil', 'Bread'].map((word, at) =>
        para(word, { list: { ordered: true, level: 0, start: at + 1, id: '1' } }),
      ),
    ],
    ['a numbered list typed by hand', ['1. Rope', '2. Oil', '3. Bread'].map((line) => para(line))],
    ['verse', ['Slow water, slow,', 'and the moon on the weir', 'goes under'].map((line) => para(`\t\t${line}`))],
  ])('%s', (_, inside) => {
    expect(chapters(inside)).toEqual(three);
  });

  test('the mark at the end is left out, and said so', () => {
    const blocks = [
      bold('Chapter 1'),
      ...text(),
      bold('Chapter 2'),
      ...text(),
      empty(),
      centred('THE END', { bold: true }),
      ...empties(2),
    ];
    const { book, report } = recognise(manuscript(blocks));
    expect(book.text.childCount).toBe(2);
    expect(book.text.textContent).not.toContain('THE END');
    expect(report.notices.find((notice) => notice.kind === 'end-marker')?.message).toContain('THE END');
    const kept = recognise(manuscript(blocks), { keepEndMarker: true }).book.text.textContent;
    expect(kept.endsWith('THE END')).toBe(true);
  });
});
