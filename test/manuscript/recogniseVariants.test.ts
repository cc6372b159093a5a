import { expect, test } from 'vitest';
import { outlineOf, recognise } from '#manuscript';
import {
  centred,
  empty,
  type Format,
  manuscript,
  Prose,
  pageBreak,
  type SectionSpec,
  typed,
  wordsOf,
} from './recogniseBuilders.ts';

/** Novels by their headings: kind, then number and title. */
const NOVELS: Readonly<
  Record<string, readonly [language: string, sections: readonly (readonly [string, ...string[]])[]]>
> = {
  'numbers and titles': [
    'en',
    [
      ['prologue', 'Prologue'],
      ['chapter', 'Chapter 1', 'The Weir'],
      ['chapter', 'Chapter 2', 'Low Water'],
      ['chapter', 'Chapter 3', 'A Lamp'],
      ['chapter', 'Chapter 4', 'The Ferryman\u2019s Wife'],
      ['epilogue', 'Epilogue'],
      ['acknowledgments', 'Acknowledgements'],
      ['aboutAuthor', 'About the Author'],
    ],
  ],
  'words in capitals': ['en', ['ONE', 'TWO', 'THREE', 'FOUR'].map((number) => ['chapter', `CHAPTER ${number}`])],
  'bare figures': ['en', ['1', '2', '3', '4'].map((number) => ['chapter', number])],
  'roman numerals and titles': [
    'en',
    [
      ['chapter', 'I', 'The Weir'],
      ['chapter', 'II', 'Low Water'],
      ['chapter', 'III', 'A Lamp'],
    ],
  ],
  'titles only': ['en', ['The Weir', 'Low Water', 'A Lamp in the Window', 'Home'].map((title) => ['chapter', title])],
  parts: [
    'en',
    [
      ['part', 'PART ONE', 'The River'],
      ['chapter', 'Chapter 1'],
      ['chapter', 'Chapter 2'],
      ['part', 'PART TWO', 'The Sea'],
      ['chapter', 'Chapter 3'],
      ['chapter', 'Chapter 4'],
    ],
  ],
  French: [
    'fr',
    [
      ['foreword', 'Avant-propos'],
      ['chapter', 'Chapitre premier', 'Le moulin'],
      ['chapter', 'Chapitre deux', 'La nuit'],
      ['chapter', 'Chapitre III', 'Le pont'],
      ['epilogue', '\u00c9pilogue'],
      ['acknowledgments', 'Remerciements'],
    ],
  ],
  German: [
    'de',
    [
      ['foreword', 'Vorwort'],
      ['chapter', 'Erstes Kapitel', 'Die M\u00fchle'],
      ['chapter', 'Zweites Kapitel', 'Das Wasser'],
      ['chapter', 'Drittes Kapitel', 'Der Brief'],
      ['afterword', 'Nachwort'],
    ],
  ],
  Spanish: [
    'es',
    [
      ['prologue', 'Pr\u00f3logo'],
      ['chapter', 'Cap\u00edtulo primero', 'El molino'],
      ['chapter', 'Cap\u00edtulo II', 'El agua'],
      ['chapter', 'Cap\u00edtulo 3', 'La carta'],
      ['epilogue', 'Ep\u00edlogo'],
    ],
  ],
};

const CHOICES: { readonly [Key in keyof Format]: readonly Format[Key][] } = {
  heading: ['style', 'boldCentre', 'centre', 'bold', 'big', 'mixed'],
  page: ['manual', 'before', 'empties', 'mixed'],
  below: [0, 1, 2],
  body: ['tab', 'indent', 'blank', 'style'],
  sceneBreak: ['***', '# # #', '~', '', 'rule', '\u25ca', '- - -'],
  join: ['paragraphs', '\n', ': ', '. ', ' \u2013 '],
  contents: ['none', 'tab', 'dots', 'plain', 'field'],
};

/** One way to format, picked by the generator. */
function anyFormat(picker: Prose): Format {
  const pick = <Value>(values: readonly Value[]): Value => values[picker.pick(values.length)] as Value;
  return {
    heading: pick(CHOICES.heading),
    page: pick(CHOICES.page),
    below: pick(CHOICES.below),
    body: pick(CHOICES.body),
    sceneBreak: pick(CHOICES.sceneBreak),
    join: pick(CHOICES.join),
    contents: pick(CHOICES.contents),
  };
}

const squeezed = (text: string): string => text.replace(/[^\p{L}\p{N}]+/gu, '').toLowerCase();

test.each(Object.keys(NOVELS))('%s, formatted in twenty ways', (name) => {
  const [language, headings] = NOVELS[name] ?? ['en', []];
  const picker = new Prose('en', name.length);
  for (let way = 0; way < 20; way++) {
    const prose = new Prose(language, way + 1);
    const sections: readonly SectionSpec[] = headings.map(([kind, ...heading]) => ({
      kind,
      heading,
      scenes: kind === 'part' ? [] : Array.from({ length: 1 + prose.pick(3) }, () => prose.scene(10)),
    }));
    const format = anyFormat(picker);
    const titlePage = [
      centred('The Long Water', { bold: true, size: 20 }),
      empty(),
      centred('by'),
      centred('Ines Marlow'),
      pageBreak(),
    ];
    const { book } = recognise(manuscript([...titlePage, ...typed(sections, format)]));
    book.text.check();
    const found = outlineOf(book).sections.map((each) => [
      each.kind,
      squeezed(each.heading ?? ''),
      each.words,
      each.sceneBreaks,
    ]);
    const wanted = sections.map((each) => [
      each.kind,
      squeezed(each.heading.join('')),
      wordsOf(each),
      Math.max(0, each.scenes.length - 1),
    ]);
    expect(found, JSON.stringify(format)).toEqual(wanted);
    expect(book.metadata.title).toBe('The Long Water');
  }
});
