/**
 * The places at which the lines of a set paragraph end, as the kernel hands them over: for the paragraph's start and for
 * each line's end so many numbers (`kernel/assembly/solutions.ts`). Running sums are kept as they are before and after the
 * break, so that the measure of a line is a subtraction; those after it leave out the glue that vanishes at a line's start.
 */

export const BEFORE = 0;
export const STRETCH_BEFORE = 1;
export const SHRINK_BEFORE = 2;
export const BOXES_BEFORE = 3;
export const AFTER = 4;
export const STRETCH_AFTER = 5;
export const SHRINK_AFTER = 6;
export const BOXES_AFTER = 7;
export const COST = 8;
/** The piece at which it stands: a space, or the piece before or inside which the line ends. */
export const PIECE = 9;
/** Offset in the text of the piece's word at which it is cut; 0 where the line ends before the piece. */
export const CUT = 10;
export const FLAGS = 11;
export const STRIDE = 12;

// Flags.
/** The line shows a hyphen at its end. */
export const HYPHEN = 1;
/** The line must end here. */
export const FORCED = 2;
/** What follows is too little to stand alone on a last line: a lone short word, the stub of a divided one. */
export const SHORT_END = 4;
/** No break opportunity of the text: only there to save a word wider than its measure. */
export const TEAR = 8;
/** The hyphen is added, not the text's own: left out where words are not to be divided. */
export const DIVIDED = 16;

/** Stretch that fills any line; `\hfil` in TeX's words. */
export const FILL = 1e7;
