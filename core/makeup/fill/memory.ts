/** What filling a section found out, kept for the next time. In: a flow; out: a finder that knows what did not change. */
import type { Flow } from '../flow.ts';
import { EndFinder } from './ends.ts';
import { Strip } from './strip.ts';

export class FillMemory {
  private finder: EndFinder | null = null;

  /** The finder for a flow: the last one, where the flow is the last one but for an edit. */
  finderFor(flow: Flow): EndFinder {
    const { finder } = this;
    if (finder && (finder.strip.flow === flow || finder.follow(flow))) return finder;
    this.finder = new EndFinder(new Strip(flow));
    return this.finder;
  }
}
