/**
 * Older project files brought up to date. In: `book.json` as an older version wrote it; out: as this version reads it.
 */
import { VERSION } from './format.ts';

/** What `book.json` holds, not yet checked. */
export type Unchecked = Readonly<Record<string, unknown>>;

/** The step at place n leads from version n + 1 to version n + 2. Version 1 is the first. */
const STEPS: readonly ((book: Unchecked) => Unchecked)[] = [];

/** The content of a file of `version`, which must be 1 or later and not newer than this program's. */
export function migrate(book: Unchecked, version: number): Unchecked {
  if (version < 1 || version > VERSION) throw new RangeError(`no way from version ${version} to ${VERSION}`);
  return STEPS.slice(version - 1).reduce((older, step) => step(older), book);
}
