/**
 * The program that the kill test kills: it takes up what the last one left, says what it found, then changes and saves the
 * book until it dies. The first one takes the book in and saves it for the first time. On standard output: `found <number>
 * <hash>`, then `made <number>` for each change that is kept, `saving` and `saved`.
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeSync } from 'node:fs';
import { setTimeout } from 'node:timers/promises';
import type { Outcome } from '#base';
import type { Book } from '#book';
import { writeProject } from '#project';
import { type OpenBook, Store } from '../../electron/store/index.ts';
import { Journal } from '../../electron/store/journal.ts';
import { chance, deed, lastDeed } from './deeds.ts';

const [data = '', path = '', start = '', seedText = '0', fault = ''] = process.argv.slice(2);
const seed = Number(seedText);

/** A fault that the test must be able to see: changes are acknowledged before they are in the journal. */
function actLate(): void {
  const { write } = Journal.prototype;
  Journal.prototype.write = function (records) {
    void setTimeout(1500).then(() => write.call(this, records));
  };
}

function say(line: string): void {
  writeSync(1, `${line}\n`);
}

function hashOf(book: Book): string {
  return createHash('sha256').update(writeProject(book)).digest('hex');
}

/** The work that was left, or the file, or, as long as there is neither, the book that was brought in. */
async function takenUp(store: Store): Promise<OpenBook> {
  const [left, ...others] = (await store.unsaved()).filter(({ changes }) => changes > 0);
  if (others.length > 0) throw new Error('work was left in several places');
  if (left) return value(await store.recover(left.id));
  return value(existsSync(path) ? await store.open(path) : await store.openBytes('start.reglet', readFileSync(start)));
}

function value(outcome: Outcome<OpenBook>): OpenBook {
  if (!outcome.ok) throw new Error(outcome.problem);
  return outcome.value;
}

async function save(book: OpenBook): Promise<void> {
  say('saving');
  const saved = await book.save(path);
  if (!saved.ok) throw new Error(saved.problem);
  if (saved.value.kind !== 'saved') throw new Error('the file was taken for another');
  say('saved');
}

async function main(): Promise<void> {
  const store = new Store({ folder: data, now: () => Date.now() });
  const book = await takenUp(store);
  const first = lastDeed(book.book);
  say(`found ${first} ${hashOf(book.book)}`);
  if (fault === 'late-journal') actLate();
  const next = chance(seed * 31 + first);
  let saving = false;
  for (let number = first + 1; ; number++) {
    const made = book.apply([deed(seed, number, book.book)]);
    if (!made.ok) throw new Error(made.problem);
    say(`made ${number}`);
    if (!saving && next() < 0.2) {
      saving = true;
      void save(book).then(() => {
        saving = false;
      });
    }
    await setTimeout(next() * 6);
  }
}

void main();
