/**
 * Reads a manuscript in a thread of its own. In: the file's bytes; out: the book with the report of its import, or one
 * sentence, and a word at every part that was unpacked, so that a hostile file shows as silence.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { type Outcome, success } from '#base';
import { bookOf, importManuscript } from '#engine';
import type { ImportedManuscript } from '#host';
import { switchOf } from '#manuscript';
import { type CrossingBook, crossing } from './host/crossing.ts';
import type { ThreadWord } from './host/thread.ts';
import { inflate } from './services/inflate.ts';

export interface ImportTask {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Clean-ups to leave undone. */
  readonly without: readonly string[];
}

export interface ImportResult {
  readonly book: CrossingBook;
  readonly imported: ImportedManuscript;
}

function importOf({ name, bytes, without }: ImportTask): Outcome<ImportResult> {
  const noticed = (data: Uint8Array, size: number): Uint8Array => {
    say({ kind: 'word', word: 'unpacked' });
    return inflate(data, size);
  };
  const imported = importManuscript(bytes, name, { inflate: noticed, without });
  if (!imported.ok) return imported;
  const { report, lines } = imported.value;
  say({ kind: 'word', word: 'recognised' });
  const book = crossing(bookOf(imported.value));
  const notices = report.notices.map((notice) => ({ ...notice, tidy: switchOf(notice.kind) }));
  return success({ book, imported: { name, sections: report.sections, notices, lines: lines(), without } });
}

function say(word: ThreadWord<Outcome<ImportResult>>): void {
  parentPort?.postMessage(word);
}

say({ kind: 'result', result: importOf(workerData as ImportTask) });
