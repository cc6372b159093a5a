/** `reglet make`: the files of a book's editions. Nothing is written before every edition is ready. */
import { join, resolve } from 'node:path';
import type { MakeRequest } from '../arguments.ts';
import { type MadeBook, type MadeEdition, type MadeFile, makeBook, stepSentence } from '../services/editions.ts';
import { writeWhole } from '../services/files.ts';
import { Progress } from '../services/progress.ts';
import {
  bookSummary,
  type EditionSummary,
  fileSummary,
  findingLines,
  findingSummary,
  mutedLine,
  mutedSummary,
} from './summary.ts';

export async function runMake(request: MakeRequest): Promise<void> {
  const progress = new Progress();
  const made = await makeBook(request, (step) => progress.step(stepSentence(step)));
  const editions = await writeEditions(made.editions, resolve(request.out));
  progress.done();
  report(request, made, editions);
}

/** Writes all files side by side, for each waits for the disk, and sums them up. */
async function writeEditions(editions: readonly MadeEdition[], folder: string): Promise<readonly EditionSummary[]> {
  const pathOf = (file: MadeFile): string => join(folder, file.name);
  const files = editions.flatMap((edition) => edition.files);
  const written = await Promise.allSettled(files.map((file) => writeWhole(pathOf(file), file.bytes)));
  // Only when all have come to an end is nothing half written.
  for (const each of written) if (each.status === 'rejected') throw each.reason;
  return editions.map(({ about, files }) => ({
    ...about,
    files: files.map((file) => fileSummary(pathOf(file), file.bytes)),
  }));
}

/** Writes the report to standard output, as JSON or for a person. */
export function report(request: MakeRequest, made: MadeBook, editions: readonly EditionSummary[]): void {
  const summary = {
    book: bookSummary(made.book, made.words),
    editions,
    findings: made.findings.map(findingSummary),
    muted: made.muted.map(mutedSummary),
  };
  if (request.json) {
    process.stdout.write(`${JSON.stringify(summary)}\n`);
    return;
  }
  const { title, author, words } = summary.book;
  const lines = [`${title}${author ? ` by ${author}` : ''}: ${grouped(words)} words`];
  for (const edition of editions) {
    const pages = edition.pages === null ? '' : `, ${edition.pages} pages`;
    lines.push(`  ${edition.id} (${edition.kind})${pages}, ${edition.seconds.toFixed(2)} s`);
    for (const file of edition.files) lines.push(`    ${file.path} (${Math.ceil(file.bytes / 1024)} KB)`);
  }
  lines.push(summary.findings.length === 0 ? 'No findings.' : 'Findings:', ...findingLines(summary.findings));
  lines.push(...mutedLine(summary.muted.length));
  process.stdout.write(`${lines.join('\n')}\n`);
}

/** A whole number with its thousands parted. The platform's own formatting reads its tables of all languages first. */
function grouped(value: number): string {
  return String(value).replace(/\B(?=(?:\d{3})+$)/g, ',');
}
