/** The kill test, short: a longer one is `npm run test:kill -- --seed 1 --kills 300`. */
import { describe, expect, it } from 'vitest';
import type { Book } from '#book';
import { book, bookValue, chapter, p } from '../builders/book.ts';
import { killAgainAndAgain } from './killing.ts';

const BOOK: Book = bookValue(
  book(
    ...['One', 'Two', 'Three'].map((title) =>
      chapter(title, ...Array.from({ length: 20 }, () => p('The lamp was lit. '.repeat(10)))),
    ),
  ),
);

describe('a program that is killed', () => {
  it('loses nothing that it has acknowledged', { timeout: 120_000 }, async () => {
    const { losses, kills, changes } = await killAgainAndAgain({ seed: 4, kills: 8, book: BOOK });
    expect({ losses, kills }).toEqual({ losses: [], kills: 8 });
    expect(changes).toBeGreaterThan(0);
  });

  it.each(['late-journal', 'in-place'])(
    'is found out when it has the fault "%s"',
    { timeout: 120_000 },
    async (fault) => {
      const { losses } = await killAgainAndAgain({ seed: 4, kills: 20, book: BOOK, fault });
      expect(losses).not.toEqual([]);
    },
  );
});
