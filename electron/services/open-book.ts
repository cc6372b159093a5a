/** From the bytes that the user named to a book as asked for, and an engine that can make it. Worker and command share it. */
import type { DesignId, Points, Size } from '#base';
import { applyChange, type Book, type Change } from '#book';
import { builtInDesigns, largePrintTrim } from '#design';
import { bookOf, Engine, languagesOf, openFile } from '#engine';
import { type FontLibrary, loadHyphenator } from '#type';
import type { MakeRequest } from '../arguments.ts';
import { InputProblem, UsageProblem } from '../problems.ts';
import { sha256 } from './hash.ts';
import { inflate } from './inflate.ts';
import { loadLibrary } from './library.ts';

/** What the command line asks of the book's editions. */
export type Asked = Pick<MakeRequest, 'design' | 'trim' | 'fit' | 'largePrint'>;

/** Opens a manuscript or book file and lays the wishes of the command line over it. */
export function openBook(bytes: Uint8Array, name: string, asked: Asked): Book {
  const opened = openFile(bytes, name, { inflate, hash: sha256 });
  if (!opened.ok) throw new InputProblem(opened.problem);
  return withWishes(bookOf(opened.value), asked);
}

/** An engine with the fonts and hyphenation patterns that this book needs; `fonts` where they are on their way already. */
export async function loadEngine(book: Book, fonts: Promise<FontLibrary> = loadLibrary()): Promise<Engine> {
  const languages = languagesOf(book);
  const [library, ...loaded] = await Promise.all([fonts, ...languages.map((each) => loadHyphenator(each))]);
  const hyphenators = new Map(
    languages.flatMap((language, index) => {
      const hyphenator = loaded[index];
      return hyphenator ? [[language, hyphenator] as const] : [];
    }),
  );
  return new Engine({ library, hyphenators });
}

/**
 * The date that the files carry, in seconds since 1970: `SOURCE_DATE_EPOCH` (reproducible-builds.org) where it is set,
 * else the book's own, else the epoch itself, so that the same input gives the same bytes.
 */
export function dateOf(book: Book): number {
  const given = process.env['SOURCE_DATE_EPOCH'];
  if (given !== undefined && /^\d{1,11}$/.test(given)) return Number(given);
  return book.metadata.modified ?? 0;
}

/** The book with the wishes of the command line. Throws `UsageProblem` for a design that there is not. */
function withWishes(book: Book, { design, trim, fit, largePrint }: Asked): Book {
  const designs: readonly { readonly id: DesignId }[] = [...builtInDesigns, ...book.designs];
  if (design !== null && !designs.some((each) => each.id === design)) {
    const known = designs.map((each) => each.id).join(', ');
    throw new UsageProblem(`there is no design "${design}"; the designs are: ${known}.`);
  }
  const changes = book.editions.map(
    (edition, index): Change => ({
      kind: 'putEdition',
      index,
      edition: {
        ...edition,
        ...(design === null ? {} : { design }),
        ...(trim === null || edition.kind !== 'print' ? {} : { trim }),
        ...(largePrint === null || edition.kind !== 'print'
          ? {}
          : { largePrint, trim: trim ?? roomy(edition.trim, largePrint) }),
        ...(fit === null || edition.kind !== 'print' ? {} : { fit }),
      },
    }),
  );
  const changed = applyChange(book, { kind: 'group', changes });
  if (!changed.ok) throw new RangeError(changed.problem);
  return changed.value.book;
}

/** The trim of an edition, or the least one for large print where that is larger. */
function roomy(trim: Size, largePrint: Points): Size {
  const least = largePrintTrim(largePrint);
  return trim.width < least.width || trim.height < least.height ? least : trim;
}
