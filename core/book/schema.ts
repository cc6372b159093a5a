/**
 * The text model: one ProseMirror schema for the whole book, a flat list of sections.
 *
 * Every block carries an `id` (unique in the book) and `editions` (null: in all; else the ids of the editions that hold
 * it). Notes stand in the text at their reference, so that a note moves, is cut and is undone with its sentence.
 */
import { type DOMOutputSpec, type MarkSpec, type NodeSpec, Schema } from 'prosemirror-model';
import { isSectionKind } from './kinds.ts';

/** The fields that may stand in text; each edition fills them in. */
export const FIELD_NAMES = [
  'title',
  'subtitle',
  'author',
  'publisher',
  'place',
  'year',
  'isbn',
  'editionName',
  'series',
  'seriesNumber',
  'rightsHolder',
] as const;
export type FieldName = (typeof FIELD_NAMES)[number];

/** What a set-off text imitates; each form has its own look. */
export const SET_OFF_FORMS = ['letter', 'telegram', 'message', 'sign', 'document'] as const;
export type SetOffForm = (typeof SET_OFF_FORMS)[number];

/** Alignment that the text itself asks for; null leaves it to the design. */
export type Alignment = null | 'start' | 'center' | 'end';

const id = { default: '', validate: 'string' };
const editions = { default: null, validate: checkEditions };

function checkEditions(value: unknown): void {
  if (value === null) return;
  if (Array.isArray(value) && value.every((entry) => typeof entry === 'string')) return;
  throw new RangeError(`editions must be null or a list of edition ids, not ${JSON.stringify(value)}`);
}

function oneOf(...allowed: readonly unknown[]): (value: unknown) => void {
  return (value) => {
    if (!allowed.includes(value)) throw new RangeError(`unexpected value ${JSON.stringify(value)}`);
  };
}

function element(tag: string): (node: { attrs: Record<string, unknown> }) => DOMOutputSpec {
  return (node) => [tag, { 'data-id': String(node.attrs['id'] ?? '') }, 0];
}

const nodes = {
  book: { content: 'section*' },

  /**
   * A section of the running order. `heading` is the heading as it stood in the manuscript ("Chapter 4: The Weir");
   * the `sectionTitle` node holds what is left beside the number. `numbered` sections of one `label` ("Chapter",
   * "Letter", or null for a bare number) count on through the book; `startNumber` sets the count where it does not
   * follow, and `restart` on a part makes the chapters in it begin at 1.
   */
  section: {
    content: 'sectionTitle? sectionSubtitle? block*',
    defining: true,
    isolating: true,
    attrs: {
      id,
      editions,
      kind: {
        default: 'chapter',
        validate: (value: unknown) => {
          if (!isSectionKind(value)) throw new RangeError(`unknown section kind ${JSON.stringify(value)}`);
        },
      },
      heading: { default: null, validate: 'string|null' },
      numbered: { default: false, validate: 'boolean' },
      label: { default: null, validate: 'string|null' },
      startNumber: { default: null, validate: 'number|null' },
      restart: { default: false, validate: 'boolean' },
    },
    toDOM: element('section'),
  },
  sectionTitle: { content: 'inline*', attrs: { id }, defining: true, toDOM: element('h1') },
  sectionSubtitle: { content: 'inline*', attrs: { id }, defining: true, toDOM: element('p') },

  paragraph: {
    group: 'block prose',
    content: 'inline*',
    attrs: { id, editions, align: { default: null, validate: oneOf(null, 'start', 'center', 'end') } },
    toDOM: element('p'),
  },
  /** A subhead inside a section, `level` 1 to 3. */
  heading: {
    group: 'block',
    content: 'inline*',
    defining: true,
    attrs: { id, editions, level: { default: 1, validate: oneOf(1, 2, 3) } },
    toDOM: (node) => [`h${Number(node.attrs['level']) + 1}`, { 'data-id': String(node.attrs['id']) }, 0],
  },
  /** A break between scenes. `mark` null leaves its look to the design; `space` asks for a blank line only. */
  sceneBreak: {
    group: 'block',
    atom: true,
    attrs: { id, editions, mark: { default: null, validate: oneOf(null, 'space', 'ornament') } },
    toDOM: () => ['hr'],
  },
  quotation: {
    group: 'block',
    content: '(prose | verse | list)+ attribution?',
    attrs: { id, editions },
    toDOM: element('blockquote'),
  },
  epigraph: {
    group: 'block',
    content: '(paragraph | verse)+ attribution?',
    attrs: { id, editions },
    toDOM: element('blockquote'),
  },
  attribution: { content: 'inline*', attrs: { id }, toDOM: element('footer') },
  verse: {
    group: 'block verse',
    content: 'stanza+ attribution?',
    attrs: { id, editions },
    toDOM: element('div'),
  },
  stanza: { content: 'verseLine+', attrs: { id }, toDOM: element('div') },
  /** A line of verse; `indent` counts steps of indentation, 0 to 8. */
  verseLine: {
    content: 'inline*',
    attrs: { id, indent: { default: 0, validate: 'number' } },
    toDOM: element('p'),
  },
  /** A letter, telegram, message, sign or document shown inside the text. */
  setOff: {
    group: 'block',
    content: '(prose | verse | list | sceneBreak | figure)+',
    attrs: { id, editions, form: { default: 'letter', validate: oneOf(...SET_OFF_FORMS) } },
    toDOM: element('div'),
  },
  list: {
    group: 'block list',
    content: 'listItem+',
    attrs: {
      id,
      editions,
      ordered: { default: false, validate: 'boolean' },
      start: { default: 1, validate: 'number' },
    },
    toDOM: (node) => [node.attrs['ordered'] ? 'ol' : 'ul', 0],
  },
  listItem: { content: '(prose | list)+', attrs: { id }, toDOM: element('li') },
  /**
   * A picture. `asset` is the SHA-256 of its bytes; `width` a share of the measure (0 to 1) or null for its own size. `place`
   * null in the text, `page` on a page of its own as large as that allows, `bleed` over the trimmed edges of its page.
   */
  figure: {
    group: 'block',
    content: 'caption?',
    attrs: {
      id,
      editions,
      asset: { default: '', validate: 'string' },
      alt: { default: '', validate: 'string' },
      decorative: { default: false, validate: 'boolean' },
      width: { default: null, validate: 'number|null' },
      place: { default: null, validate: oneOf(null, 'page', 'bleed') },
    },
    toDOM: element('figure'),
  },
  caption: { content: 'inline*', attrs: { id }, toDOM: element('figcaption') },
  table: { group: 'block', content: 'tableRow+', attrs: { id, editions }, toDOM: element('table') },
  tableRow: {
    content: 'tableCell+',
    attrs: { id, header: { default: false, validate: 'boolean' } },
    toDOM: element('tr'),
  },
  tableCell: { content: '(prose | list)+', attrs: { id }, toDOM: element('td') },

  text: { group: 'inline' },
  lineBreak: { group: 'inline', inline: true, selectable: false, toDOM: () => ['br'] },
  field: {
    group: 'inline',
    inline: true,
    atom: true,
    attrs: { name: { default: 'title', validate: oneOf(...FIELD_NAMES) } },
    toDOM: (node) => ['span', { 'data-field': String(node.attrs['name']) }],
  },
  /** A note at its reference; the edition sets it at the foot of the page or at the end of the chapter or book. */
  note: {
    group: 'inline',
    inline: true,
    atom: true,
    content: '(prose | quotation | verse | list)+',
    attrs: { id },
    toDOM: element('span'),
  },
} satisfies Record<string, NodeSpec>;

const marks = {
  link: {
    attrs: { href: { validate: 'string' } },
    inclusive: false,
    toDOM: (mark) => ['a', { href: String(mark.attrs['href']) }, 0],
  },
  emphasis: { toDOM: () => ['em', 0] },
  strong: { toDOM: () => ['strong', 0] },
  smallCaps: { toDOM: () => ['span', { class: 'small-caps' }, 0] },
  superscript: { excludes: 'subscript', toDOM: () => ['sup', 0] },
  subscript: { excludes: 'superscript', toDOM: () => ['sub', 0] },
  strikethrough: { toDOM: () => ['s', 0] },
  /** A passage in another language, a BCP 47 tag. */
  language: {
    attrs: { tag: { validate: 'string' } },
    toDOM: (mark) => ['span', { lang: String(mark.attrs['tag']) }, 0],
  },
} satisfies Record<string, MarkSpec>;

/** The schema of every book. */
export const schema: Schema<keyof typeof nodes, keyof typeof marks> = new Schema({
  nodes,
  marks,
  topNode: 'book',
});

export type NodeName = keyof typeof nodes;
export type MarkName = keyof typeof marks;
