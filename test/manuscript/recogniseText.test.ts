import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outlineOf, type RawInline, type RawManuscript, recognise, type TidyOptions } from '#manuscript';
import { inlines, manuscript, para } from './recogniseBuilders.ts';

/** A manuscript of one paragraph in a language that the file claims. */
const single = (content: string | readonly RawInline[], language = 'en-US'): RawManuscript =>
  manuscript([para(content)], { language });

/** The paragraph as it is set; checks that no letter or digit changed, and that a second import changes nothing. */
function tidied(text: string, language = 'en-US', tidy: TidyOptions = {}): string {
  const set = setText(text, language, tidy);
  expect(letters(set)).toBe(letters(text));
  expect(setText(set, language, tidy)).toBe(set);
  return set;
}

function setText(text: string, language: string, tidy: TidyOptions): string {
  const { book } = recognise(single(text, language), { tidy });
  book.text.check();
  return outlineOf(book, undefined, { text: true })
    .sections.map((section) => section.text)
    .join('\n');
}

const letters = (text: string): string => text.replace(/[^\p{L}\p{M}\p{N}]+/gu, '');

describe('quotation marks and apostrophes', () => {
  // The public test file smart_punct.txt of the CommonMark reference implementation.
  test.each([
    [
      '"Hello," said the spider. "\'Shelob\' is my name."',
      '\u201cHello,\u201d said the spider. \u201c\u2018Shelob\u2019 is my name.\u201d',
    ],
    ["'A', 'B', and 'C' are letters.", '\u2018A\u2019, \u2018B\u2019, and \u2018C\u2019 are letters.'],
    [
      "'Oak,' 'elm,' and 'beech' are names of trees. So is 'pine.'",
      '\u2018Oak,\u2019 \u2018elm,\u2019 and \u2018beech\u2019 are names of trees. So is \u2018pine.\u2019',
    ],
    ['\'He said, "I want to go."\'', '\u2018He said, \u201cI want to go.\u201d\u2019'],
    ["Were you alive in the 70's?", 'Were you alive in the 70\u2019s?'],
    ["'tis the season to be 'jolly'", '\u2019tis the season to be \u2018jolly\u2019'],
    [
      "'We'll use Jane's boat and John's truck,' Jenna said.",
      '\u2018We\u2019ll use Jane\u2019s boat and John\u2019s truck,\u2019 Jenna said.',
    ],
  ])('%s', (typed, set) => {
    expect(tidied(typed)).toBe(set);
  });

  // Apostrophes: The Chicago Manual of Style Online, questions and answers on 6.114.
  test.each([
    ["It was the '90s.", 'It was the \u201990s.'],
    ["rock 'n' roll", 'rock \u2019n\u2019 roll'],
    ['It was the \u201890s.', 'It was the \u201990s.'],
    ["Give 'em the boats' oars.", 'Give \u2019em the boats\u2019 oars.'],
    ['"Wait--" he said.', '\u201cWait\u2014\u201d he said.'],
    ['"I knew," she said, "that you\'d come.', '\u201cI knew,\u201d she said, \u201cthat you\u2019d come.'],
    ['("Indeed")', '(\u201cIndeed\u201d)'],
    ['He was 6\'2" tall.', 'He was 6\'2" tall.'],
    ['"I am 10," he said.', '\u201cI am 10,\u201d he said.'],
  ])('%s', (typed, set) => {
    expect(tidied(typed)).toBe(set);
  });

  // Primary and nested marks by language: style guides of the trade, as gathered in the project's facts (T-40, T-47).
  test.each([
    ['fr', 'Il dit : "Viens."', 'Il dit\u00a0: \u00ab\u00a0Viens.\u00a0\u00bb'],
    ['fr', "l'eau d'aujourd'hui", 'l\u2019eau d\u2019aujourd\u2019hui'],
    ['de', '"Komm", sagte er, "wie geht\'s?"', '\u201eKomm\u201c, sagte er, \u201ewie geht\u2019s?\u201c'],
    ['de', '"Sie sagte \'nein\' zu mir."', '\u201eSie sagte \u201anein\u2018 zu mir.\u201c'],
    ['es', '"Ven", dijo.', '\u201cVen\u201d, dijo.'],
  ])('%s: %s', (language, typed, set) => {
    expect(tidied(typed, language)).toBe(set);
  });

  test('a mark is judged across looks and notes', () => {
    const content: readonly RawInline[] = [
      ...inlines('"'),
      ...inlines('Mills', { italic: true }),
      { kind: 'note', place: 'foot', paragraphs: [para('"Mills"')] },
      ...inlines('" she said.'),
    ];
    const { book } = recognise(single(content));
    const [section] = outlineOf(book, undefined, { text: true }).sections;
    expect(section).toMatchObject({
      text: '\u201cMills\u201d she said.',
      noteTexts: ['\u201cMills\u201d'],
      emphasisTexts: ['Mills'],
    });
  });
});

describe('dashes, ellipses, spaces', () => {
  // Dashes by region and language: T-42 of the project's facts.
  test.each([
    ['en-US', 'the weir--old as it was--held', 'the weir\u2014old as it was\u2014held'],
    ['en-US', 'the weir - old as it was - held', 'the weir\u2014old as it was\u2014held'],
    ['en-GB', 'the weir - old as it was - held', 'the weir\u00a0\u2013 old as it was\u00a0\u2013 held'],
    ['de', 'das Wehr - alt wie es war - hielt', 'das Wehr\u00a0\u2013 alt wie es war\u00a0\u2013 hielt'],
    ['en-US', 'pages 10--12 of a well-known book', 'pages 10\u201312 of a well-known book'],
    ['en-US', 'the 10-12 boats', 'the 10-12 boats'],
    ['es', '-Ven -dijo ella-. Es bien-parecido.', '\u2014Ven \u2014dijo ella\u2014. Es bien-parecido.'],
    ['fr', '- Viens, dit-elle.', '\u2014\u00a0Viens, dit-elle.'],
    ['en-US', 'Well... perhaps. . . no', 'Well\u2026 perhaps\u2026 no'],
    ['en-US', 'two  spaces.  And\ttabs', 'two spaces. And tabs'],
    ['en-US', 'in\u200bvisible\ufeff', 'invisible'],
  ])('%s: %s', (language, typed, set) => {
    expect(tidied(typed, language)).toBe(set);
  });

  // Lexique des r\u00e8gles typographiques en usage \u00e0 l'Imprimerie nationale, as quoted on style pages (T-45 to T-47).
  test('French spacing', () => {
    expect(tidied('\u00c7a alors ! Quoi ? Oui ; non : \u00ab viens \u00bb', 'fr-FR')).toBe(
      '\u00c7a alors\u202f! Quoi\u202f? Oui\u202f; non\u00a0: \u00ab\u00a0viens\u00a0\u00bb',
    );
    expect(tidied('\u00e0 12:30, http://example.org', 'fr-FR')).toBe('\u00e0 12:30, http://example.org');
  });

  test.each([
    ['Copyright (c) Maren Ostley', 'Copyright \u00a9 Maren Ostley'],
    ['COPYRIGHT (C) 2026 Maren Ostley', 'COPYRIGHT \u00a9 2026 Maren Ostley'],
    ['(c) 2026 Maren Ostley', '\u00a9 2026 Maren Ostley'],
    ['(a) One, (b) two, (c) Three boats, (c) 12 oars', '(a) One, (b) two, (c) Three boats, (c) 12 oars'],
  ])('the copyright sign: %s', (typed, set) => {
    expect(setText(typed, 'en-US', {})).toBe(set);
    expect(setText(typed, 'en-US', { 'copyright-sign': false })).toBe(typed);
  });

  test('each clean-up can be left undone', () => {
    expect(tidied('"a"  b--c...', 'en-US', { quote: false, dash: false, ellipsis: false, 'double-space': false })).toBe(
      '"a"  b--c...',
    );
  });

  test('what was done is counted', () => {
    const { report } = recognise(single('"One"  two--three...'));
    const counts = Object.fromEntries(report.notices.map((notice) => [notice.kind, notice.count]));
    expect(counts).toMatchObject({ quote: 2, 'double-space': 1, dash: 1, ellipsis: 1 });
  });

  test('no clean-up touches a letter, whatever is typed', () => {
    const piece = fc.constantFrom(
      'a',
      'b',
      ' ',
      '  ',
      '"',
      "'",
      '-',
      '--',
      '.',
      '...',
      ',',
      '\u201c',
      '\u2019',
      '?',
      '\t',
      '\n',
      '90',
      '\u00ab',
      ':',
    );
    const languages = fc.constantFrom('en-US', 'en-GB', 'fr', 'de', 'es');
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), languages, (pieces, language) => {
        const typed = `x${pieces.join('')}x`;
        expect(letters(setText(typed, language, {}))).toBe(letters(typed));
      }),
      { numRuns: 300 },
    );
  });
});

describe('soft returns', () => {
  const count = (text: string): readonly string[] => setText(text, 'en-US', {}).split('\n');

  test('inside a sentence a space, between sentences a new paragraph, in short lines kept', () => {
    const long = 'The river went down to the mill and the mill went on turning in the dark';
    expect(count(`${long}\nwith nobody there to see it at all, or so the miller always said.`)).toHaveLength(1);
    expect(
      count(`\u201c${long}.\u201d\n\u201cSo they say, and they have said so for as long as I remember.\u201d`),
    ).toHaveLength(2);
    const { book } = recognise(single('The Mill,\nWeir Lane,\nMarlow'));
    expect(
      book.text
        .child(0)
        .child(0)
        .children.map((node) => node.type.name),
    ).toEqual(['text', 'lineBreak', 'text', 'lineBreak', 'text']);
  });
});

describe('marks', () => {
  const emphases = (content: readonly RawInline[]): readonly string[] | undefined =>
    outlineOf(recognise(single(content)).book, undefined, { text: true }).sections[0]?.emphasisTexts;

  test('runs of one look are one span, also across a space that lost its look', () => {
    const it = { italic: true };
    expect(
      emphases([
        ...inlines('History of ', it),
        ...inlines('the', it),
        ...inlines(' '),
        ...inlines('Mill', it),
        ...inlines('.'),
      ]),
    ).toEqual(['History of the Mill']);
    expect(emphases([...inlines('Mills', it), ...inlines(', '), ...inlines('Weirs', it)])).toEqual(['Mills', 'Weirs']);
  });

  test('underline is emphasis, italic and underline one span, a link\u2019s underline none', () => {
    expect(
      emphases([
        ...inlines('a '),
        ...inlines('b', { underline: true }),
        ...inlines('c', { underline: true, italic: true }),
      ]),
    ).toEqual(['bc']);
    expect(emphases([...inlines('a '), ...inlines('site', { underline: true, href: 'https://example.org/' })])).toEqual(
      [],
    );
  });

  test('an emphasised space is none', () => {
    expect(emphases([...inlines('a'), ...inlines(' ', { italic: true }), ...inlines('b')])).toEqual([]);
  });

  test('only safe links are kept; the text always is', () => {
    const content = [
      ...inlines('one', { href: 'https://example.org/' }),
      ...inlines(' two', { href: 'javascript:alert(1)' }),
      ...inlines(' three', { href: '#anchor' }),
    ];
    const { book, report } = recognise(single(content));
    const hrefs: string[] = [];
    book.text.descendants((node) => {
      for (const mark of node.marks) if (mark.type.name === 'link') hrefs.push(mark.attrs['href'] as string);
    });
    expect(book.text.textContent).toBe('one two three');
    expect(hrefs).toEqual(['https://example.org/']);
    expect(report.notices.some((notice) => notice.kind === 'link')).toBe(true);
  });

  test('every mark of the schema that a word processor knows', () => {
    const looks = [
      { bold: true },
      { smallCaps: true },
      { strike: true },
      { raised: 'superscript' as const },
      { raised: 'subscript' as const },
      { language: 'fr' },
    ];
    const content = looks.flatMap((look, at) => inlines(`w${at} `, look));
    const { book } = recognise(
      manuscript([para('The mill and the river and the night and the road'), para(content)], { language: 'en' }),
    );
    const marks = book.text
      .child(0)
      .child(1)
      .children.flatMap((node) => node.marks.map((mark) => mark.type.name));
    expect(marks).toEqual(['strong', 'smallCaps', 'strikethrough', 'superscript', 'subscript', 'language']);
  });

  test('a heading\u2019s own look is no emphasis; a word in it may be', () => {
    const heading = [
      ...inlines('Chapter 1: On ', { bold: true, size: 20 }),
      ...inlines('Mills', { bold: true, size: 20, italic: true }),
    ];
    const blocks = [para(heading, { style: 'heading 1', outlineLevel: 1 }), para('Text of the chapter.')];
    const title = recognise(manuscript(blocks)).book.text.child(0).child(0);
    expect(title.children.map((node) => [node.text, node.marks.map((mark) => mark.type.name)])).toEqual([
      ['On ', []],
      ['Mills', ['emphasis']],
    ]);
  });
});
