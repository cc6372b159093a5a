/** English heading words and numbers. */
import { numberWords } from './numberWords.ts';
import type { Words } from './words.ts';

const SMALL =
  'one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const TENS = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');
const IRREGULAR: Readonly<Record<string, string>> = {
  one: 'first',
  two: 'second',
  three: 'third',
  five: 'fifth',
  eight: 'eighth',
  nine: 'ninth',
  twelve: 'twelfth',
};

function belowHundred(value: number): string {
  if (value < 20) return SMALL[value - 1] ?? '';
  const tens = TENS[Math.floor(value / 10) - 2] ?? '';
  return value % 10 === 0 ? tens : tens + SMALL[(value % 10) - 1];
}

function cardinals(value: number): readonly string[] {
  if (value < 100) return [belowHundred(value)];
  const rest = value % 100;
  const heads = value < 200 ? ['onehundred', 'ahundred'] : ['twohundred'];
  if (rest === 0) return heads;
  return heads.flatMap((head) => [head + belowHundred(rest), `${head}and${belowHundred(rest)}`]);
}

function ordinal(cardinal: string): string {
  for (const [word, irregular] of Object.entries(IRREGULAR)) {
    if (cardinal.endsWith(word) && !cardinal.endsWith(`teen${word}`))
      return cardinal.slice(0, -word.length) + irregular;
  }
  return cardinal.endsWith('y') ? `${cardinal.slice(0, -1)}ieth` : `${cardinal}th`;
}

export const english: Words = {
  language: 'en',
  labels: {
    chapter: 'chapter',
    chap: 'chapter',
    ch: 'chapter',
    letter: 'chapter',
    stave: 'chapter',
    canto: 'chapter',
    scene: 'chapter',
    episode: 'chapter',
    part: 'part',
    book: 'part',
    volume: 'part',
    vol: 'part',
    act: 'part',
    interlude: 'interlude',
    appendix: 'appendix',
    prologue: 'prologue',
    epilogue: 'epilogue',
  },
  short: { ch: 'Chapter', chap: 'Chapter', vol: 'Volume' },
  matter: {
    halfTitle: ['half title'],
    titlePage: ['title page'],
    copyright: ['copyright', 'copyright page', 'copyright notice', 'imprint', 'legal notice', 'legal'],
    dedication: ['dedication', 'dedicated to'],
    epigraph: ['epigraph', 'epigraphs'],
    contents: ['contents', 'table of contents', 'list of chapters', 'toc'],
    foreword: ['foreword', 'foreward', 'forward'],
    preface: [
      'preface',
      "author's preface",
      "translator's preface",
      "editor's preface",
      'preface to the second edition',
    ],
    acknowledgments: [
      'acknowledgments',
      'acknowledgements',
      'acknowledgment',
      'acknowledgement',
      'thanks',
      'thank you',
    ],
    introduction: ['introduction', 'introductory', 'introductory note', "author's introduction"],
    prologue: ['prologue', 'prolog', 'prelude'],
    interlude: ['interlude', 'intermission', 'entr acte', 'intermezzo'],
    epilogue: ['epilogue', 'epilog', 'coda'],
    afterword: ['afterword', 'postscript', 'postface', 'afterward'],
    appendix: ['appendix', 'appendices', 'addendum'],
    notes: ['notes', 'endnotes', 'footnotes', 'end notes', 'notes on the text'],
    glossary: ['glossary', 'glossary of terms'],
    bibliography: ['bibliography', 'references', 'works cited', 'further reading', 'sources', 'select bibliography'],
    index: ['index', 'index of names'],
    discussion: [
      'discussion questions',
      'questions for discussion',
      'reading group guide',
      'book club questions',
      'book club guide',
      "reader's guide",
      'reading guide',
      'a reading group guide',
    ],
    aboutAuthor: [
      'about the author',
      'about the authors',
      'about the translator',
      'the author',
      'author bio',
      'author biography',
      'about me',
    ],
    alsoBy: [
      'also by',
      'also by the author',
      'also by the same author',
      'by the same author',
      'other books by the author',
      'other titles',
      'other books',
      'books by the author',
      'also available',
    ],
    excerpt: ['excerpt', 'sneak peek', 'preview', 'a sneak peek', 'sample chapter', 'bonus chapter'],
    colophon: ['colophon', 'about the type', 'a note on the type'],
    note: [
      'note',
      'a note',
      "author's note",
      'author note',
      "translator's note",
      "editor's note",
      "publisher's note",
      'a note from the author',
      'a note on the text',
      'note on the text',
      'note to the reader',
      'a note to the reader',
      'to the reader',
      'advertisement',
    ],
    other: [
      'cast of characters',
      'dramatis personae',
      'list of characters',
      'characters',
      'list of illustrations',
      'illustrations',
      'maps',
      'map',
      'chronology',
      'timeline',
      'abbreviations',
      'credits',
      'permissions',
      'newsletter',
    ],
  },
  begins: {
    alsoBy: ['also by ', 'other books by ', 'other titles by ', 'books by ', 'other works by ', 'more from '],
    aboutAuthor: ['about the author'],
    excerpt: ['an excerpt from ', 'excerpt from ', 'a preview of ', 'preview of ', 'read on for ', 'coming soon'],
    preface: ['preface to '],
    introduction: ['introduction to '],
    discussion: ['discussion questions for ', 'questions for discussion'],
  },
  articles: ['the', 'number', 'no', 'no.'],
  by: ['by', 'written by'],
  genres: [
    'a novel',
    'novel',
    'a novella',
    'novella',
    'a romance',
    'a memoir',
    'a thriller',
    'a mystery',
    'a tale',
    'stories',
    'a story',
    'short stories',
    'a novel in three parts',
  ],
  translators: ['translated by', 'translated from'],
  ends: ['the end', 'end', 'finis', 'end of manuscript', 'end of book'],
  dedications: [
    'for ',
    'to ',
    'to my ',
    'in memory of ',
    'in loving memory',
    'dedicated to ',
    'this book is dedicated',
    'for my ',
  ],
  rights: [
    'copyright',
    'all rights reserved',
    'isbn',
    'first published',
    'this is a work of fiction',
    'no part of this',
    'first edition',
    'printed in',
    'published by',
    '\u00a9',
  ],
  numbers: () => numberWords(cardinals, (value) => cardinals(value).map(ordinal)),
  stops: [
    'the',
    'and',
    'of',
    'to',
    'was',
    'he',
    'she',
    'that',
    'it',
    'his',
    'her',
    'with',
    'had',
    'you',
    'not',
    'for',
    'as',
    'at',
  ],
};
