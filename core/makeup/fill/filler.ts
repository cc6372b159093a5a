/**
 * Filling: a section's flow becomes the contents of pages. `Filler` is the seam at which another search may be put in: it
 * reads rows, costs and other lengths, and says which rows stand on which page and line.
 */
import type { Side } from '#page';
import type { Flow } from '../flow.ts';
import type { PageContent } from './content.ts';

export interface FillRequest {
  readonly flow: Flow;
  /** The side of the section's first page. */
  readonly side: Side;
}

export type Filler = (request: FillRequest) => readonly PageContent[];
