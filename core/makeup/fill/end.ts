/** A place where a page ends, and what the page then holds. */
import type { Row } from '../flow.ts';
import type { Stretch } from './strip.ts';

/** A page. */
export interface End {
  /** First and last row; both the section's end on a page that holds notes alone. */
  readonly from: number;
  readonly to: number;
  /** The row with which the next page begins. */
  readonly next: number;
  /** The section's last page. */
  readonly last: boolean;
  /** Grid lines left white; negative is a line below the frame. */
  readonly short: number;
  /** Lines by which blocks that lie whole on the page are longer, in all. */
  readonly change: number;
  /** The other length of the block that the page ends in. */
  readonly partial: Stretch | null;
  /** Rows of notes at the foot, and those that run on. */
  readonly notes: readonly Row[];
  readonly carried: readonly Row[];
}
