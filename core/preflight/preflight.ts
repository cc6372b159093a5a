/**
 * All rules in one call. In: a book alone, or one edition's view with its pages; out: findings. Rules about the book and
 * rules about an edition are parted, so that a book of many editions is told each thing once.
 */
import type { Finding } from '#base';
import type { Book, Change, EditionView } from '#book';
import { defaultPress, type PressProfile } from '#design';
import type { Page } from '#page';
import { checkIdentifiers } from './identifiers.ts';
import { checkFigures, checkPlacedImages } from './images.ts';
import { checkLeftovers } from './leftovers.ts';
import { checkLines } from './lines.ts';
import { checkMetadata } from './metadata.ts';
import { checkPages } from './pages.ts';
import { checkText } from './text.ts';

export interface PreflightRequest {
  readonly book: Book;
  /** The edition that is looked at; without one, the book itself is. */
  readonly view?: EditionView;
  /** The finished pages of that edition. */
  readonly pages?: readonly Page[];
  /** The printer's figures; the usual ones where none is named. */
  readonly press?: PressProfile;
  /** Findings that other stages made of this edition, passed on as they are. */
  readonly carried?: readonly Finding<Change>[];
}

/** Without a view, the findings about the book; with one, those about its edition. */
export function preflight(request: PreflightRequest): readonly Finding<Change>[] {
  const { book, view, pages = [], press = defaultPress, carried = [] } = request;
  if (!view) return [...preflightBook(book), ...carried];
  const { id } = view.edition;
  return [...carried, ...preflightPages(view, pages, press)].map((finding) => ({ edition: id, ...finding }));
}

function preflightBook(book: Book): readonly Finding<Change>[] {
  return [
    ...checkMetadata(book),
    ...checkIdentifiers(book),
    ...checkText(book),
    ...checkLeftovers(book),
    ...checkFigures(book),
  ];
}

function preflightPages(view: EditionView, pages: readonly Page[], press: PressProfile): readonly Finding<Change>[] {
  if (pages.length === 0) return [];
  return [...checkPages(view, pages, press), ...checkPlacedImages(view, pages), ...checkLines(view, pages)];
}
