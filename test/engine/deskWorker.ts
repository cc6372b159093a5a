/** A worker thread with a desk in it: a book file in, replies out. It looks for messages between any two steps. */
import { setImmediate as turn } from 'node:timers/promises';
import { parentPort, workerData } from 'node:worker_threads';
import { Desk, Engine, Session } from '#engine';
import { readProject } from '#project';
import { testLibrary } from '../type/fonts.ts';

const book = readProject(workerData as Uint8Array);
if (!book.ok) throw new Error(book.problem);
const engine = new Engine({ library: await testLibrary(), hyphenators: new Map() });
const desk = new Desk(new Session(engine, book.value), (reply, transfer) => parentPort?.postMessage(reply, transfer));

let working = false;

async function work(): Promise<void> {
  working = true;
  while (desk.step()) await turn();
  working = false;
}

parentPort?.on('message', (message) => {
  desk.take(message);
  if (!working) void work();
});
