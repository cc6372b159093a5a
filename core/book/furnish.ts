/**
 * What every book needs. In: a book as recognised; out: the same book with a print edition and an ebook, the standard
 * matter and an identifier, each only where the book has none of its own. The author's sections keep their order.
 */
import type { Node } from 'prosemirror-model';
import { inches } from '#base';
import type { Book, Edition } from './book.ts';
import { textOf } from './flat.ts';
import { derivedIdentifier } from './identifier.ts';
import { idsInBook } from './ids.ts';
import { matterOf, type SectionKind } from './kinds.ts';
import { type FieldName, schema } from './schema.ts';
import { type BookWords, wordsFor } from './words.ts';

/** The built-in design that a new edition gets. */
const FIRST_DESIGN = 'quoin';

/** The canonical sequence of front matter (The Chicago Manual of Style, 17th ed., 1.4); other kinds keep their places. */
const FRONT_SEQUENCE: readonly SectionKind[] = [
  'halfTitle',
  'alsoBy',
  'frontispiece',
  'titlePage',
  'copyright',
  'dedication',
  'epigraph',
  'contents',
  'foreword',
  'preface',
  'acknowledgments',
  'introduction',
];

/** The furnished book; a book that lacks nothing is returned as it is. */
export function furnish(book: Book): Book {
  const text = withMatter(book);
  const editions = withEditions(book);
  const identifier = book.metadata.identifier || derivedIdentifier(book.metadata, book.text);
  if (text === book.text && editions === book.editions && identifier === book.metadata.identifier) return book;
  return { ...book, text, editions, metadata: { ...book.metadata, identifier } };
}

function withEditions(book: Book): readonly Edition[] {
  const words = wordsFor(book.metadata.language);
  const missing = [printEdition(words), ebookEdition(words)].filter(
    (wanted) => !book.editions.some((each) => each.kind === wanted.kind || each.id === wanted.id),
  );
  return missing.length === 0 ? book.editions : [...book.editions, ...missing];
}

/** A paperback of the commonest trim for novels in the United States, US digest (FACTS 4.1). */
function printEdition(words: BookWords): Edition {
  return {
    id: 'print',
    kind: 'print',
    name: words.paperback,
    design: FIRST_DESIGN,
    isbn: null,
    trim: { width: inches(5.5), height: inches(8.5) },
    notes: 'foot',
  };
}

function ebookEdition(words: BookWords): Edition {
  return {
    id: 'ebook',
    kind: 'ebook',
    name: words.ebook,
    design: FIRST_DESIGN,
    isbn: null,
    notes: 'chapter',
    cover: null,
  };
}

function withMatter(book: Book): Node {
  const sections = [...book.text.children];
  const ids = idsInBook(book.text);
  for (const kind of ['halfTitle', 'titlePage', 'copyright'] as const) {
    if (!hasKind(sections, kind)) sections.splice(canonicalPlace(sections, kind), 0, newSection(kind, book, ids));
  }
  if (!hasKind(sections, 'contents') && sections.filter(isListed).length >= 2) {
    sections.splice(canonicalPlace(sections, 'contents'), 0, newSection('contents', book, ids));
  }
  return sections.length === book.text.childCount ? book.text : schema.nodes.book.create(null, sections);
}

/** After the last section of the front matter that comes before it in the canonical sequence. */
function canonicalPlace(sections: readonly Node[], kind: SectionKind): number {
  const rank = FRONT_SEQUENCE.indexOf(kind);
  const firstOther = sections.findIndex((section) => (matterOf(kindOf(section)) ?? 'front') !== 'front');
  const front = firstOther < 0 ? sections : sections.slice(0, firstOther);
  return (
    1 +
    front.findLastIndex((section) => {
      const other = FRONT_SEQUENCE.indexOf(kindOf(section));
      return other >= 0 && other < rank;
    })
  );
}

/** Whether a contents list would name this section of the body. */
function isListed(section: Node): boolean {
  if (matterOf(kindOf(section)) !== 'body') return false;
  const first = section.firstChild;
  const title = first?.type === schema.nodes.sectionTitle ? textOf(first).trim() : '';
  return Boolean(section.attrs['numbered']) || title !== '';
}

function hasKind(sections: readonly Node[], kind: SectionKind): boolean {
  return sections.some((section) => kindOf(section) === kind);
}

function kindOf(section: Node): SectionKind {
  return section.attrs['kind'] as SectionKind;
}

const ID_OF = {
  halfTitle: 'half-title',
  titlePage: 'title-page',
  copyright: 'copyright',
  contents: 'contents',
} as const;

function newSection(kind: keyof typeof ID_OF, book: Book, ids: Set<string>): Node {
  const id = freshId(ID_OF[kind], ids);
  const blocks = kind === 'copyright' ? copyrightLines(book, id, ids) : [];
  return schema.nodes.section.create({ id, kind }, blocks);
}

/** Lines that say only what is known: each field stands until an edition fills it, and an empty line is left out there. */
function copyrightLines(book: Book, section: string, ids: Set<string>): readonly Node[] {
  const lines: readonly (readonly (string | Node)[])[] = [
    ['Copyright © ', field('year'), ' ', field('rightsHolder')],
    [wordsFor(book.metadata.language).rightsReserved],
    [field('publisher')],
    ['ISBN ', field('isbn'), ' (', field('editionName'), ')'],
  ];
  return lines.map((line, index) =>
    schema.nodes.paragraph.create(
      { id: freshId(`${section}-${index + 1}`, ids) },
      line.map((each) => (typeof each === 'string' ? schema.text(each) : each)),
    ),
  );
}

function field(name: FieldName): Node {
  return schema.nodes.field.create({ name });
}

function freshId(wanted: string, taken: Set<string>): string {
  let id = wanted;
  for (let count = 2; taken.has(id); count++) id = `${wanted}-${count}`;
  taken.add(id);
  return id;
}
