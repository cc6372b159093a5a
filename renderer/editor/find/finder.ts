/** Runs searches, one at a time. In: a query and sections; out: a promise of the hits, or why there are none. */
import type { Node } from 'prosemirror-model';
import { failure, type Outcome, success } from '#base';
import { editor } from '../../ui/texts/editor.en.ts';
import { expressionOf, type Hit, hitsIn, type Query, searchedBlocks } from './search.ts';

/** Milliseconds after which a pattern is given up. */
const PATIENCE = 2000;

export class Finder {
  private worker: Worker | null = null;

  /** Looks for a query. A search under way is given up. */
  async find(query: Query, sections: readonly Node[]): Promise<Outcome<readonly Hit[]>> {
    this.stop();
    if (query.text === '') return success([]);
    const expression = expressionOf(query);
    if (!expression) return failure(editor.find.badPattern);
    const blocks = searchedBlocks(sections);
    // What is typed as it stands can't run away.
    if (!query.pattern) return success(hitsIn(blocks, expression));
    return this.elsewhere(blocks, expression);
  }

  stop(): void {
    this.worker?.terminate();
    this.worker = null;
  }

  private elsewhere(blocks: ReturnType<typeof searchedBlocks>, expression: RegExp): Promise<Outcome<readonly Hit[]>> {
    const worker = new Worker(new URL('./findWorker.ts', import.meta.url), { type: 'module' });
    this.worker = worker;
    return new Promise((resolve) => {
      const end = (outcome: Outcome<readonly Hit[]>): void => {
        clearTimeout(timer);
        worker.terminate();
        resolve(outcome);
      };
      const timer = setTimeout(() => end(failure(editor.find.slowPattern)), PATIENCE);
      worker.addEventListener('message', (event: MessageEvent<readonly Hit[]>) => end(success(event.data)));
      worker.addEventListener('error', () => end(failure(editor.find.badPattern)));
      worker.postMessage({ blocks, source: expression.source, flags: expression.flags });
    });
  }
}
