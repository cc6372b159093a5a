/** What fields say. In: metadata and an edition; out: the text of each field. */
import { authorsOf, type Edition, type Metadata } from './book.ts';
import { hyphenatedIsbn } from './isbn.ts';
import type { FieldName } from './schema.ts';
import { namesInARow } from './words.ts';

/** The text of every field, '' where nothing is known. */
export type FieldValues = Readonly<Record<FieldName, string>>;

/** The fields of one edition. Authors hold the rights where nobody else is named. */
export function fieldValues(metadata: Metadata, edition: Edition): FieldValues {
  const author = namesInARow(authorsOf(metadata), metadata.language);
  return {
    title: metadata.title,
    subtitle: metadata.subtitle ?? '',
    author,
    publisher: metadata.publisher ?? '',
    place: metadata.place ?? '',
    year: metadata.year === null ? '' : String(metadata.year),
    isbn: edition.isbn === null ? '' : hyphenatedIsbn(edition.isbn),
    editionName: edition.name,
    series: metadata.series?.name ?? '',
    seriesNumber: metadata.series?.number ?? '',
    rightsHolder: metadata.rightsHolder ?? author,
  };
}
