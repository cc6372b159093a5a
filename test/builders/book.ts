/**
 * Readable books for tests: `book(chapter('One', p('She ', em('knew'), '.')))`. In: strings and nodes; out: checked nodes
 * of the schema. `book` numbers whatever has no id yet, in reading order: sections s1, s2, ...; blocks b1, b2, ...; notes
 * n1, n2, .... Any builder takes an object of attributes first: `p({ id: 'x', align: 'center' }, 'text')`.
 */
import { Fragment, type Mark, Node } from 'prosemirror-model';
import { inches } from '#base';
import {
  type Book,
  type EbookEdition,
  type FieldName,
  type MarkName,
  type Metadata,
  type PrintEdition,
  type SectionKind,
  schema,
} from '#book';

export type Attributes = object;
export type Content = string | Node | readonly Content[];
/** Attributes may come first. Not readonly, so that `Parameters` can name it. */
export type Parts = (Content | Attributes)[];

/** The `book` node, with ids, checked against the schema. */
export function book(...sections: Node[]): Node {
  const counts = { section: 0, block: 0, note: 0 };
  const numbered = sections.map((each) => withIds(each, counts));
  const node = schema.node('book', null, numbered);
  node.check();
  return node;
}

/** A section of any kind; the title may be left out by giving null. */
export function section(kind: SectionKind, title: Content | null, ...parts: Parts): Node {
  const [attributes, content] = split(parts);
  const head = title === null ? [] : [schema.nodes.sectionTitle.create(null, inline(title))];
  return schema.nodes.section.create({ kind, ...attributes }, [...head, ...content.flatMap(blocks)]);
}

/** A numbered chapter labelled "Chapter"; title null for a number alone. */
export function chapter(title: Content | null, ...parts: Parts): Node {
  return section('chapter', title, { numbered: true, label: 'Chapter', ...attributesOf(parts) }, ...contentOf(parts));
}

/** A numbered part labelled "Part". */
export function part(title: Content | null, ...parts: Parts): Node {
  return section('part', title, { numbered: true, label: 'Part', ...attributesOf(parts) }, ...contentOf(parts));
}

/** A section's subtitle: put it first among the blocks. */
export const subtitle = textblock('sectionSubtitle');
export const p = textblock('paragraph');
export const h = textblock('heading');
export const attribution = textblock('attribution');
export const line = textblock('verseLine');
export const caption = textblock('caption');

export const quotation = container('quotation');
export const epigraph = container('epigraph');
export const verse = container('verse');
export const setOff = container('setOff');
export const list = container('list');
export const item = container('listItem');
export const table = container('table');
export const row = container('tableRow');
export const cell = container('tableCell');

/** A stanza; a string becomes a line. */
export function stanza(...parts: Parts): Node {
  const lines = contentOf(parts).flatMap((each) => (typeof each === 'string' ? [line(each)] : blocks(each)));
  return schema.nodes.stanza.create(attributesOf(parts), lines);
}

/** A letter set off from the text. */
export function letter(...parts: Parts): Node {
  return setOff({ form: 'letter', ...attributesOf(parts) }, ...contentOf(parts));
}

export function sceneBreak(attributes: Attributes = {}): Node {
  return schema.nodes.sceneBreak.create(attributes);
}

/** A figure showing `asset`; give `alt`, `decorative` or `width` as attributes and a `caption` as content. */
export function figure(asset: string, ...parts: Parts): Node {
  return schema.nodes.figure.create({ asset, ...attributesOf(parts) }, contentOf(parts).flatMap(blocks));
}

/** A note at its reference; a string becomes a paragraph. */
export function note(...parts: Parts): Node {
  return schema.nodes.note.create(attributesOf(parts), contentOf(parts).flatMap(blocks));
}

export function field(name: FieldName): Node {
  return schema.nodes.field.create({ name });
}

export function br(): Node {
  return schema.nodes.lineBreak.create();
}

export const em = marked('emphasis');
export const strong = marked('strong');
export const smallCaps = marked('smallCaps');
export const sup = marked('superscript');
export const sub = marked('subscript');
export const strike = marked('strikethrough');

export function link(href: string, ...content: Content[]): readonly Node[] {
  return withMark(schema.marks.link.create({ href }), content);
}

/** A passage in another language: `lang('fr', 'bonjour')`. */
export function lang(tag: string, ...content: Content[]): readonly Node[] {
  return withMark(schema.marks.language.create({ tag }), content);
}

export const PRINT: PrintEdition = {
  id: 'print',
  kind: 'print',
  name: 'Paperback',
  design: 'quoin',
  isbn: null,
  trim: { width: inches(5.5), height: inches(8.5) },
  notes: 'foot',
};

export const EBOOK: EbookEdition = {
  id: 'ebook',
  kind: 'ebook',
  name: 'Ebook',
  design: 'quoin',
  isbn: null,
  notes: 'chapter',
  cover: null,
};

export const METADATA: Metadata = {
  title: 'The Salt Ledger',
  subtitle: null,
  contributors: [{ name: 'Ines Verhoeven', fileAs: 'Verhoeven, Ines', role: 'aut' }],
  language: 'en-GB',
  publisher: null,
  place: null,
  year: 2021,
  rightsHolder: 'Ines Verhoeven',
  series: null,
  description: null,
  subjects: [],
  identifier: 'urn:uuid:00000000-0000-5000-8000-000000000001',
  modified: null,
};

/** What a test may set of a book; metadata fields are laid over the usual ones. */
export type BookOverrides = Partial<Omit<Book, 'metadata' | 'text'>> & { readonly metadata?: Partial<Metadata> };

/** A whole book around a `book` node: a print edition (5.5 x 8.5 in) and an ebook, both of the design `quoin`. */
export function bookValue(text: Node, overrides: BookOverrides = {}): Book {
  return {
    editions: overrides.editions ?? [PRINT, EBOOK],
    designs: overrides.designs ?? [],
    assets: overrides.assets ?? new Map(),
    muted: overrides.muted ?? [],
    remarks: overrides.remarks ?? [],
    metadata: { ...METADATA, ...overrides.metadata },
    text,
  };
}

function textblock(name: string): (...parts: Parts) => Node {
  return (...parts) => {
    const [attributes, content] = split(parts);
    return schema.node(name, attributes, content.flatMap(inline));
  };
}

/** A node of blocks; a string among them becomes a paragraph. */
function container(name: string): (...parts: Parts) => Node {
  return (...parts) => {
    const [attributes, content] = split(parts);
    return schema.node(name, attributes, content.flatMap(blocks));
  };
}

function marked(name: MarkName): (...content: Content[]) => readonly Node[] {
  return (...content) => withMark(schema.marks[name].create(), content);
}

function withMark(mark: Mark, content: readonly Content[]): readonly Node[] {
  return content.flatMap(inline).map((node) => node.mark(mark.addToSet(node.marks)));
}

function inline(content: Content): readonly Node[] {
  if (typeof content === 'string') return content === '' ? [] : [schema.text(content)];
  return content instanceof Node ? [content] : content.flatMap(inline);
}

function blocks(content: Content): readonly Node[] {
  if (typeof content === 'string') return [p(content)];
  return content instanceof Node ? [content] : content.flatMap(blocks);
}

function split(parts: Parts): readonly [Attributes, readonly Content[]] {
  return [attributesOf(parts), contentOf(parts)];
}

function attributesOf(parts: Parts): Attributes {
  const first = parts[0];
  return isAttributes(first) ? first : {};
}

function contentOf(parts: Parts): readonly Content[] {
  return (isAttributes(parts[0]) ? parts.slice(1) : parts) as readonly Content[];
}

function isAttributes(part: Content | Attributes | undefined): part is Attributes {
  return typeof part === 'object' && !(part instanceof Node) && !Array.isArray(part);
}

function withIds(node: Node, counts: { section: number; block: number; note: number }): Node {
  if (node.isText) return node;
  const id =
    node.type.spec.attrs && 'id' in node.type.spec.attrs && node.attrs['id'] === '' ? nextId(node, counts) : null;
  const children: Node[] = [];
  node.forEach((child) => {
    children.push(withIds(child, counts));
  });
  const attributes = id === null ? node.attrs : { ...node.attrs, id };
  return node.type.create(attributes, Fragment.fromArray(children), node.marks);
}

function nextId(node: Node, counts: { section: number; block: number; note: number }): string {
  if (node.type.name === 'section') return `s${++counts.section}`;
  if (node.type.name === 'note') return `n${++counts.note}`;
  return `b${++counts.block}`;
}
