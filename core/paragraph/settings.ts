/**
 * What the breaking of paragraphs is tuned by: tolerances, penalties, demerits and the elasticity of spaces. Where TeX
 * has the parameter, the scale is TeX's: badness 100 |r|^3, demerits (linePenalty + badness + penalty)^2 and additions.
 */

export interface BreakSettings {
  /**
   * Stretch and shrink of a word space, as shares of its natural width: from three quarters of it, below which a line looks
   * crammed, to one and a half. Of a space of 0.27 em that is 0.2 to 0.4 em (FACTS T-20: 0.2 to 0.5). What each value
   * buys is in test/bench/README.md.
   */
  readonly stretch: number;
  readonly shrink: number;
  /** Badness of a line that is shrunk, as a share of that of one stretched by the same ratio. */
  readonly shrinkBadness: number;
  /**
   * Most space added between letters, in ems, where a line's spaces and letters have given all they should: a third of what
   * FACTS T-21 allows. Only where letters may give at all (`ParagraphShape.scaling`).
   */
  readonly letterspace: number;
  /** Greatest stretch ratio of the pass without hyphens, and of the one with them. */
  readonly firstTolerance: number;
  readonly secondTolerance: number;
  readonly linePenalty: number;
  /** Penalty of a line that ends in a hyphen made by dividing a word, the same in a language of long words (they have more
   * places to divide at, and leave fewer spaces to a line: at one price their lines would end in hyphens twice as often),
   * of one made by dividing a capitalised word, and of one that ends in a hyphen of the text. */
  readonly hyphenPenalty: number;
  readonly longWordPenalty: number;
  readonly properNamePenalty: number;
  readonly explicitHyphenPenalty: number;
  /** Of dividing a part of a compound that has a hyphen of its own; of ending after a dash; of any other break that is no
   * space. */
  readonly compoundPenalty: number;
  readonly dashPenalty: number;
  readonly otherPenalty: number;
  /** Added where two lines running end in hyphens, and where a third follows. */
  readonly doubleHyphenDemerits: number;
  readonly tripleHyphenDemerits: number;
  /** Added where the last line but one ends in a hyphen. */
  readonly finalHyphenDemerits: number;
  /** Added where neighbouring lines differ by more than one fitness class. */
  readonly fitnessDemerits: number;
  /** Added where two lines running begin or end with the same word. */
  readonly repeatDemerits: number;
  /** Added where the last line is shorter than `ParagraphShape.lastLineMin` or a lone short word. */
  readonly shortLastLineDemerits: number;
  /** Stretch of a line that is not justified, in ems of the paragraph's first text. */
  readonly raggedStretch: number;
}

export const BREAK_SETTINGS: BreakSettings = {
  stretch: 0.5,
  shrink: 0.25,
  shrinkBadness: 0.3,
  letterspace: 0.01,
  firstTolerance: 1,
  secondTolerance: 2.5,
  linePenalty: 10,
  hyphenPenalty: 140,
  longWordPenalty: 190,
  properNamePenalty: 300,
  explicitHyphenPenalty: 120,
  compoundPenalty: 400,
  dashPenalty: 20,
  otherPenalty: 50,
  doubleHyphenDemerits: 20_000,
  tripleHyphenDemerits: 1e9,
  finalHyphenDemerits: 10_000,
  fitnessDemerits: 3_000,
  repeatDemerits: 3_000,
  shortLastLineDemerits: 2_000_000,
  raggedStretch: 3,
};
