/**
 * Looks through a book by a pattern, away from the page: a pattern of anyone's may take for ever, and then this thread is
 * ended from outside. In: blocks and an expression; out: the hits.
 */
import { hitsIn, type SearchedBlock } from './search.ts';

interface Asked {
  readonly blocks: readonly SearchedBlock[];
  readonly source: string;
  readonly flags: string;
}

self.addEventListener('message', (event: MessageEvent<Asked>) => {
  const { blocks, source, flags } = event.data;
  self.postMessage(hitsIn(blocks, new RegExp(source, flags)));
});
