/** A place in the text: what a click on a proof, a line on a page and a finding have in common. */
import type { BlockId } from './ids.ts';

export interface Anchor {
  /** The id of the block (text block, figure, scene break, or the section itself). */
  readonly block: BlockId;
  /**
   * UTF-16 offset into the block's flat text, in which each inline leaf (line break, field, note) counts as one.
   */
  readonly offset: number;
}
