/**
 * Texts that show what a group of settings sets, for books that have none of it. In: a group; out: sections as the model
 * keeps them, and the block that matters. Place and people are invented.
 */
import type { Json } from '#book';
import type { SpecimenText } from '../worker/index.ts';
import type { GroupName } from './settings/groups.ts';

export interface Invented {
  readonly text: Extract<SpecimenText, { readonly kind: 'invented' }>;
  /** The block to show; null for the head of the first section. */
  readonly block: string | null;
}

/** The text for a group: the very same each time. */
export function inventedFor(group: GroupName): Invented {
  return TEXTS[group];
}

/** The block that a specimen is about. */
const SHOWN = 'invented-shown';

const sentences = [
  'The keeper had wound the lamp at nine, and by ten the fog had come up the slip and taken the pier from under the gulls.',
  '“You will not see the ferry tonight,” she said, and set a third cup on the table all the same.',
  'There had been a time when the bell buoy could be heard from the schoolhouse, and children drew it in the margins of their sums.',
  'He counted the stairs on the way up, as he did every evening: one hundred and twelve, and the loose one.',
  'The ledger lay open at 1894, where somebody had entered eleven casks of oil and one of salt, and then crossed out the salt.',
];

let count = 0;

function node(type: string, attrs: { readonly [name: string]: Json }, ...content: readonly Json[]): Json {
  count += 1;
  return { type, attrs: { id: `invented-${count}`, ...attrs }, content: [...content] };
}

function words(text: string): Json {
  return { type: 'text', text };
}

function italic(text: string): Json {
  return { type: 'text', text, marks: [{ type: 'emphasis' }] };
}

function p(...texts: readonly (string | Json)[]): Json {
  return node('paragraph', {}, ...texts.map((each) => (typeof each === 'string' ? words(each) : each)));
}

function line(type: string, text: string, attrs: { readonly [name: string]: Json } = {}): Json {
  return node(type, attrs, words(text));
}

/** Paragraphs of running text. */
function prose(paragraphs: number): readonly Json[] {
  return Array.from({ length: paragraphs }, (_, at) =>
    p(Array.from({ length: 3 }, (_each, next) => sentences[(at + next) % sentences.length]).join(' ')),
  );
}

function section(kind: string, title: string | null, ...blocks: readonly Json[]): Json {
  const numbered = kind === 'chapter' || kind === 'part';
  const label = kind === 'part' ? 'Part' : 'Chapter';
  const head = title === null ? [] : [line('sectionTitle', title)];
  return node('section', { kind, ...(numbered ? { numbered, label } : {}) }, ...head, ...blocks);
}

/** Sections whose first one is shown from its head. */
function fromHead(...sections: readonly Json[]): Invented {
  return { text: { kind: 'invented', sections }, block: null };
}

function chapter(...blocks: readonly Json[]): Invented {
  return fromHead(section('chapter', 'The Salt Cask', ...blocks));
}

/** A chapter in which a block is shown between paragraphs. */
function around(...blocks: readonly Json[]): Invented {
  return { ...chapter(...prose(2), ...blocks, ...prose(4)), block: SHOWN };
}

const shown = { id: SHOWN };

const verse = node(
  'verse',
  shown,
  node(
    'stanza',
    {},
    line('verseLine', 'The lamp goes round, the lamp goes round,'),
    line('verseLine', 'and what it finds it will not keep:', { indent: 1 }),
    line('verseLine', 'a sail, a slip, a spit of ground, and after that the long unlettered pages of the deep,'),
    line('verseLine', 'and one who cannot sleep.', { indent: 1 }),
  ),
);

const quotations = [
  node(
    'quotation',
    shown,
    p(
      'The light is to be shown from sunset to sunrise, in all weathers, and no keeper shall leave it on account of another’s need.',
    ),
    line('attribution', 'Standing Orders of the Harbour Board'),
  ),
  ...prose(1),
  node(
    'setOff',
    { form: 'letter' },
    p('Dear Maud,'),
    p('The casks have come and one of them is not oil. Say nothing of it until I am there; I shall know what to do.'),
    p('Your brother'),
  ),
];

const cells = (texts: readonly string[]): Json =>
  node('tableRow', {}, ...texts.map((each) => node('tableCell', {}, p(each))));

const listAndTable = [
  node(
    'list',
    { ordered: true },
    node('listItem', {}, p('Trim the wicks.')),
    node('listItem', {}, p('Wind the lamp, and enter the hour.')),
  ),
  node(
    'table',
    {},
    node(
      'tableRow',
      { header: true },
      node('tableCell', {}, node('paragraph', shown, words('Cask'))),
      node('tableCell', {}, p('Year')),
      node('tableCell', {}, p('Gallons')),
    ),
    cells(['Oil', '1894', '11']),
    cells(['Salt', '1894', '1']),
    cells(['Oil', '1895', '12']),
  ),
];

const note = node('note', {}, node('paragraph', shown, words('So the board’s own copy; the keeper’s has twelve.')));

const chapters = ['The Salt Cask', 'Fog on the Slip', 'What the Ledger Said'].map((title) =>
  section('chapter', title, ...prose(1)),
);

const TEXTS: Readonly<Record<GroupName, Invented>> = {
  text: chapter(...prose(14)),
  fine: chapter(...prose(14)),
  margins: chapter(...prose(14)),
  heads: chapter(...prose(14)),
  openers: chapter(...prose(6)),
  leadIn: chapter(...prose(6)),
  breaks: around(node('sceneBreak', {}), node('paragraph', shown, words(sentences[3] ?? ''))),
  subheads: around(
    line('heading', 'The oil accounts', { ...shown, level: 1 }),
    ...prose(1),
    line('heading', 'Casks entered twice', { level: 2 }),
    ...prose(1),
    line('heading', 'The crossed-out line', { level: 3 }),
  ),
  parts: fromHead(section('part', 'The Outer Light'), ...chapters),
  matter: fromHead(section('acknowledgments', 'Acknowledgments', ...prose(2))),
  titles: fromHead(section('titlePage', null)),
  imprint: fromHead(
    section(
      'copyright',
      null,
      p('First published by the Outer Light Press.'),
      p('All rights reserved. No part of this book may be reproduced without leave of the publisher.'),
      p('Persons and places are invented.'),
    ),
  ),
  dedication: fromHead(section('dedication', null, p('To those who wound the lamp'))),
  contents: fromHead(section('contents', null), ...chapters),
  quotations: around(...quotations),
  verse: around(verse),
  lists: around(...listAndTable),
  captions: around(
    node(
      'figure',
      { asset: 'none', alt: '' },
      node('caption', shown, words('The outer light from the slip, '), italic('before the fog')),
    ),
  ),
  notes: {
    ...chapter(p(`${sentences[0]} ${sentences[4]}`, note, ` ${sentences[1]} ${sentences[3]}`), ...prose(3)),
    block: SHOWN,
  },
};
