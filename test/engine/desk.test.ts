/** The worker's side of a workbench: what it answers, that it sends no page twice, and that it works in a thread. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Book, type Change, replaceText } from '#book';
import { Desk, type DeskReply, Engine, readRequest, Session, withPages } from '#engine';
import type { Page } from '#page';
import { writeProject } from '#project';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { testLibrary } from '../type/fonts.ts';

const LINE = 'The ferry lay on the far bank with its lamp lit, and nobody on this side had brought a horn or a bell. ';

function chapters(): Book {
  const paragraphs = (name: string) => Array.from({ length: 30 }, (_, at) => p(`${name} ${at}. ${LINE.repeat(3)}`));
  return bookValue(book(chapter('One', ...paragraphs('A')), chapter('Two', ...paragraphs('B'))));
}

function typed(value: Book, section: number): Change {
  const node = value.text.child(section);
  const place = { section: String(node.attrs['id']), block: String(node.child(15).attrs['id']) };
  const change = replaceText(value, { ...place, from: 10, to: 10, text: 'x' });
  if (!change) throw new RangeError('no such place');
  return change;
}

let engine: Engine;

beforeAll(async () => {
  engine = new Engine({ library: await testLibrary(), hyphenators: new Map() });
});

function isOfPages(reply: DeskReply): reply is Extract<DeskReply, { kind: 'section' | 'book' | 'pages' }> {
  return reply.kind === 'section' || reply.kind === 'book' || reply.kind === 'pages';
}

/** The pages that came after the book was made up. */
function sentIn(replies: readonly DeskReply[]): readonly Page[] {
  return replies.flatMap((reply) => (reply.kind === 'pages' ? reply.changed : []));
}

/** A desk, its replies, and the pages as the other side has them. */
function deskOf(value: Book) {
  const session = new Session(engine, value);
  const replies: DeskReply[] = [];
  let pages: Page[] = [];
  const desk = new Desk(session, (reply) => {
    replies.push(reply);
    if (isOfPages(reply)) pages = withPages(pages, reply);
  });
  const finish = () => {
    while (desk.step());
    return replies.splice(0);
  };
  return { desk, session, finish, pages: () => pages };
}

describe('Desk', () => {
  it('sends a changed page once, and no other', () => {
    const { desk, session, finish, pages } = deskOf(chapters());
    desk.take({ kind: 'layout', edition: 'print', inView: null });
    const first = finish();
    expect(sentIn(first).map((page) => page.index)).toEqual(pages().map((_, index) => index));
    expect(first.find((reply) => reply.kind === 'book')).toMatchObject({ count: pages().length });
    const section = String(session.book.text.child(1).attrs['id']);
    desk.take({ kind: 'change', change: typed(session.book, 1) });
    desk.take({ kind: 'layout', edition: 'print', inView: section });
    const after = finish();
    const [changed, shown] = after;
    expect([changed?.kind, changed?.version, shown?.kind]).toEqual(['changed', 1, 'section']);
    expect(shown?.kind === 'section' && shown.changed.length).toBeGreaterThan(0);
    // The section in view was sent already, and no other page changed.
    expect(after.at(-1)).toMatchObject({ kind: 'book', count: pages().length });
    expect(pages()).toEqual([
      ...new Engine({ library: engine.library, hyphenators: new Map() }).print(session.book, 'print').madeUp.pages,
    ]);
  });

  it('stops what a change makes stale, and begins anew when asked', () => {
    const { desk, session, finish } = deskOf(chapters());
    desk.take({ kind: 'layout', edition: 'print', inView: null });
    expect(desk.step()).toBe(true);
    desk.take({ kind: 'change', change: typed(session.book, 0) });
    expect(finish().map((reply) => reply.kind)).toEqual(['progress', 'changed']);
    desk.take({ kind: 'layout', edition: 'print', inView: null });
    expect(finish().find((reply) => reply.kind === 'book')).toMatchObject({ version: 1 });
  });

  it('forgets pages that are no more', () => {
    const { desk, session, finish, pages } = deskOf(chapters());
    desk.take({ kind: 'layout', edition: 'print', inView: null });
    finish();
    const before = pages().length;
    desk.take({
      kind: 'change',
      change: { kind: 'dropSection', section: String(session.book.text.child(1).attrs['id']) },
    });
    desk.take({ kind: 'layout', edition: 'print', inView: null });
    finish();
    expect(pages().length).toBeLessThan(before);
    expect(pages().map((page) => page.index)).toEqual(pages().map((_, index) => index));
  });

  it.each([
    [null, 'A request must be an object.'],
    [{ kind: 'sing' }, 'A request of an unknown kind.'],
    [{ kind: 'change', change: { kind: 'burn' } }, 'A change of an unknown kind.'],
    [{ kind: 'layout', edition: 3, inView: null }, 'A layout needs the id of an edition.'],
    [{ kind: 'layout', edition: 'print', inView: 3 }, 'The section in view must be an id or null.'],
  ])('refuses %j', (message, problem) => {
    expect(readRequest(message)).toEqual({ ok: false, problem });
  });

  it('refuses an edition that is not printed, and a change that can not be', () => {
    const { desk, finish } = deskOf(chapters());
    desk.take({ kind: 'layout', edition: 'nowhere', inView: null });
    desk.take({ kind: 'change', change: { kind: 'dropSection', section: 'nowhere' } });
    expect(finish().map((reply) => reply.kind)).toEqual(['refused', 'refused']);
  });
});

describe('a desk in a worker thread', () => {
  const root = resolve(import.meta.dirname, '../..');
  mkdirSync(join(root, '.cache'), { recursive: true });
  const folder = mkdtempSync(join(root, '.cache/desk-'));

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  beforeAll(async () => {
    await build({
      root,
      configFile: false,
      logLevel: 'warn',
      publicDir: false,
      ssr: { noExternal: true, target: 'node' },
      build: {
        ssr: true,
        target: 'node20',
        outDir: folder,
        rollupOptions: {
          input: { worker: join(root, 'test/engine/deskWorker.ts') },
          output: { entryFileNames: '[name].mjs' },
        },
      },
    });
  });

  it('answers with the pages that this thread makes', async () => {
    const value = chapters();
    const worker = new Worker(join(folder, 'worker.mjs'), { workerData: writeProject(value) });
    try {
      const change = typed(value, 0);
      const section = String(value.text.child(0).attrs['id']);
      let pages: Page[] = [];
      let count = -1;
      const until = (version: number): Promise<void> =>
        new Promise((done, fail) => {
          worker.on('error', fail);
          worker.on('message', (reply: DeskReply) => {
            if (isOfPages(reply)) pages = withPages(pages, reply);
            if (reply.kind === 'refused') fail(new Error(reply.problem));
            if (isOfPages(reply) && reply.kind !== 'section' && reply.version === version) {
              count = reply.kind === 'book' ? reply.count : count;
              if (pages.filter((page) => page !== undefined).length === count) done();
            }
          });
        });
      worker.postMessage({ kind: 'layout', edition: 'print', inView: null });
      await until(0);
      worker.postMessage({ kind: 'change', change });
      worker.postMessage({ kind: 'layout', edition: 'print', inView: section });
      await until(1);
      const here = new Session(engine, value);
      expect(here.apply(change).ok).toBe(true);
      expect(pages).toEqual([...engine.print(here.book, 'print').madeUp.pages]);
    } finally {
      await worker.terminate();
    }
  });
});
