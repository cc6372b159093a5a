/** Opening, saving and closing where two things are asked for at once: the host's answers come in any order. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { success } from '#base';
import { type Host, type Kept, messageOfBook, type OpenedBook } from '#host';
import { BookFlows } from '../../renderer/frame/bookFlows.ts';
import { BookStore } from '../../renderer/state/bookStore.ts';
import type { Workbench } from '../../renderer/state/index.ts';
import type { Tools } from '../../renderer/ui/index.ts';
import { book, bookValue, chapter, p } from '../builders/book.ts';

const BOOK = bookValue(book(chapter('One', p('x'))));

function kept(path: string): Kept {
  return { path, savedAt: 1, dirty: false };
}

/** A window whose host keeps count of the books that it holds open, and answers as the scheduler says. */
function windowOf(scheduler: fc.Scheduler) {
  const held = new Set<string>();
  const problems: string[] = [];
  let sessions = 0;
  const answer = <Result>(result: Result): Promise<Result> => scheduler.schedule(Promise.resolve(result));
  const host = {
    openBook: async ({ source }: { source: { path: string } }) => {
      sessions++;
      const session = `${sessions} ${source.path}`;
      held.add(session);
      return answer(
        success<OpenedBook>({ session, book: messageOfBook(BOOK), kept: kept(source.path), imported: null }),
      );
    },
    close: async ({ session }: { session: string }) => {
      if (!held.delete(session)) problems.push(`${session} is not open`);
      return answer(success(null));
    },
    save: async ({ session }: { session: string }) => {
      return answer(success({ kind: 'saved' as const, kept: { ...kept(session.split(' ')[1] ?? ''), savedAt: 2 } }));
    },
  } as unknown as Host;
  const books = new BookStore({ host, later: (send) => send() });
  const outline = { get: () => [{ pages: null }] };
  const home = { refresh: async () => undefined };
  const tools = { problem: (text: string) => problems.push(text), say: () => undefined };
  const flows = new BookFlows(
    { books, host, outline, home } as unknown as Workbench,
    tools as unknown as Tools,
    () => () => undefined,
  );
  return { flows, books, held, problems };
}

const PATHS = ['a.reglet', 'b.reglet', 'c.reglet'];

test('books that are opened, saved and closed at once leave the host with the one in the window, and no other', async () => {
  const deeds = fc.array(
    fc.oneof(
      fc.constantFrom(...PATHS.map((path) => ({ kind: 'open' as const, path }))),
      fc.constantFrom({ kind: 'close' as const }, { kind: 'save' as const }),
    ),
    { minLength: 2, maxLength: 6 },
  );
  await fc.assert(
    fc.asyncProperty(fc.scheduler(), deeds, async (scheduler, asked) => {
      const { flows, books, held, problems } = windowOf(scheduler);
      const done = asked.map((deed) => {
        if (deed.kind === 'open') return flows.openBook({ path: deed.path });
        return deed.kind === 'close' ? flows.close() : flows.save();
      });
      await scheduler.waitFor(Promise.all(done));
      const state = books.get();
      expect([...held]).toEqual(state ? [state.session] : []);
      expect(problems).toEqual([]);
      // What was saved of one book is not said of another.
      if (state) expect(state.kept.path).toBe(state.session.split(' ')[1]);
      const last = asked.findLast(({ kind }) => kind !== 'save');
      if (last) expect(state?.kept.path ?? null).toBe(last.kind === 'open' ? last.path : null);
    }),
    { numRuns: 200 },
  );
});
