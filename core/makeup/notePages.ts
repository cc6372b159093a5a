/**
 * What pages of notes at the book's end are about: readers look for a note by the page that they come from (CMOS calls for
 * running heads that name those pages; from memory). In: the plan of the book; out: a running head for each page of notes.
 */
import type { EditionView } from '#book';
import type { PlannedPage } from './arrange.ts';

/** A head for notes that belong to one page, and for those of several. */
type Wording = readonly [one: (page: string) => string, more: (first: string, last: string) => string];

const WORDINGS: Readonly<Record<string, Wording>> = {
  en: [(page) => `Notes to page ${page}`, (first, last) => `Notes to pages ${first}\u2013${last}`],
  de: [(page) => `Anmerkungen zu Seite ${page}`, (first, last) => `Anmerkungen zu den Seiten ${first}\u2013${last}`],
  fr: [(page) => `Notes de la page ${page}`, (first, last) => `Notes des pages ${first}\u2013${last}`],
  es: [(page) => `Notas de la p\u00e1gina ${page}`, (first, last) => `Notas de las p\u00e1ginas ${first}\u2013${last}`],
  it: [(page) => `Note alla pagina ${page}`, (first, last) => `Note alle pagine ${first}\u2013${last}`],
};

export class NotePages {
  /** The folio of the page that refers to a note, by the blocks of the note. */
  private readonly folios = new Map<string, string>();
  private readonly wording: Wording | null;

  constructor(view: EditionView, plan: readonly PlannedPage[]) {
    this.wording = WORDINGS[view.metadata.language.split('-')[0] ?? ''] ?? null;
    if (view.edition.notes !== 'book') return;
    const pages = referringPages(plan);
    for (const { notes } of view.sections) {
      for (const { id, node } of notes) {
        const page = pages.get(id);
        if (page === undefined) continue;
        node.descendants((block) => {
          if (block.isTextblock) this.folios.set(String(block.attrs['id']), page);
          return !block.isTextblock;
        });
      }
    }
  }

  /** The head of a page of notes, '' where it shows none or the book's language has no wording here. */
  headOf({ content }: PlannedPage): string {
    if (!this.wording || !content) return '';
    const shown: string[] = [];
    for (const { row } of content.rows) {
      const folio = row.start && this.folios.get(row.start.block);
      if (folio) shown.push(folio);
    }
    const [first, last] = [shown[0], shown.at(-1)];
    if (first === undefined || last === undefined) return '';
    const [one, more] = this.wording;
    return first === last ? one(first) : more(first, last);
  }
}

/** The folio of the page that each note is referred to on. */
function referringPages(plan: readonly PlannedPage[]): ReadonlyMap<string, string> {
  const pages = new Map<string, string>();
  for (const { content, folio } of plan) {
    for (const { row } of content?.rows ?? []) for (const note of row.notes) pages.set(note, folio.label);
  }
  return pages;
}
