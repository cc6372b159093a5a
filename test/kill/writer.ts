/**
 * The program that the kill test kills: it takes up what the last one left, says what it found, then changes and saves the
 * book until it dies. On standard output: `found <number> <hash>`, then `made <number>` for each change that is kept.
 */
import { createHash } from 'node:crypto';
import { writeFileSync, writeSync } from 'node:fs';
import { setTimeout } from 'node:timers/promises';
import type { Book } from '#book';
import { writeProject } from '#project';
import { type OpenBook, Store } from '../../electron/store/index.ts';
import { Journal } from '../../electron/store/journal.ts';
import { chance, deed, lastDeed } from './deeds.ts';

const [data = '', path = '', seedText = '0', fault = ''] = process.argv.slice(2);
const seed = Number(seedText);

/** Faults that the test must be able to see. */
const FAULTS: Readonly<Record<string, () => void>> = {
  /** Changes are acknowledged before they are in the journal. */
  'late-journal': () => {
    const { write } = Journal.prototype;
    Journal.prototype.write = function (record) {
      void setTimeout(1500).then(() => write.call(this, record));
    };
  },
  /** Saves are written over the file itself. */
  'in-place': () => {
    const wait = chance(seed + 7);
    setInterval(() => {
      writeFileSync(path, new Uint8Array(Math.floor(wait() * 5000)));
    }, 10);
  },
};

function say(line: string): void {
  writeSync(1, `${line}\n`);
}

function hashOf(book: Book): string {
  return createHash('sha256').update(writeProject(book)).digest('hex');
}

async function takenUp(store: Store): Promise<OpenBook> {
  const [left] = await store.unsaved();
  const opened = left ? await store.recover(left.id) : await store.open(path);
  if (!opened.ok) throw new Error(opened.problem);
  return opened.value;
}

async function main(): Promise<void> {
  const store = new Store({ folder: data, now: () => Date.now() });
  const book = await takenUp(store);
  const first = lastDeed(book.book);
  say(`found ${first} ${hashOf(book.book)}`);
  FAULTS[fault]?.();
  const next = chance(seed * 31 + first);
  let saving = false;
  for (let number = first + 1; ; number++) {
    const made = book.apply([deed(seed, number, book.book)]);
    if (!made.ok) throw new Error(made.problem);
    say(`made ${number}`);
    if (!saving && next() < 0.2) {
      saving = true;
      void book.save(null, true).then((saved) => {
        if (!saved.ok) throw new Error(saved.problem);
        saving = false;
      });
    }
    await setTimeout(next() * 6);
  }
}

void main();
