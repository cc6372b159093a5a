/**
 * What an edition says, as short marks, to see later what has changed in it. In: a book and an edition; out: one mark for its
 * settings and one for each of its sections. Kept by node identity: an edit reads the edited blocks only.
 */
import { digestOf, type EditionId, type SectionId } from '#base';
import type { Book } from './book.ts';
import { fingerprint } from './fingerprint.ts';
import { selectEdition } from './select.ts';

export interface EditionMarks {
  /** Of the edition, its design and the book details. */
  readonly settings: string;
  /** Of each section that the edition holds, in their order. */
  readonly sections: ReadonlyMap<SectionId, string>;
}

/** The marks of one edition. Throws RangeError where the book has no edition of that id. */
export function editionMarks(book: Book, id: EditionId): EditionMarks {
  const { edition, sections } = selectEdition(book, id);
  // When the text was last changed shows in the text; the rest of the details shows somewhere in the files.
  const details = { ...book.metadata, modified: null };
  const design = book.designs.find((each) => each.id === edition.design) ?? null;
  const settings = digestOf(plain(edition), plain(design), plain(details));
  return { settings, sections: new Map(sections.map((each) => [each.id, fingerprint(each.node)])) };
}

/** What has changed in an edition since it bore other marks. */
export interface EditionChanges {
  readonly settings: boolean;
  /** Sections that read otherwise, or were not there. */
  readonly sections: readonly SectionId[];
  /** How many were there and are not. */
  readonly dropped: number;
  /** Whether those that stayed stand in another order. */
  readonly moved: boolean;
}

export function changesSince(before: EditionMarks, now: EditionMarks): EditionChanges {
  const old = [...before.sections.keys()].filter((id) => now.sections.has(id));
  const kept = [...now.sections.keys()].filter((id) => before.sections.has(id));
  return {
    settings: before.settings !== now.settings,
    sections: [...now.sections].filter(([id, mark]) => before.sections.get(id) !== mark).map(([id]) => id),
    dropped: before.sections.size - old.length,
    moved: old.some((id, at) => id !== kept[at]),
  };
}

/** Data as text, whatever the order in which its members were put together; a member that says nothing is none. */
function plain(value: unknown): string {
  return JSON.stringify(value, (_name, each: unknown) => {
    if (typeof each !== 'object' || each === null || Array.isArray(each)) return each;
    const members = Object.entries(each).filter(([, member]) => member !== null && member !== undefined);
    return Object.fromEntries(members.sort(([one], [other]) => (one < other ? -1 : 1)));
  });
}
