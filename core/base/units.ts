/**
 * Units of length. In: plain numbers with a stated unit; out: flavoured numbers.
 *
 * A flavour keeps a `FontUnits` variable from being handed over where `Points` are expected, while results of
 * arithmetic (plain numbers) stay assignable to both.
 */

/** A length in PostScript points, 1/72 inch. The default unit of the whole project. */
export type Points = number & { readonly unit?: 'pt' };

/** A length in the design units of one font (`unitsPerEm` to the em). */
export type FontUnits = number & { readonly unit?: 'font' };

/** The id of a glyph in one font face. */
export type GlyphId = number & { readonly unit?: 'glyph' };

/** A page's place in the book block, from 0. An even index is a recto. */
export type PageIndex = number & { readonly unit?: 'page' };

/** Points in an inch (the definition of the PostScript point). */
export const POINTS_PER_INCH = 72;

/** Points in a millimetre: 72 / 25.4. */
export const POINTS_PER_MILLIMETRE = 72 / 25.4;

/** Inches as points. */
export function inches(value: number): Points {
  return value * POINTS_PER_INCH;
}

/** Millimetres as points. */
export function millimetres(value: number): Points {
  return value * POINTS_PER_MILLIMETRE;
}
