/** The form in which the heading words of one language are written down. */
import type { SectionKind } from '#book';

/** One language's words. All of them folded: lower case, no accents, single spaces. */
export interface Words {
  /** The primary language subtag. */
  readonly language: string;
  /** Words that stand beside a number and say what is counted. */
  readonly labels: Readonly<Record<string, SectionKind>>;
  /** Labels cut short, as they are printed in full. */
  readonly short: Readonly<Record<string, string>>;
  /** Headings that are their own name, alone or followed by a title. */
  readonly matter: Readonly<Partial<Record<SectionKind, readonly string[]>>>;
  /** Beginnings that are enough ("also by ..."). */
  readonly begins: Readonly<Partial<Record<SectionKind, readonly string[]>>>;
  /** Articles that may stand between a label and its ordinal ("book the first"). */
  readonly articles: readonly string[];
  /** Words that join the author's name to the title on a title page. */
  readonly by: readonly string[];
  /** Lines that say what kind of book it is ("a novel"). */
  readonly genres: readonly string[];
  /** Beginnings of a line that names the translator. */
  readonly translators: readonly string[];
  /** Marks of the manuscript's end ("the end"). */
  readonly ends: readonly string[];
  /** Beginnings of a dedication without heading. */
  readonly dedications: readonly string[];
  /** Phrases of a copyright page. */
  readonly rights: readonly string[];
  /** Every cardinal and ordinal number as a word, without spaces and hyphens, to its value. */
  readonly numbers: () => ReadonlyMap<string, number>;
  /** Short words that give the language away. */
  readonly stops: readonly string[];
}
