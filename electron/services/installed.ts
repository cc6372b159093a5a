/**
 * The installed fonts that a book asks for, for the command. In: a book and its editions; out: their faces; none where the
 * book is set in fonts that travel with the program, so that no folder is read for nothing.
 */
import type { EditionId } from '#base';
import type { Book } from '#book';
import type { FontFile } from '#type';
import { fontFolders } from '../host/fonts/fontFolders.ts';
import { InstalledFonts } from '../host/fonts/installedFonts.ts';
import { familiesWanted } from '../host/pressRuns.ts';

/** What is not installed is left out: whoever lays the book out says so. */
export async function installedFaces(book: Book, editions: readonly EditionId[]): Promise<readonly FontFile[]> {
  const wanted = familiesWanted(book, editions.length > 0 ? editions : book.editions.map((each) => each.id));
  const families = wanted.ok ? [...wanted.value.text, ...wanted.value.marks] : [];
  if (families.length === 0) return [];
  const fonts = new InstalledFonts(fontFolders(process.platform, process.env), null);
  const faces = await Promise.all(families.map((family) => fonts.family(family)));
  return faces.flat();
}
