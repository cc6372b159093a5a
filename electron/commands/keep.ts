/** `reglet keep`: takes a manuscript in and keeps it as a book file. */
import { extname, resolve } from 'node:path';
import { countWords } from '#book';
import { bookOf } from '#engine';
import { writeProject } from '#project';
import type { KeepRequest } from '../arguments.ts';
import { UsageProblem } from '../problems.ts';
import { writeWhole } from '../services/files.ts';
import { openInput } from '../services/input.ts';
import { bookSummary, fileSummary } from './summary.ts';

export async function runKeep(request: KeepRequest): Promise<void> {
  if (extname(request.to).toLowerCase() !== '.reglet') {
    throw new UsageProblem(`a book is kept in a file that ends in .reglet, not in "${request.to}".`);
  }
  const book = bookOf(await openInput(request.input));
  const bytes = writeProject(book);
  const path = resolve(request.to);
  await writeWhole(path, bytes);
  const summary = { book: bookSummary(book, countWords(book.text)), file: fileSummary(path, bytes) };
  if (request.json) process.stdout.write(`${JSON.stringify(summary)}\n`);
  else process.stdout.write(`${summary.book.title}: ${summary.book.words} words kept in ${path}\n`);
}
