/** How a cut in a word looks: codes of `ENDINGS`, and two that no text offers; and the marks that a cut may bear. */

export const HYPHENED = 2;
export const DASH = 3;
export const OTHER = 4;
export const DIVISION = 5;
export const TORN = 6;
export const KIND = 7;
/** The division stands inside a compound that has a hyphen of its own. */
export const COMPOUND = 8;
/** The last cut of its list. */
export const LAST = 16;
