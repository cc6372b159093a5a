/** How a cut in a word looks: the codes of `text/cutKinds.ts`. */
export const HYPHENED: i32 = 2;
export const DASH: i32 = 3;
export const DIVISION: i32 = 5;
export const TORN: i32 = 6;
export const KIND: i32 = 7;
export const COMPOUND: i32 = 8;
export const LAST: i32 = 16;

/** Fewest characters of a word, or of a part of a compound, that is worth dividing. */
export const SHORTEST: i32 = 4;
