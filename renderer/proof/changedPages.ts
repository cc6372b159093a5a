/** Pages that are other than they were last made. In: the pages of the edition in proof; out: their places, and the next of them. */
import type { PageIndex } from '#base';
import type { Workbench } from '../state/index.ts';

interface Looked {
  readonly layout: Pick<Workbench['layout'], 'get'>;
  readonly exported: Pick<Workbench['exported'], 'has' | 'changed'>;
}

/** The places of the pages that changed since the edition was last made; null where it never was. */
export function changedPages({ layout, exported }: Looked): readonly PageIndex[] | null {
  const { edition, pages, count } = layout.get();
  if (edition === null || !exported.has(edition)) return null;
  return pages.slice(0, count).flatMap((page) => (page && exported.changed(edition, page) ? [page.index] : []));
}

/** The place in the list of the first page after this one; after the last it begins again. The list is not empty. */
export function nextAfter(changed: readonly PageIndex[], page: PageIndex): number {
  return Math.max(
    0,
    changed.findIndex((each) => each > page),
  );
}
