/**
 * A design tried on one section. In: a book, a print edition, settings that may not be the edition's, a section; out: its
 * first two pages as they would be, nothing of the book touched.
 */
import type { DesignId, EditionId, SectionId } from '#base';
import type { Book, Json } from '#book';
import type { Engine } from '#engine';
import type { Page } from '#page';

export interface SpecimenRequest {
  readonly kind: 'specimen';
  readonly edition: EditionId;
  readonly design: DesignId;
  readonly settings: Json;
  readonly section: SectionId;
}

export interface SpecimenReply {
  readonly kind: 'specimen';
  readonly design: DesignId;
  /** None where the design can't be set: a face is missing, or nothing fits its page. */
  readonly pages: readonly Page[];
}

const PAGES = 2;

export function specimenPages(engine: Engine, book: Book, request: SpecimenRequest): readonly Page[] {
  const tried = withDesign(book, request);
  if (!tried) return [];
  const { madeUp } = engine.print(tried, request.edition);
  const first = madeUp.pageOf(request.section) ?? 0;
  const count = Math.min(PAGES, madeUp.count - first);
  return Array.from({ length: count }, (_, at) => madeUp.page(first + at));
}

/** The book with that section alone and the edition in that design; null where section or edition are gone. */
function withDesign(book: Book, { edition: id, design, settings, section: wanted }: SpecimenRequest): Book | null {
  const edition = book.editions.find((each) => each.id === id);
  const section = book.text.children.find((each) => each.attrs['id'] === wanted);
  if (edition?.kind !== 'print' || !section) return null;
  const { fit: _, ...rest } = edition;
  return {
    ...book,
    designs: [{ id: design, settings }],
    editions: [{ ...rest, design }],
    text: book.text.type.create(book.text.attrs, section),
  };
}
