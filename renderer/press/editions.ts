/** New, copied and changed editions. In: a book and what is wanted; out: changes. */
import type { EditionId } from '#base';
import { type Book, type Change, type Edition, furnish, type PrintEdition } from '#book';
import { newId } from '../state/index.ts';
import { texts } from '../ui/index.ts';

const words = texts.press;

/** Puts an edition in its place, or at the end where it is new. */
export function putEdition(book: Book, edition: Edition): Change {
  const at = book.editions.findIndex((each) => each.id === edition.id);
  return { kind: 'putEdition', edition, index: at < 0 ? book.editions.length : at };
}

/** A new edition like the first of its kind, or as a new book would have it; its number is its own. */
export function addedEdition(book: Book, kind: Edition['kind']): Change {
  const model = book.editions.find((each) => each.kind === kind) ?? firstOf(book, kind);
  const name = freeName(book, kind === 'print' ? words.edition.newPrint : words.edition.newEbook);
  return putEdition(book, { ...model, id: newId(kind), name, isbn: null });
}

export function duplicatedEdition(book: Book, edition: Edition): Change {
  const name = freeName(book, words.docket.copyName(edition.name));
  const at = book.editions.findIndex((each) => each.id === edition.id);
  return { kind: 'putEdition', edition: { ...edition, id: newId(edition.kind), name, isbn: null }, index: at + 1 };
}

function firstOf(book: Book, kind: Edition['kind']): Edition {
  const made = furnish({ ...book, editions: [] }).editions.find((each) => each.kind === kind);
  if (!made) throw new RangeError(`a furnished book has an edition of kind ${kind}`);
  return made;
}

/** A name that no other edition has. */
function freeName(book: Book, wanted: string): string {
  const taken = new Set(book.editions.map((each) => each.name));
  let name = wanted;
  for (let count = 2; taken.has(name); count++) name = `${wanted} ${count}`;
  return name;
}

/** How many sections an edition holds, as its own list says. */
export function sectionsIn(book: Book, edition: EditionId): number {
  return book.text.children.filter((section) => {
    const editions = section.attrs['editions'] as readonly EditionId[] | null;
    return editions === null || editions.includes(edition);
  }).length;
}

/** The same edition without wishes that are empty: a member that says nothing is left out. */
export function withoutEmpty(edition: PrintEdition): PrintEdition {
  const { fit, largePrint, paper, ...rest } = edition;
  return { ...rest, ...(fit ? { fit } : {}), ...(largePrint ? { largePrint } : {}), ...(paper ? { paper } : {}) };
}
