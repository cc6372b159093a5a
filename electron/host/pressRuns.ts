/**
 * How the editions of an export are shared out among threads. In: a book and the editions to make; out: runs that need
 * nothing of each other, and the installed families that they are set in, or one sentence.
 */
import { type EditionId, failure, type Outcome, success } from '#base';
import type { Book, Edition } from '#book';
import { builtInDesigns, type DesignSettings, readSettings } from '#design';
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
const HELPERS: ReadonlySet<string> = new Set(BUNDLED_FONTS.map((font) => font.family));

export interface WantedFamilies {
  /** Those of text and titles. */
  readonly text: readonly string[];
  /** Those of which no more than a mark between scenes is wanted, for which an ornament can stand in. */
  readonly marks: readonly string[];
}

/** The families beyond those that travel with the program, in which these editions are set. */
export function familiesWanted(book: Book, wanted: readonly EditionId[]): Outcome<WantedFamilies> {
  const families = new Set<string>();
  const marks = new Set<string>();
  for (const id of wanted) {
    const edition = book.editions.find((each) => each.id === id);
    if (!edition) return failure(`The book has no edition “${id}”.`);
    const settings = settingsOf(book, edition);
    if (!settings.ok) return settings;
    const { text, display, sceneBreak } = settings.value;
    families.add(text.family).add(display.family);
    if (sceneBreak.own?.kind === 'glyph') marks.add(sceneBreak.own.family);
  }
  const text = [...families].filter((family) => !BUNDLED.has(family));
  return success({ text, marks: [...marks].filter((family) => !HELPERS.has(family) && !families.has(family)) });
}

function settingsOf(book: Book, { name, design }: Edition): Outcome<DesignSettings> {
  const stored = book.designs.find((each) => each.id === design);
  const builtIn = builtInDesigns.find((each) => each.id === design);
  if (stored) {
    const read = readSettings(stored.id, stored.settings);
    return read.ok ? read : failure(`The design of ${name} can’t be used: ${read.problem}.`);
  }
  return builtIn ? success(builtIn) : failure(`${name} has a design, “${design}”, that the book does not hold.`);
}
