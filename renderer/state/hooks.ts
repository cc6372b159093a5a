/** The few looks into the stores that most components need. In: the workbench around them; out: parts of its states. */
import type { Book } from '#book';
import type { Settings } from '#host';
import type { BookState } from './bookStore.ts';
import type { SectionRow } from './outline.ts';
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

/** The same for long lists: while one types, the rows stay the very same. Their counts of words may be old. */
export function useSteadyOutline(): readonly SectionRow[] {
  return useStore(useWorkbench().outline.steady, same);
}
