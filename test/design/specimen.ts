/** A book of every kind of block, in invented words, for designs to be seen and held to their laws by. */
import type { Node } from 'prosemirror-model';
import type { Asset } from '#book';
import {
  attribution,
  book,
  caption,
  cell,
  chapter,
  em,
  epigraph,
  figure,
  h,
  item,
  lang,
  letter,
  line,
  list,
  note,
  p,
  part,
  quotation,
  row,
  sceneBreak,
  section,
  setOff,
  smallCaps,
  stanza,
  strong,
  subtitle,
  sup,
  table,
  verse,
} from '../builders/book.ts';

const SENTENCES = [
  'The lamplighter came down the hill at a quarter past five, as he had come every evening since the winter of the flood.',
  'She had counted the steps so often that her feet knew the number before she did.',
  '“You will want to see the ledger,” he said, “before you decide what it is worth to you.”',
  'There was a smell of tar and oranges, and of wet wool from coats that hung too near the stove.',
  'Nothing in the letter explained why the harbourmaster had signed it twice.',
  'In the afternoon the wind went round to the north-east and took the washing off the line.',
  'By the time the bell had finished they were beyond the second bridge, walking fast, the parcel between them.',
];

/** Prose that goes round the sentences, from a different one each time. */
function prose(count: number, from: number): string {
  return Array.from({ length: count }, (_, index) => SENTENCES[(from + index * 3) % SENTENCES.length]).join(' ');
}

function paragraphs(count: number, from: number): readonly Node[] {
  return Array.from({ length: count }, (_, index) => p(prose(2 + ((index + from) % 4), index + from)));
}

export const PICTURE: Asset = {
  id: 'd'.repeat(64),
  bytes: new Uint8Array(),
  mediaType: 'image/png',
  name: 'quay.png',
  pixels: { width: 1500, height: 900 },
};

/** The `book` node. */
export function specimen(): Node {
  return book(
    section('halfTitle', null),
    section('titlePage', null),
    section('copyright', null, p('Copyright © 2021 Ines Verhoeven'), p('All rights reserved.'), p('First edition')),
    section('dedication', null, p('For the keepers of small harbours')),
    section('epigraph', null, epigraph(p('A ledger is a novel that balances.'), attribution('A. Roth'))),
    section('contents', null),
    section('preface', 'Preface', ...paragraphs(4, 0)),
    part('The Harbour', subtitle('In which the account is opened')),
    chapter(
      'The Weir',
      epigraph(verse(stanza('The tide has no memory,', 'only a habit'))),
      ...paragraphs(3, 1),
      ...plain(),
    ),
    chapter('Letters and Other Papers', p(prose(2, 2)), ...papers(), ...paragraphs(3, 3)),
    chapter('Verse', p(prose(2, 4)), ...poems(), ...paragraphs(3, 5)),
    part(null),
    chapter(null, ...paragraphs(2, 6), ...goods(), ...paragraphs(4, 0), ...pictures(), ...paragraphs(6, 2)),
    chapter('Other Scripts', ...scripts(), ...paragraphs(4, 1)),
    chapter('Notes', p(prose(1, 2), note(p('See the register, folio 12.')), ' ', prose(3, 3)), ...paragraphs(9, 4)),
    section('epilogue', 'Epilogue', ...paragraphs(3, 5)),
    section('aboutAuthor', 'About the Author', p(prose(3, 6))),
  );
}

function plain(): readonly Node[] {
  return [
    h('The customs house'),
    p(prose(3, 0)),
    h({ level: 2 }, 'Of the upper floor, and of those who were to be met with there'),
    p(
      prose(3, 1),
      ' ',
      em('Nobody'),
      ' was ',
      strong('seen'),
      ', and in ',
      smallCaps('Anno Domini'),
      ' 1887 the 4',
      sup('th'),
      '.',
    ),
    h({ level: 3 }, 'The clerk'),
    p(prose(2, 2)),
    quotation(p(prose(3, 3)), p(prose(2, 4)), attribution('Harbour Regulations')),
    p(prose(1, 5)),
    sceneBreak(),
    ...paragraphs(3, 6),
    sceneBreak({ mark: 'ornament' }),
    ...paragraphs(3, 2),
  ];
}

function papers(): readonly Node[] {
  return [
    letter(
      p({ align: 'end' }, 'Weirbridge, 4 November'),
      p('Dear Tom,'),
      p(prose(3, 0)),
      p('Yours ever,'),
      p('Ida'),
      p('P.S. Burn this.'),
    ),
    p(prose(1, 1)),
    setOff({ form: 'telegram' }, p('Arriving Thursday stop bring the ledger stop'), p('Ida')),
    setOff(
      { form: 'message' },
      p(strong('Ida:'), ' the ferry left ten minutes ago and I am here with two suitcases'),
      p('Tom: soon'),
    ),
    setOff({ form: 'sign' }, p('No swimming'), p('by order of the harbour board')),
    setOff({ form: 'document' }, p('Statement of goods received on the quay, 11 March.'), p(prose(2, 2))),
  ];
}

function poems(): readonly Node[] {
  const long = 'I kept a ledger of the rain and every single drop of it was entered there, and entered twice, for me';
  return [
    verse(stanza('The lamps go down the hill in twos,', line({ indent: 1 }, 'the river takes them one by one;'))),
    verse(stanza(long, 'and never claimed.'), stanza('The book is full.'), attribution('Song of the dredgers')),
  ];
}

function goods(): readonly Node[] {
  const price = (name: string, tons: string) =>
    row(cell(p(name)), cell(p('Oranges, in crates; some of them loose')), cell(p(tons)));
  return [
    list(
      item(p('Tarred rope')),
      item(p(prose(2, 1)), list(item(p('with the tag')), item(p(prose(1, 2))))),
      item(p('Oranges')),
    ),
    list(
      { ordered: true },
      ...Array.from({ length: 11 }, (_, index) => item(p(index === 3 ? prose(2, 3) : 'A shelf'))),
    ),
    table(
      row({ header: true }, cell(p('Vessel')), cell(p('Cargo')), cell(p('Tons'))),
      price('Perpetua', '1,204'),
      price('Star', '87'),
    ),
  ];
}

function pictures(): readonly Node[] {
  return [
    figure(PICTURE.id, { alt: 'The quay' }, caption('The quay before the flood, from the papers of the harbour board')),
    ...paragraphs(5, 3),
    figure(PICTURE.id, { alt: 'The flood', place: 'bleed' }, caption('The flood')),
    ...paragraphs(4, 4),
    figure(PICTURE.id, { alt: 'The weir', place: 'page' }),
  ];
}

function scripts(): readonly Node[] {
  return [
    p(
      'First the Hebrew, ',
      lang('he', 'בראשית ברא אלהים'),
      ', the Greek, ',
      lang('el', 'ἐν ἀρχῇ ἦν ὁ λόγος'),
      ', the Russian, ',
      lang('ru', 'в начале было слово'),
      '.',
    ),
    p(
      'The captain said ',
      lang('ar', 'السلام عليكم (١٢٣ سفينة)'),
      ', and wrote ',
      lang('pl', 'żółć źdźbło'),
      '. ',
      prose(2, 0),
    ),
    quotation(p(lang('ar', 'كان يا ما كان، في قديم الزمان، بحار عجوز يعيش في ميناء صغير بين الجبل والبحر.'))),
    quotation(p(lang('he', 'היה היה פעם ימאי זקן שגר בנמל קטן בין ההר ובין הים, עם המספר 1887 (ledger) באמצע.'))),
  ];
}
