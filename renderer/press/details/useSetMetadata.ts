/** How the details change the book. In: what a field says; out: a change of the metadata. */
import type { Metadata } from '#book';
import { useWorkbench } from '../../state/index.ts';
import { useTools } from '../../ui/index.ts';

/** Sets metadata; typing in one field is undone as one. */
export function useSetMetadata(): (set: Partial<Metadata>, merge: string) => void {
  const { books } = useWorkbench();
  const { problem } = useTools();
  return (set, merge) => {
    const outcome = books.apply({ kind: 'setMetadata', set }, { merge: `details ${merge}`, origin: 'details' });
    if (!outcome.ok) problem(outcome.problem);
  };
}
