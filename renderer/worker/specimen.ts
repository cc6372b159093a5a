/**
 * A design tried on a text. In: a book, a print edition, settings that may not be the edition's, one of the book's sections
 * or invented ones; out: the first two pages as they would be, nothing of the book touched.
 */
import type { Node } from 'prosemirror-model';
import type { DesignId, EditionId, SectionId } from '#base';
import { type Book, type Json, schema } from '#book';
import type { Engine } from '#engine';
import type { Page } from '#page';

/** What is set: a section of the book, or sections as ProseMirror JSON, of which the first is shown. */
export type SpecimenText =
  | { readonly kind: 'own'; readonly section: SectionId }
  | { readonly kind: 'invented'; readonly sections: readonly Json[] };

export interface SpecimenRequest {
  readonly kind: 'specimen';
  /** Who asked: the reply says it again. */
  readonly key: string;
  readonly edition: EditionId;
  readonly design: DesignId;
  readonly settings: Json;
  readonly text: SpecimenText;
}

export interface SpecimenReply {
  readonly kind: 'specimen';
  readonly key: string;
  /** None where the design can't be set: a face is missing, or nothing fits its page. */
  readonly pages: readonly Page[];
}

const PAGES = 2;

export function specimenPages(engine: Engine, book: Book, request: SpecimenRequest): readonly Page[] {
  const tried = withDesign(book, request);
  const first = tried?.text.firstChild?.attrs['id'] as SectionId | undefined;
  if (!tried || first === undefined) return [];
  const { madeUp } = engine.print(tried, request.edition);
  const from = madeUp.pageOf(first) ?? 0;
  const count = Math.min(PAGES, madeUp.count - from);
  return Array.from({ length: count }, (_, at) => madeUp.page(from + at));
}

/** The book with that text alone and the edition in that design; null where section or edition are gone. */
function withDesign(book: Book, { edition: id, design, settings, text }: SpecimenRequest): Book | null {
  const edition = book.editions.find((each) => each.id === id);
  const sections = sectionsOf(book, text);
  if (edition?.kind !== 'print' || sections.length === 0) return null;
  const { fit: _, ...rest } = edition;
  return {
    ...book,
    designs: [{ id: design, settings }],
    editions: [{ ...rest, design }],
    text: book.text.type.create(book.text.attrs, sections),
  };
}

function sectionsOf(book: Book, text: SpecimenText): readonly Node[] {
  if (text.kind === 'own') return book.text.children.filter((each) => each.attrs['id'] === text.section);
  return text.sections.map((each) => schema.nodeFromJSON(each));
}
