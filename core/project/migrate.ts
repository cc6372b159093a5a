/**
 * Older project files brought up to date, step by step. In: `book.json` as an older version wrote it; out: as this version
 * reads it. A step stays for ever, and so does the file of its version in test/project/fixtures.
 */

/** What `book.json` holds, not yet checked. */
export type Unchecked = Readonly<Record<string, unknown>>;

/** The way from one version to the next. What it meets is not checked yet: what it doesn't know it leaves as it is. */
export interface Step {
  /** What the newer version does otherwise. */
  readonly name: string;
  readonly apply: (book: Unchecked) => Unchecked;
}

/** The step at place n leads from version n + 1 to version n + 2. Version 1 is the first. */
export const STEPS: readonly Step[] = [];

/** The content of a file of `version`, which must be 1 or later and not newer than the steps lead. */
export function migrate(book: Unchecked, version: number, steps: readonly Step[] = STEPS): Unchecked {
  const newest = steps.length + 1;
  if (version < 1 || version > newest) throw new RangeError(`no way from version ${version} to ${newest}`);
  return steps.slice(version - 1).reduce((older, step) => step.apply(older), book);
}
