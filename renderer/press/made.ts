/** What was made of an edition, in words. In: the history of exports, what has changed since; out: entries, newest first. */
import type { EditionId } from '#base';
import type { EditionChanges } from '#book';
import type { ExportedFile, ExportRecord } from '#host';
import { texts } from '../ui/index.ts';

const words = texts.press.history;

/** One time that an edition was made. */
export interface MadeOnce {
  readonly at: number;
  readonly file: ExportedFile;
  readonly findings: ExportRecord['findings'];
  /** Findings that the author had muted. */
  readonly muted: number;
}

/** The times that an edition was made, the last first. Older runs count what was found in all their editions together. */
export function timesMade(history: readonly ExportRecord[], edition: EditionId): readonly MadeOnce[] {
  return history.flatMap(({ at, files, findings, editions }) => {
    const file = files.find((each) => each.edition === edition);
    const own = editions.find((each) => each.edition === edition);
    return file ? [{ at, file, findings: own?.findings ?? findings, muted: own?.muted ?? 0 }] : [];
  });
}

/** What the check found, in a few words. */
export function foundText({ errors, warnings, notes }: ExportRecord['findings'], muted = 0): string {
  const counts = [
    errors > 0 ? words.errors(errors) : '',
    warnings > 0 ? words.warnings(warnings) : '',
    notes > 0 ? words.notes(notes) : '',
  ].filter((each) => each !== '');
  const found = counts.length > 0 ? counts.join(', ') : words.clean;
  return muted > 0 ? `${found}, ${words.muted(muted)}` : found;
}

/** What has changed beside the sections that can be named; '' where nothing has. */
export function otherChanges({ settings, dropped, moved }: EditionChanges): string {
  return [dropped > 0 ? words.dropped(dropped) : '', moved ? words.moved : '', settings ? words.settings : '']
    .filter((each) => each !== '')
    .join(' ');
}
