/**
 * Makes the ebooks beside the print editions, on another core. It opens the same bytes by itself (a book is not worth
 * sending), prepares what needs no page, and finishes when the print edition's pages are known.
 */
import { parentPort, workerData } from 'node:worker_threads';
import type { PageStart } from '#ebook';
import type { EbookTask } from './services/ebook-helper.ts';
import { EbookMaker } from './services/ebooks.ts';
import { dateOf, loadEngine, openBook } from './services/open-book.ts';

async function work(task: EbookTask): Promise<void> {
  const pagesKnown = new Promise<readonly PageStart[]>((resolve) => parentPort?.once('message', resolve));
  const book = openBook(task.bytes, task.name, task.asked);
  const maker = new EbookMaker(await loadEngine(book), book, dateOf(book));
  for (const id of task.editions) await maker.prepare(id);
  const pageStarts = await pagesKnown;
  for (const id of task.editions) parentPort?.postMessage({ id, bytes: await maker.make(id, pageStarts) });
  parentPort?.close();
}

await work(workerData as EbookTask);
