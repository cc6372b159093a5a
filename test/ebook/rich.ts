/** A book in which every kind of section, block and mark occurs once: what the checkers are run on. */
import { type Asset, type Book, SECTION_KINDS, type SectionKind } from '#book';
import type { PageStart } from '#ebook';
import {
  attribution,
  book,
  bookValue,
  br,
  caption,
  cell,
  chapter,
  EBOOK,
  em,
  epigraph,
  figure,
  h,
  item,
  lang,
  letter,
  line,
  link,
  list,
  note,
  PRINT,
  p,
  part,
  quotation,
  row,
  sceneBreak,
  section,
  setOff,
  smallCaps,
  stanza,
  strike,
  strong,
  sub,
  subtitle,
  sup,
  table,
  verse,
} from '../builders/book.ts';
import { png } from './request.ts';

export const PICTURE: Asset = {
  id: 'a'.repeat(64),
  bytes: png(40, 20),
  mediaType: 'image/png',
  name: 'weir.png',
  pixels: { width: 40, height: 20 },
};

/** Kinds that `richBook` puts in by hand, beside one plain section of each other kind. */
const BY_HAND: ReadonlySet<SectionKind> = new Set<SectionKind>([
  'halfTitle',
  'titlePage',
  'copyright',
  'dedication',
  'epigraph',
  'contents',
  'prologue',
  'part',
  'chapter',
  'notes',
]);

function plain(kind: SectionKind) {
  return section(kind, `Of the ${kind}`, p(`A paragraph of the kind ${kind}.`));
}

export function richBook(notes: 'chapter' | 'book' = 'chapter'): Book {
  const front: readonly SectionKind[] = ['frontispiece', 'foreword', 'preface', 'introduction'];
  const body: readonly SectionKind[] = ['interlude', 'epilogue'];
  const back = SECTION_KINDS.filter((kind) => !BY_HAND.has(kind) && !front.includes(kind) && !body.includes(kind));
  const text = book(
    section('halfTitle', null),
    section('titlePage', null),
    section('copyright', null, p('Copyright © 2021 Ines Verhoeven'), p('ISBN 978-0-306-40615-7 (Ebook)')),
    section('dedication', null, p('For the keepers of ', em('small'), ' lights')),
    section('epigraph', null, epigraph('Salt remembers the sea.', attribution('A proverb of the marsh'))),
    section('contents', null),
    ...front.map(plain),
    section('prologue', 'Low Water', p('Before the bridge there was a ford, and before the ford a boat.')),
    part('North', epigraph(verse(stanza('Slow the water,', 'slower the stone.')), attribution('A miller’s song'))),
    chapter(['The ', em('Weir')], subtitle('or, What the Water Kept'), ...opening()),
    chapter(
      null,
      p('He had never seen so much ', smallCaps('grey'), ' in one place.'),
      sceneBreak(),
      p('Later it rained.'),
    ),
    part('South'),
    chapter('Figures & <Tables>', ...matter()),
    chapter('Other Hands', ...hands()),
    ...body.map(plain),
    ...back.map(plain),
  );
  return bookValue(text, {
    assets: new Map([[PICTURE.id, PICTURE]]),
    editions: [
      { ...PRINT, isbn: '9780306406157' },
      { ...EBOOK, isbn: '9783161484100', notes },
    ],
    metadata: {
      title: 'The Salt Ledger & Other “Accounts”',
      subtitle: 'A Novel in Two Tides',
      contributors: [
        { name: 'Ines Verhoeven', fileAs: 'Verhoeven, Ines', role: 'aut' },
        { name: 'Tomas Ruell', fileAs: null, role: 'trl' },
      ],
      publisher: 'Estuary & Daughters',
      description: 'A ledger, a weir, <and> a debt.',
      subjects: ['FICTION / Literary', 'Salt'],
      series: { name: 'The Tidewater Books', number: '2' },
      rightsHolder: 'Ines Verhoeven',
      modified: 1_795_593_600,
    },
  });
}

function opening() {
  return [
    epigraph(p('Measure twice.'), attribution('Workshop wall')),
    p(
      'The weir had been speaking all night',
      note(p('It ', em('mutters'), ' when the wind is east.'), p('Twice.')),
      ' to no one.',
    ),
    p(
      'It said ',
      lang('fr', 'bonne nuit'),
      ' and ',
      strong(em('nothing')),
      ' else. H',
      sub('2'),
      'O, 10',
      sup('th'),
      ', ',
      strike('gone'),
      '.',
    ),
    sceneBreak({ mark: 'ornament' }),
    p('She read the line again:', br(), 'and then again.'),
    verse(
      stanza(
        'Where the long reeds lean',
        line({ indent: 1 }, 'and the eel-traps lie unseen,'),
        line({ indent: 3 }, 'count.'),
      ),
      stanza('Nobody counts the rain.'),
      attribution('Anonymous'),
    ),
    p('The next was shorter', note(verse(stanza('Rain', 'again'))), '.'),
    sceneBreak({ mark: 'space' }),
    p({ align: 'center' }, 'FERRY CLOSED'),
    p({ align: 'end' }, 'M. K.'),
    quotation('A debt is a kind of bridge.', attribution('The ledger')),
  ];
}

function matter() {
  return [
    figure(PICTURE.id, { alt: 'A weir seen from the east bank', width: 0.6 }, caption('The weir, ', em('c.'), ' 1911')),
    figure(PICTURE.id, { decorative: true }),
    h({ level: 1 }, 'Of measures'),
    p('Under the first rank.'),
    h({ level: 3 }, 'Of small measures'),
    p('The rank between is not there.'),
    table(row({ header: true }, cell('Weight'), cell('Price')), row(cell('one bushel'), cell('three pence'))),
    list({ ordered: true, start: 4 }, item('four'), item('five', list(item('five and a half')))),
    list(item('salt')),
    p(
      'See ',
      link('https://example.org/a page?x=1&y="2"', 'the address'),
      ' or ',
      link('file:///etc/passwd', 'not this one'),
      '.',
    ),
  ];
}

function hands() {
  return [
    letter('Dear Sir,', 'The salt has come.', p({ align: 'end' }, 'Your servant, ', smallCaps('K.'))),
    setOff({ form: 'telegram' }, 'ARRIVING NOON STOP BRING BOAT'),
    setOff({ form: 'message' }, 'where are you', 'at the weir'),
    setOff({ form: 'sign' }, 'No Fishing'),
    setOff({ form: 'document' }, 'Received of the miller: two sacks.', sceneBreak(), 'Paid.'),
    p('That was all.'),
  ];
}

/** Page starts as a print edition of `richBook` might have them, among them one inside a word and one in no text at all. */
export function richPages(value: Book): readonly PageStart[] {
  const starts: PageStart[] = [];
  let arabic = 0;
  value.text.forEach((each) => {
    const front = ['halfTitle', 'titlePage', 'copyright', 'dedication', 'epigraph', 'contents'].includes(
      each.attrs['kind'],
    );
    starts.push({ label: front ? `f${starts.length + 1}` : String(++arabic), block: each.attrs['id'], offset: 0 });
    const paragraphs: string[] = [];
    each.forEach((block) => {
      if (block.type.name === 'paragraph' && block.content.size > 8) paragraphs.push(block.attrs['id']);
    });
    if (!front && paragraphs[0]) starts.push({ label: String(++arabic), block: paragraphs[0], offset: 6 });
  });
  return starts;
}
