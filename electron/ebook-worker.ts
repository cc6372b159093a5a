/**
 * Makes the ebooks beside the print editions, on another core. It prepares what needs no page, surveys the book, and
 * finishes when the print edition's pages are known.
 */
import { parentPort, workerData } from 'node:worker_threads';
import type { PageStart } from '#ebook';
import { bookOfMessage } from './services/book-message.ts';
import type { EbookReply, EbookTask } from './services/ebook-helper.ts';
import { EbookMaker } from './services/ebooks.ts';
import { dateOf, loadEngine } from './services/open-book.ts';
import { surveyOf } from './services/survey.ts';

async function work(task: EbookTask): Promise<void> {
  const pagesKnown = new Promise<readonly PageStart[]>((resolve) => parentPort?.once('message', resolve));
  const book = bookOfMessage(task.book);
  const maker = new EbookMaker(await loadEngine(book), book, dateOf(book));
  for (const id of task.editions) await maker.prepare(id);
  reply({ kind: 'survey', survey: surveyOf(book) });
  const pageStarts = await pagesKnown;
  for (const id of task.editions) reply({ kind: 'file', id, bytes: await maker.make(id, pageStarts) });
  parentPort?.close();
}

function reply(message: EbookReply): void {
  parentPort?.postMessage(message);
}

await work(workerData as EbookTask);
