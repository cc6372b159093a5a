/**
 * Filling: a section's flow becomes the contents of pages. `Filler` is the seam at which another search may be put in: it
 * reads rows, costs and other lengths, and says which rows stand on which page and line.
 */
import type { Side } from '#page';
import type { Flow } from '../flow.ts';
import type { PageContent } from './content.ts';
import type { FillMemory } from './memory.ts';

export interface FillRequest {
  readonly flow: Flow;
  /** The side of the section's first page. */
  readonly side: Side;
  /** What the last filling of this section found. The pages are the same without it. */
  readonly memory?: FillMemory;
}

export type Filler = (request: FillRequest) => readonly PageContent[];
