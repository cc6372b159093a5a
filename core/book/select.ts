/**
 * From the book to one edition of it. In: a Book and an edition's id; out: its EditionView.
 *
 * Sections are kept by the identity of their nodes: after an edit, only the edited section is built anew.
 */
import type { Node } from 'prosemirror-model';
import type { BlockId, EditionId, NoteId, SectionId } from '#base';
import type { Book, Edition } from './book.ts';
import { fieldValues } from './fields.ts';
import { filterNode, type Selection, selectionOf } from './filter.ts';
import { textOf } from './flat.ts';
import type { SectionKind } from './kinds.ts';
import { type Place, placesOf } from './numbering.ts';
import { schema } from './schema.ts';
import type { EditionView, ViewNote, ViewSection } from './view.ts';

const views = new WeakMap<Book, Map<EditionId, EditionView>>();
const viewSections = new WeakMap<Node, Map<EditionId, { readonly place: Place; readonly section: ViewSection }>>();

/** The view of one edition. Throws RangeError where the book has no edition of that id. */
export function selectEdition(book: Book, editionId: EditionId): EditionView {
  const edition = book.editions.find((each) => each.id === editionId);
  if (!edition) throw new RangeError(`the book has no edition "${editionId}"`);
  const known = mapIn(views, book);
  const view = known.get(editionId) ?? viewOf(book, edition);
  known.set(editionId, view);
  return view;
}

function viewOf(book: Book, edition: Edition): EditionView {
  const nodes = sectionsOf(book, edition);
  const places = placesOf(nodes);
  const sections = nodes.map((node, index) => viewSection(node, places[index]!, edition.id));
  return {
    edition,
    metadata: book.metadata,
    sections,
    notes: new Map(sections.flatMap((section) => section.notes.map((note) => [note.id, note] as const))),
    asset: (id) => book.assets.get(id),
  };
}

function sectionsOf(book: Book, edition: Edition): readonly Node[] {
  const selection: Selection = selectionOf(edition.id, fieldValues(book.metadata, edition));
  const kept: Node[] = [];
  book.text.forEach((section) => {
    const node = omitted(section, edition) ? null : filterNode(section, selection);
    if (node) kept.push(node);
  });
  return kept;
}

/** Ebooks have no half title (FACTS O-14, common practice) unless the section asks for the edition by its id. */
function omitted(section: Node, edition: Edition): boolean {
  return edition.kind === 'ebook' && section.attrs['kind'] === 'halfTitle' && section.attrs['editions'] === null;
}

function viewSection(node: Node, place: Place, edition: EditionId): ViewSection {
  const known = mapIn(viewSections, node);
  const kept = known.get(edition);
  if (kept && samePlace(kept.place, place)) return kept.section;
  const section = kept ? { ...kept.section, ...place } : newViewSection(node, place);
  known.set(edition, { place, section });
  return section;
}

function samePlace(one: Place, other: Place): boolean {
  return (
    one.number === other.number &&
    one.matter === other.matter &&
    one.part === other.part &&
    one.needsLabel === other.needsLabel
  );
}

const GENERATED: ReadonlySet<SectionKind> = new Set<SectionKind>(['halfTitle', 'titlePage', 'contents']);

function newViewSection(node: Node, place: Place): ViewSection {
  const id = node.attrs['id'] as SectionId;
  const kind = node.attrs['kind'] as SectionKind;
  const title = headNode(node, schema.nodes.sectionTitle);
  const subtitle = headNode(node, schema.nodes.sectionSubtitle);
  const blocks = node.children.filter((child) => child.type.isInGroup('block'));
  return {
    id,
    kind,
    node,
    title,
    subtitle,
    blocks,
    ...place,
    label: node.attrs['label'] as string | null,
    titleText: title ? textOf(title) : '',
    generated: GENERATED.has(kind) && blocks.length === 0,
    notes: notesOf(node, id),
  };
}

/** The section's title or subtitle; null where it is absent or shows nothing. */
function headNode(section: Node, type: Node['type']): Node | null {
  const found = section.children.find((child) => child.type === type);
  return found && found.childCount > 0 && (textOf(found).trim() !== '' || hasObject(found)) ? found : null;
}

function hasObject(textblock: Node): boolean {
  return textblock.children.some((child) => child.type === schema.nodes.note);
}

/** Notes in the order of their references; a note inside a note follows it. */
function notesOf(section: Node, id: SectionId): readonly ViewNote[] {
  const notes: ViewNote[] = [];
  section.descendants((node, _position, parent) => {
    if (node.type !== schema.nodes.note) return !node.isText;
    notes.push({
      id: node.attrs['id'] as NoteId,
      number: notes.length + 1,
      section: id,
      block: (parent?.attrs['id'] ?? '') as BlockId,
      node,
    });
    return true;
  });
  return notes;
}

function mapIn<Key extends object, Value>(cache: WeakMap<Key, Map<EditionId, Value>>, key: Key): Map<EditionId, Value> {
  const map = cache.get(key) ?? new Map<EditionId, Value>();
  cache.set(key, map);
  return map;
}
