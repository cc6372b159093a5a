/**
 * Painted leaves, one for each place in the book. In: pages and their pictures; out: for a place its latest picture, be it of
 * the page as it is or as it was, and the pages that are to be painted next.
 */
import type { EditionId, PageIndex } from '#base';
import type { Page } from '#page';

/** Leaves that are kept: some ten screens of them. */
export const KEPT_LEAVES = 400;

interface KeptLeaf<Picture> {
  /** The page that it shows; null once its pictures have changed. */
  readonly page: Page | null;
  readonly picture: Picture;
}

export class KeptLeaves<Picture = OffscreenCanvas> {
  /** Those painted longest ago first. */
  private readonly leaves = new Map<PageIndex, KeptLeaf<Picture>>();
  private edition: EditionId | null = null;

  /** Leaves of another edition are of no use, not even for a moment. */
  belongTo(edition: EditionId | null): void {
    if (edition === this.edition) return;
    this.edition = edition;
    this.leaves.clear();
  }

  /** The latest picture of a place. */
  at(index: PageIndex): Picture | null {
    return this.leaves.get(index)?.picture ?? null;
  }

  /** Whether the place shows this very page. */
  shows(page: Page): boolean {
    return this.leaves.get(page.index)?.page === page;
  }

  /** The pages that have still to be painted: bare places first, then those whose leaf is oldest. */
  missing(pages: readonly Page[]): readonly Page[] {
    const ages = new Map([...this.leaves.keys()].map((index, age) => [index, age + 1]));
    const ageOf = (page: Page): number => ages.get(page.index) ?? 0;
    return pages.filter((page) => !this.shows(page)).sort((one, other) => ageOf(one) - ageOf(other));
  }

  /** Keeps a leaf; those painted longest ago go first. */
  keep(page: Page, picture: Picture): void {
    this.leaves.delete(page.index);
    this.leaves.set(page.index, { page, picture });
    for (const oldest of this.leaves.keys()) {
      if (this.leaves.size <= KEPT_LEAVES) break;
      this.leaves.delete(oldest);
    }
  }

  /** All leaves are to be painted again, and stay until they are. */
  outdate(): void {
    for (const [index, { picture }] of this.leaves) this.leaves.set(index, { page: null, picture });
  }
}
