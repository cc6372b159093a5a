/** The near end of the ebook worker: starts it, tells it the pages, collects its files. */
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { EditionId } from '#base';
import type { Book } from '#book';
import type { PageStart } from '#ebook';
import { type BookMessage, messageOf } from './book-message.ts';
import { programFolder } from './program.ts';
import type { Survey } from './survey.ts';

export interface EbookTask {
  readonly book: BookMessage;
  readonly editions: readonly EditionId[];
}

/** What the worker says: the survey of the book once, then each file. */
export type EbookReply =
  | { readonly kind: 'survey'; readonly survey: Survey }
  | { readonly kind: 'file'; readonly id: EditionId; readonly bytes: Uint8Array };

export class EbookHelper {
  private surveyed: Survey | null = null;
  private readonly files = new Map<EditionId, Uint8Array>();
  private readonly done: Promise<void>;

  private constructor(private readonly worker: Worker) {
    this.done = new Promise((resolve, reject) => {
      worker.on('message', (reply: EbookReply) => this.take(reply));
      worker.once('error', reject);
      worker.once('exit', () => resolve());
    });
    // A failure is reported where the file is asked for, not as an unhandled rejection before that.
    this.done.catch(() => undefined);
  }

  /** A helper for these editions; null where there are none, or on a machine with one core. */
  static start(book: Book, editions: readonly EditionId[]): EbookHelper | null {
    if (editions.length === 0 || availableParallelism() < 2) return null;
    const task: EbookTask = { book: messageOf(book), editions };
    return new EbookHelper(new Worker(join(programFolder(), 'ebook-worker.mjs'), { workerData: task }));
  }

  /** Tells where the print edition's pages begin; the files follow. */
  pagesAre(pageStarts: readonly PageStart[]): void {
    this.worker.postMessage(pageStarts);
  }

  /** The file of an edition. Passes on the worker's failure. */
  async file(id: EditionId): Promise<Uint8Array> {
    await this.done;
    const bytes = this.files.get(id);
    if (!bytes) throw new RangeError(`the worker made no file of edition ${id}`);
    return bytes;
  }

  /** What the worker found in the book while the pages were being made up. Passes on its failure. */
  async survey(): Promise<Survey> {
    await this.done;
    if (!this.surveyed) throw new RangeError('the worker did not survey the book');
    return this.surveyed;
  }

  private take(reply: EbookReply): void {
    if (reply.kind === 'survey') this.surveyed = reply.survey;
    else this.files.set(reply.id, reply.bytes);
  }

  /** Ends the worker, whatever it is doing. */
  async stop(): Promise<void> {
    await this.worker.terminate();
  }
}
