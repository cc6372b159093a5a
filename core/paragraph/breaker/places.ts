/**
 * The lines of a set paragraph, as the kernel hands them over: for each so many numbers (`kernel/assembly/solutions.ts`).
 * Lengths in text sizes.
 */

/** The content as it is, with what the breaks add; what its spaces may give and lose; the boxes in it. */
export const WIDTH = 0;
export const STRETCH = 1;
export const SHRINK = 2;
export const BOXES = 3;
/** The piece of the copy at which it ends: a space, or the piece before or inside which the line ends. */
export const PIECE = 4;
/** Offset in the text of the piece's word at which it is cut; 0 where the line ends before the piece. */
export const CUT = 5;
/** Flags of the break at its end. */
export const FLAGS = 6;
export const STRIDE = 7;

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
