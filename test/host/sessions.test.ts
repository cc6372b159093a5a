/** Sessions whose saves end when the test says so: what is watched and told of while they do, and after the book was closed. */
import { pbkdf2 } from 'node:crypto';
import { appendFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { type Outcome, success } from '#base';
import type { HostEvent } from '#host';
import type { KeptBook, Saving } from '../../electron/host/keeping.ts';
import type { RecentBooks } from '../../electron/host/recents.ts';
import { NO_MANUSCRIPT, type Session, Sessions } from '../../electron/host/sessions.ts';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { freshFolder } from './hosting.ts';

const SAVED = success<Saving>({ kind: 'saved' });
/** Longer than a watch waits until its file is quiet. */
const A_WHILE = 700;
const aWhile = (): Promise<void> => new Promise((done) => setTimeout(done, A_WHILE));

const told = (kinds: () => readonly string[]) => expect.poll(kinds, { timeout: 15_000 });

let opened: Session[] = [];

afterEach(async () => {
  for (const session of opened) await session.close(true);
  opened = [];
});

/** A session that knows its file, the ends of its saves in their order, and what the window is told. */
async function watched(readAt?: number) {
  const path = join(freshFolder(), 'harbour.reglet');
  writeFileSync(path, 'as it was');
  const saves: { end(reply: Outcome<Saving>): void; fail(): void }[] = [];
  const kept: KeptBook = {
    book: bookValue(book(chapter('One', p('A lamp.')))),
    path,
    savedAt: readAt ?? Math.floor(statSync(path).mtimeMs),
    dirty: false,
    version: 0,
    apply: () => success(0),
    save: () =>
      new Promise((end, fail) => saves.push({ end, fail: () => fail(new Error('The program was stopped.')) })),
    close: async () => undefined,
  };
  const events: HostEvent[] = [];
  let heard: (event: HostEvent) => void = () => undefined;
  const tell = (event: HostEvent): void => {
    events.push(event);
    heard(event);
  };
  const hear = (listener: typeof heard): void => {
    heard = listener;
  };
  const recents = { note: () => undefined } as unknown as RecentBooks;
  const sessions = new Sessions({ recents, tell, now: () => 1 });
  const session = sessions.begin(kept, NO_MANUSCRIPT);
  opened.push(session);
  await aWhile();
  return { path, saves, session, sessions, hear, kinds: () => events.map(({ kind }) => kind) };
}

it('a book that is closed while it is saved is neither watched nor told of afterwards', async () => {
  const { path, saves, session, kinds } = await watched();
  const saving = session.save(null, false);
  await session.close(false);
  saves[0]?.end(SAVED);
  expect(await saving).toEqual(SAVED);
  appendFileSync(path, ', and more');
  await aWhile();
  expect(kinds()).toEqual([]);
});

it('of two saves that overlap, the end of the first does not make the second another’s', async () => {
  const { path, saves, session, kinds } = await watched();
  const both = [session.save(null, false), session.save(null, false)];
  saves[0]?.end(SAVED);
  await both[0];
  appendFileSync(path, ', as the second writes it');
  await aWhile();
  expect(kinds()).toEqual(['kept']);
  saves[1]?.end(SAVED);
  await both[1];
  await aWhile();
  expect(kinds()).toEqual(['kept', 'kept']);
  appendFileSync(path, ', and by someone else');
  await told(kinds).toEqual(['kept', 'kept', 'changedOutside']);
}, 30_000);

it('a file that was changed while its book was being opened is told of', async () => {
  const { kinds } = await watched(1);
  await told(kinds).toEqual(['changedOutside']);
}, 30_000);

it('who writes the file as soon as it is said to be saved is another, however long the disk takes', async () => {
  const { path, saves, session, kinds, hear } = await watched();
  // The threads that answer for the disk have other things to do.
  let busy = true;
  const work = (): void => pbkdf2('a', 'b', 40_000, 32, 'sha256', () => busy && work());
  for (let thread = 0; thread < 8; thread++) work();
  hear((event) => {
    if (event.kind === 'kept') appendFileSync(path, ', and by someone else');
  });
  const saving = session.save(null, false);
  saves[0]?.end(SAVED);
  await saving;
  await aWhile();
  busy = false;
  await told(kinds).toEqual(['kept', 'changedOutside']);
}, 30_000);

it('a save that comes to nothing leaves the file watched', async () => {
  const { path, saves, session, kinds } = await watched();
  const saving = session.save(null, false);
  saves[0]?.fail();
  await expect(saving).rejects.toThrow('stopped');
  appendFileSync(path, ', and by someone else');
  await told(kinds).toEqual(['changedOutside']);
}, 30_000);

it('one book that can’t be closed keeps no other open', async () => {
  const one = await watched();
  const closed: string[] = [];
  const stuck = { ...one.session.kept, close: () => Promise.reject(new Error('The disk is gone.')) };
  const fine = { ...one.session.kept, close: async () => void closed.push('fine') };
  opened.push(one.sessions.begin({ ...fine }, NO_MANUSCRIPT));
  one.sessions.begin(stuck, NO_MANUSCRIPT);
  one.sessions.begin(fine, NO_MANUSCRIPT);
  await expect(one.sessions.endAll()).rejects.toThrow('The disk is gone.');
  expect(closed).toEqual(['fine', 'fine']);
});
