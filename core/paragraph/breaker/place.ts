/** Where the lines of a paragraph stand, as the breaker sees it. */

export interface LineWidths {
  /** Widths of the first lines; the last one holds for all that follow. */
  readonly widths: Float64Array;
  /** Share of its width that a box may gain or lose. */
  readonly scaling: number;
  /** Stretch of every line that is not justified, in place of its glue's; 0 for justified lines. */
  readonly ragged: number;
  /** Shortest last line without demerits. */
  readonly lastLineMin: number;
}

/** Ratios beyond this are all the same. */
export const WORST_RATIO = 1e3;
