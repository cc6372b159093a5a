/**
 * Makes editions of a book in a thread of its own. In: the book, the editions and the installed faces that they need; out:
 * a word at every step, then the files with the findings.
 */
import { parentPort, workerData } from 'node:worker_threads';
import type { EditionId, Finding } from '#base';
import { type Book, editionMarks } from '#book';
import type { EditionState } from '#host';
import type { FontFile } from '#type';
import { type CrossingBook, crossed } from './host/crossing.ts';
import type { ThreadWord } from './host/thread.ts';
import { type MadeBook, type MakeStep, makeEditions } from './services/editions.ts';
import { loadLibrary } from './services/library.ts';

export interface PressTask {
  readonly book: CrossingBook;
  readonly editions: readonly EditionId[];
  readonly faces: readonly FontFile[];
}

export interface PressedFile {
  readonly edition: EditionId;
  readonly kind: 'print' | 'ebook';
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly pages: number | null;
  /** What the edition was made from. */
  readonly state: EditionState;
}

export interface PressResult {
  readonly files: readonly PressedFile[];
  /** Those that the author has not muted. */
  readonly findings: readonly Finding[];
  readonly muted: readonly Finding[];
}

async function press({ book, editions, faces }: PressTask): Promise<PressResult> {
  const whole = crossed(book);
  const made = await makeEditions({
    book: whole,
    editions,
    fonts: loadLibrary(faces),
    say: (step: MakeStep) => say({ kind: 'word', word: step }),
    closely: true,
  });
  const muted = made.muted.map(({ finding }) => finding);
  return { files: filesOf(made, whole), findings: made.findings, muted };
}

function filesOf({ editions }: MadeBook, book: Book): readonly PressedFile[] {
  return editions.flatMap(({ about: { id: edition, kind, pages }, files, pageMarks }) => {
    const { settings, sections } = editionMarks(book, edition);
    const state = { settings, sections: [...sections], pages: pageMarks };
    return files.map(({ name, bytes }) => ({ edition, kind, name, bytes, pages, state }));
  });
}

function say(word: ThreadWord<PressResult>): void {
  parentPort?.postMessage(word);
}

say({ kind: 'result', result: await press(workerData as PressTask) });
