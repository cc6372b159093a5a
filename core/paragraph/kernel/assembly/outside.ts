/**
 * What the kernel asks of its host: what is rare, or wants the font engine. Columns may have moved when a call returns, so
 * that no record is held across one.
 */

/** Traits of a stretch of the text that is being read (see `traits.ts`). */
export declare function traitsOf(from: i32, to: i32): i32;
/** Code of the ending between two words that touch. */
export declare function jointOf(before: i32, after: i32): i32;
/** Whether a line may end at the spaces between two words. */
export declare function mayBreak(before: i32, after: i32): bool;
/** Whether a fount's face has a UTF-16 unit that is no surrogate. */
export declare function has(fount: i32, unit: i32): bool;
/** Whether a word has places that no ligature reaches across. */
export declare function hasJoints(word: i32): bool;
/** Finds where a word may be divided; gives the number of places, which stand in `placesAt`. */
export declare function divide(word: i32): i32;
/** Finds and keeps the cuts of a word that is more than letters; gives the first. */
export declare function findCuts(word: i32, divided: bool): i32;
/** The same with all places between clusters. */
export declare function findTornCuts(word: i32, divided: bool): i32;
/** What a fount kerns between two UTF-16 units. */
export declare function kerning(fount: i32, left: i32, right: i32): f64;
/** Width of a part of a word shaped by itself, without the letterspace after its last letter. */
export declare function partWidth(word: i32, from: i32, to: i32, hyphen: bool): f64;
/** What is kerned between the space at a place in the copy and its neighbours. */
export declare function spaceKerning(piece: i32): f64;
/** Whether the letters of the word at a place in the copy touch those of its neighbours. */
export declare function touchesLetters(piece: i32): bool;
/** Letters from a place in the copy to its end. */
export declare function lettersFrom(piece: i32, cut: i32): i32;
