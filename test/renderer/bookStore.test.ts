/** The store of the open book: what it shows, what it sends, and that nothing is lost on the way. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Book, type Change, replaceText, textOf } from '#book';
import { BookStore } from '../../renderer/state/bookStore.ts';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { FakeHost, Frames } from './fakeHost.ts';

function opened() {
  const host = new FakeHost(bookValue(book(chapter('One', p('First.')), chapter('Two', p('Second.')))));
  const frames = new Frames();
  const books = new BookStore({ host, later: frames.later });
  books.open(host.opened());
  return { host, frames, books };
}

function title(text: string): Change {
  return { kind: 'setMetadata', set: { title: text } };
}

/** Types at the beginning of a block of the first section. */
function typed(value: Book, text: string, at: number): Change {
  const section = value.text.child(0);
  const block = String(section.child(1).attrs['id']);
  const change = replaceText(value, { section: String(section.attrs['id']), block, from: at, to: at, text });
  if (!change) throw new RangeError(`no block ${block}`);
  return change;
}

test('a change shows at once and reaches the host after the frame, together with others of it', async () => {
  const { host, frames, books } = opened();
  books.apply(title('A'));
  books.apply(title('B'));
  expect(books.current).toMatchObject({ version: 2, unsent: 2, book: { metadata: { title: 'B' } } });
  expect(host.calls).toEqual([]);
  frames.draw();
  expect(await books.settled()).toBe(true);
  expect(host.calls).toEqual([[title('A'), title('B')]]);
  expect(books.current.unsent).toBe(0);
});

test('a change that can not be made changes nothing', async () => {
  const { host, books } = opened();
  const before = books.current;
  expect(books.apply({ kind: 'dropSection', section: 'none' }).ok).toBe(false);
  expect(books.current).toBe(before);
  expect(await books.settled()).toBe(true);
  expect(host.version).toBe(0);
});

test('typing with one word is undone as one, and the undo is sent too', async () => {
  const { host, books } = opened();
  for (const [at, letter] of [...'Oh'].entries()) {
    books.apply(typed(books.current.book, letter, at), { merge: 'typing' });
  }
  expect(textOf(books.current.book.text.child(0))).toContain('OhFirst.');
  books.undo();
  expect(books.current).toMatchObject({ canUndo: false, canRedo: true });
  expect(textOf(books.current.book.text.child(0))).toContain('First.');
  expect(textOf(books.current.book.text.child(0))).not.toContain('Oh');
  books.redo();
  await books.settled();
  expect(textOf(host.book.text.child(0))).toContain('OhFirst.');
});

test('what the host refuses stops all work until it is taken', async () => {
  const { host, frames, books } = opened();
  host.next = 'refused';
  books.apply(title('A'));
  frames.draw();
  expect(await books.settled()).toBe(false);
  expect(books.current.problem).toBe('The disk is full.');
  expect(books.apply(title('B'))).toEqual({ ok: false, problem: 'The disk is full.' });
  expect(await books.tryAgain()).toBe(true);
  expect(books.current).toMatchObject({ problem: null, unsent: 0 });
  expect(host.book.metadata.title).toBe('A');
});

test('a host that does not answer is told again', async () => {
  const { host, books } = opened();
  host.next = 'unreachable';
  books.apply(title('A'));
  expect(await books.settled()).toBe(false);
  expect(books.current.problem).toBe('The program does not answer.');
  expect(await books.tryAgain()).toBe(true);
  expect(host.book.metadata.title).toBe('A');
});

test('a book is changed from the very change on, whatever the host says of the state before', async () => {
  const { frames, books } = opened();
  const saved = { path: '/book.reglet', savedAt: 7, dirty: false };
  books.setKept('session', saved, 0);
  expect(books.current.kept).toEqual(saved);
  books.apply(title('A'));
  expect(books.current.kept.dirty).toBe(true);
  books.setKept('session', saved);
  expect(books.current.kept.dirty).toBe(true);
  frames.draw();
  await books.settled();
  books.setKept('session', saved, 0);
  expect(books.current.kept.dirty).toBe(true);
  books.setKept('session', saved, 1);
  expect(books.current.kept.dirty).toBe(false);
  books.setKept('another', { ...saved, dirty: true }, 1);
  expect(books.current.kept.dirty).toBe(false);
});

test('listeners hear each change with its origin', () => {
  const { books } = opened();
  const heard: string[] = [];
  const stop = books.onChange((value, change, origin) => {
    heard.push(`${origin} ${change.kind} ${value.metadata.title}`);
  });
  books.apply(title('A'), { origin: 'editor' });
  books.undo();
  stop();
  books.redo();
  expect(heard).toEqual(['editor setMetadata A', 'undo setMetadata The Salt Ledger']);
});

test('whatever is done, undone and sent when, the host ends with the same book', async () => {
  const deed = fc.constantFrom('edit', 'title', 'move', 'undo', 'redo', 'draw', 'settle', 'fail');
  await fc.assert(
    fc.asyncProperty(fc.array(deed, { maxLength: 25 }), async (deeds) => {
      const { host, frames, books } = opened();
      for (const [at, each] of deeds.entries()) {
        if (each === 'edit') books.apply(typed(books.current.book, 'x', 0), { merge: `run ${at % 2}` });
        if (each === 'title') books.apply(title(`T${at}`));
        if (each === 'move') books.apply({ kind: 'moveSection', section: 's1', index: at % 2 });
        if (each === 'undo') books.undo();
        if (each === 'redo') books.redo();
        if (each === 'draw') frames.draw();
        if (each === 'settle') await books.settled();
        if (each === 'fail') host.next = 'unreachable';
        if (books.current.problem !== null) await books.tryAgain();
      }
      host.next = null;
      if (!(await books.settled())) await books.tryAgain();
      expect(host.version).toBe(books.current.version);
      expect(host.book.text.eq(books.current.book.text)).toBe(true);
      expect(host.book.metadata).toEqual(books.current.book.metadata);
    }),
    { numRuns: 60 },
  );
});
