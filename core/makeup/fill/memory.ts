/**
 * What filling a section found out, kept for the next time. In: a flow; out: a finder that knows what did not change, and
 * the pages that hold nothing which changed.
 */
import type { Flow } from '../flow.ts';
import type { PageContent } from './content.ts';
import type { End } from './end.ts';
import { EndFinder } from './ends.ts';
import { Strip } from './strip.ts';

export class FillMemory {
  private finder: EndFinder | null = null;
  private pages: ReadonlyMap<End, PageContent> = new Map();

  /** The finder for a flow: the last one, where the flow is the last one but for an edit. */
  finderFor(flow: Flow): EndFinder {
    const { finder } = this;
    if (finder?.strip.flow === flow) return finder;
    const changes = finder?.follow(flow);
    if (finder && changes) {
      this.forget(finder.strip, changes.replaced);
      return finder;
    }
    this.pages = new Map();
    this.finder = new EndFinder(new Strip(flow));
    return this.finder;
  }

  /** The page last made of an end. */
  page(end: End): PageContent | undefined {
    return this.pages.get(end);
  }

  keepPages(pages: ReadonlyMap<End, PageContent>): void {
    this.pages = pages;
  }

  /** Forgets the pages that hold rows of some blocks. */
  private forget(strip: Strip, blocks: readonly number[]): void {
    const isTouched = ({ from, to }: End): boolean =>
      blocks.some((block) => block >= strip.itemAt(from) && block <= strip.itemAt(to));
    this.pages = new Map([...this.pages].filter(([end]) => !isTouched(end)));
  }
}
