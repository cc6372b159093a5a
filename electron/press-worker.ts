/**
 * Makes editions of a book in a thread of its own. In: the book, the editions and the installed faces that they need; out:
 * a word at every step, then the files with the findings.
 */
import { parentPort, workerData } from 'node:worker_threads';
import type { EditionId, Finding } from '#base';
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
}

export interface PressResult {
  readonly files: readonly PressedFile[];
  readonly findings: readonly Finding[];
}

async function press({ book, editions, faces }: PressTask): Promise<PressResult> {
  const made = await makeEditions({
    book: crossed(book),
    editions,
    fonts: loadLibrary(faces),
    say: (step: MakeStep) => say({ kind: 'word', word: step }),
    closely: true,
  });
  return { files: filesOf(made), findings: made.findings };
}

function filesOf({ editions }: MadeBook): readonly PressedFile[] {
  return editions.flatMap(({ about, files }) =>
    files.map(({ name, bytes }) => ({ edition: about.id, kind: about.kind, name, bytes, pages: about.pages })),
  );
}

function say(word: ThreadWord<PressResult>): void {
  parentPort?.postMessage(word);
}

say({ kind: 'result', result: await press(workerData as PressTask) });
