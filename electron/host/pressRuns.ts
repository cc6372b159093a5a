/**
 * How the editions of an export are shared out among threads. In: a book and the editions to make; out: runs that need
 * nothing of each other, and the installed families that they are set in, or one sentence.
 */
import { type EditionId, failure, type Outcome, success } from '#base';
import type { Book, Edition } from '#book';
import { builtInDesigns, readSettings } from '#design';
import { BUNDLED_FONTS } from '../services/bundled.ts';

/** Ebooks carry the folios of the book's first print edition, so they are made in one thread with it. */
export function pressRuns(book: Book, wanted: readonly EditionId[]): readonly (readonly EditionId[])[] {
  const lead = book.editions.find((edition) => edition.kind === 'print')?.id;
  const editions = book.editions.filter((edition) => wanted.includes(edition.id));
  const together = editions.filter((edition) => edition.kind === 'ebook' || edition.id === lead);
  const apart = editions.filter((edition) => !together.includes(edition));
  return [together, ...apart.map((edition) => [edition])]
    .filter((run) => run.length > 0)
    .map((run) => run.map((edition) => edition.id));
}

const BUNDLED: ReadonlySet<string> = new Set(BUNDLED_FONTS.filter((font) => !font.fallback).map((font) => font.family));

/** The families beyond those that travel with the program, in which these editions are set. */
export function familiesWanted(book: Book, wanted: readonly EditionId[]): Outcome<readonly string[]> {
  const families = new Set<string>();
  for (const id of wanted) {
    const edition = book.editions.find((each) => each.id === id);
    if (!edition) return failure(`The book has no edition “${id}”.`);
    const settings = familiesOf(book, edition);
    if (!settings.ok) return settings;
    for (const family of settings.value) families.add(family);
  }
  return success([...families].filter((family) => !BUNDLED.has(family)));
}

function familiesOf(book: Book, { name, design }: Edition): Outcome<readonly string[]> {
  const stored = book.designs.find((each) => each.id === design);
  const builtIn = builtInDesigns.find((each) => each.id === design);
  if (!stored && !builtIn) return failure(`${name} has a design, “${design}”, that the book does not hold.`);
  const read = stored ? readSettings(stored.id, stored.settings) : null;
  if (read && !read.ok) return failure(`The design of ${name} can’t be used: ${read.problem}.`);
  const settings = read ? read.value : builtIn;
  return success(settings ? [settings.text.family, settings.display.family] : []);
}
