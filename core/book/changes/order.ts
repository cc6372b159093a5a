/** Changes of the running order. In: a Book and a change; out: the next Book, and the change back. */
import { Fragment, type Node } from 'prosemirror-model';
import { ReplaceStep } from 'prosemirror-transform';
import { failure, type Outcome, type SectionId, success } from '#base';
import type { Book, Json } from '../book.ts';
import { type Change, SECTION_ATTRIBUTES, type SectionAttributes } from '../change.ts';
import { clashingId, idsOf } from '../ids.ts';
import { schema } from '../schema.ts';
import { type Applied, applied, isPlace, placeOf, withSections } from './applied.ts';
import { clashSentence } from './text.ts';

type Of<Kind extends Change['kind']> = Extract<Change, { readonly kind: Kind }>;

export function addSection(book: Book, change: Of<'addSection'>): Outcome<Applied> {
  if (!isPlace(change.index, book.text.childCount)) return failure(noPlace(book, change.index));
  const read = readSection(change.section);
  if (!read.ok) return read;
  const clash = clashingId(book.text, null, read.value);
  if (clash !== null) return failure(clashSentence(clash));
  const section = read.value.attrs['id'] as SectionId;
  return applied(withSections(book, change.index, 0, [read.value]), { kind: 'dropSection', section });
}

export function dropSection(book: Book, change: Of<'dropSection'>): Outcome<Applied> {
  const place = placeOf(book, change.section);
  if (!place.ok) return place;
  const section = book.text.child(place.value).toJSON() as Json;
  return applied(withSections(book, place.value, 1, []), { kind: 'addSection', index: place.value, section });
}

export function moveSection(book: Book, change: Of<'moveSection'>): Outcome<Applied> {
  const place = placeOf(book, change.section);
  if (!place.ok) return place;
  if (!isPlace(change.index, book.text.childCount - 1)) return failure(noPlace(book, change.index));
  const section = book.text.child(place.value);
  const without = withSections(book, place.value, 1, []);
  return applied(withSections(without, change.index, 0, [section]), { ...change, index: place.value });
}

export function setSection(book: Book, change: Of<'setSection'>): Outcome<Applied> {
  const place = placeOf(book, change.section);
  if (!place.ok) return place;
  const before = book.text.child(place.value);
  const after = withAttributes(before, change.set);
  if (!after.ok) return after;
  const set = Object.fromEntries(Object.keys(change.set).map((name) => [name, before.attrs[name]]));
  return applied(withSections(book, place.value, 1, [after.value]), { ...change, set });
}

/** The new section is of the same sort as the one that it came from, save what `set` says; it has no heading yet. */
export function splitSection(book: Book, change: Of<'splitSection'>): Outcome<Applied> {
  const place = placeOf(book, change.section);
  if (!place.ok) return place;
  const section = book.text.child(place.value);
  const at = section.children.findIndex((child) => child.attrs['id'] === change.block && isBlock(child));
  if (at < 0) return failure(`Section "${change.section}" has no block "${change.block}" to split before.`);
  const first = section.copy(Fragment.fromArray(section.children.slice(0, at)));
  const inherited = { ...section.attrs, id: change.added, heading: null, startNumber: null, restart: false };
  const second = withAttributes(schema.nodes.section.create(inherited, section.children.slice(at)), change.set);
  if (!second.ok) return second;
  const next = withSections(book, place.value, 1, [first, second.value]);
  const clash = clashingId(withSections(book, place.value, 1, [first]).text, section, second.value);
  if (clash !== null) return failure(clashSentence(clash));
  // What the old section held is no clash for what moves out of it, but what stays there is.
  if (idsOf(first).includes(change.added)) return failure(clashSentence(change.added));
  return applied(next, rejoining(change.section, change.added, first, second.value));
}

/** The title and subtitle of the second section become paragraphs; what else its heading said goes. */
export function joinSections(book: Book, change: Of<'joinSections'>): Outcome<Applied> {
  const place = placeOf(book, change.section);
  if (!place.ok) return place;
  if (place.value + 1 === book.text.childCount) {
    return failure(`Section "${change.section}" is the last: there is none after it to join.`);
  }
  const first = book.text.child(place.value);
  const second = book.text.child(place.value + 1);
  if (!sameEditions(first, second)) return failure('Sections that stand in different editions can’t be joined.');
  const added = second.children.map(asBlock).filter((block) => block !== null);
  const joined = first.copy(first.content.append(Fragment.fromArray(added)));
  const end = first.content.size;
  const cut = new ReplaceStep(end, joined.content.size, schema.nodes.section.create().slice(0));
  return applied(withSections(book, place.value, 2, [joined]), {
    kind: 'group',
    changes: [
      { kind: 'editText', section: change.section, steps: [cut.toJSON() as Json] },
      { kind: 'addSection', index: place.value + 1, section: second.toJSON() as Json },
    ],
  });
}

function sameEditions(first: Node, second: Node): boolean {
  return JSON.stringify(first.attrs['editions']) === JSON.stringify(second.attrs['editions']);
}

/** Undoes a split: the second section goes, its blocks return to the end of the first. */
function rejoining(section: SectionId, added: SectionId, first: Node, second: Node): Change {
  const end = first.content.size;
  const restore = new ReplaceStep(end, end, second.slice(0, second.content.size));
  return {
    kind: 'group',
    changes: [
      { kind: 'dropSection', section: added },
      { kind: 'editText', section, steps: [restore.toJSON() as Json] },
    ],
  };
}

/** A section's title or subtitle as a paragraph, null where it is empty; a block as it is. */
function asBlock(node: Node): Node | null {
  if (isBlock(node)) return node;
  return node.childCount === 0 ? null : schema.nodes.paragraph.create({ id: node.attrs['id'] }, node.content);
}

function isBlock(node: Node): boolean {
  return node.type.isInGroup('block');
}

function readSection(json: Json): Outcome<Node> {
  return checked(() => {
    const node = schema.nodeFromJSON(json);
    if (node.type !== schema.nodes.section) throw new RangeError(`a ${node.type.name} is no section`);
    node.check();
    return node;
  });
}

function withAttributes(section: Node, set: Partial<SectionAttributes>): Outcome<Node> {
  const strange = Object.keys(set).find((name) => !(SECTION_ATTRIBUTES as readonly string[]).includes(name));
  if (strange !== undefined) return failure(`A section has no setting "${strange}".`);
  return checked(() => {
    const attributes = { ...section.attrs, ...set };
    schema.nodes.section.create(attributes).check();
    return schema.nodes.section.create(attributes, section.content, section.marks);
  });
}

/** Data that the schema refuses comes from outside: it fails, it does not throw. */
function checked(make: () => Node): Outcome<Node> {
  try {
    return success(make());
  } catch (error) {
    if (error instanceof RangeError) return failure(`The section can't be used: ${error.message}.`);
    throw error;
  }
}

function noPlace(book: Book, index: number): string {
  return `The running order of ${book.text.childCount} sections has no place ${index}.`;
}
