/**
 * Manuscripts on their way in. In: a file, by path or by bytes; out: a furnished book with the report of its import, or one
 * sentence. The reading runs in a thread that is stopped when it falls silent or wants too much memory.
 */
import { basename, join } from 'node:path';
import { failure, type Outcome, success } from '#base';
import type { Book } from '#book';
import { type ImportedManuscript, LARGEST_CALL } from '#host';
import type { ImportResult, ImportTask } from '../import-worker.ts';
import { crossed } from './crossing.ts';
import { readWhole } from './paths.ts';
import { runThread, type ThreadEnd } from './thread.ts';

/** The largest manuscript that is read, from the disk as from the window: it is held twice, here and in the thread. */
const LARGEST = LARGEST_CALL;

/** A part of a long novel takes far less than this on a slow computer. */
const PATIENCE_MS = 5_000;
const MEMORY_MB = 768;

/** A manuscript as it came, kept so that it can be read again with other wishes. */
export interface ManuscriptFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface ReadManuscript {
  readonly book: Book;
  readonly imported: ImportedManuscript;
}

export type Source = { readonly path: string } | ManuscriptFile;

/** The file that was named, or that came as bytes. */
export async function manuscriptFile(source: Source): Promise<Outcome<ManuscriptFile>> {
  if ('bytes' in source) return success({ name: basename(source.name), bytes: source.bytes });
  const name = basename(source.path);
  const read = await readWhole(source.path, LARGEST);
  if (!read.ok) return read;
  return read.value.length === 0 ? failure(`${name} is empty.`) : success({ name, bytes: read.value });
}

/** @param program the folder of the built program. */
export async function readManuscript(
  { name, bytes }: ManuscriptFile,
  without: readonly string[],
  program: string,
): Promise<Outcome<ReadManuscript>> {
  const task: ImportTask = { name, bytes, without };
  const script = join(program, 'import-worker.mjs');
  const end = await runThread<Outcome<ImportResult>>({
    script,
    data: task,
    memory: MEMORY_MB,
    patience: PATIENCE_MS,
  });
  if (end.kind !== 'result') return failure(sentenceOfEnd(end, name));
  if (!end.result.ok) return end.result;
  const { book, imported } = end.result.value;
  return success({ book: crossed(book), imported });
}

function sentenceOfEnd(end: Exclude<ThreadEnd<unknown>, { readonly kind: 'result' }>, name: string): string {
  switch (end.kind) {
    case 'silent':
      return `${name} was given up: one part of it takes longer to read than any manuscript should.`;
    case 'outOfMemory':
      return `${name} was given up: it takes more memory to read than any manuscript should.`;
    case 'stopped':
      return `The import of ${name} was stopped.`;
    case 'fault':
      return `${name} could not be read: Reglet made a mistake (${end.fault.message}).`;
  }
}
