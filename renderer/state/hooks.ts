/** The few looks into the stores that most components need. In: the workbench around them; out: parts of its states. */
import { useRef } from 'react';
import type { Book } from '#book';
import type { Settings } from '#host';
import type { BookState } from './bookStore.ts';
import { type SectionRow, sameRow } from './outline.ts';
import type { PlaceState } from './placeStore.ts';
import { useStore } from './store.ts';
import { useWorkbench } from './workbench.ts';

const same = <State>(state: State): State => state;

/** The open book; components on the desks are only there while one is. */
export function useBook(): Book {
  return useBookState((state) => state.book);
}

export function useBookState<Part>(select: (state: BookState) => Part): Part {
  const { books } = useWorkbench();
  return useStore(books, () => select(books.current));
}

export function usePlace<Part>(select: (place: PlaceState) => Part): Part {
  return useStore(useWorkbench().place, select);
}

export function useSettings(): Settings {
  return useStore(useWorkbench().settings, same);
}

/** One row a section, in running order. */
export function useOutline(): readonly SectionRow[] {
  return useStore(useWorkbench().outline, same);
}

/**
 * The same, while typing adds words and nothing else: the rows stay the very same, and a long list is not drawn anew with
 * every word. Their counts of words may be old.
 */
export function useSteadyOutline(): readonly SectionRow[] {
  const last = useRef<readonly SectionRow[]>([]);
  return useStore(useWorkbench().outline, (rows) => {
    if (!saySame(last.current, rows)) last.current = rows;
    return last.current;
  });
}

function saySame(some: readonly SectionRow[], others: readonly SectionRow[]): boolean {
  if (some === others) return true;
  return (
    some.length === others.length &&
    some.every((row, at) => sameRow({ ...row, words: 0 }, { ...others[at]!, words: 0 }))
  );
}
