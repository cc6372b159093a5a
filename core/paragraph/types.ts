/**
 * What goes into and comes out of a paragraph being set. The room turns styled text into items, breaks them by total
 * fit and can place each line on a page; it knows nothing of pages beyond that.
 */
import type { Anchor, BlockId, NoteId, Points } from '#base';
import type { PageBuilder } from '#page';
import type { FontFamily, FontLibrary, Hyphenator } from '#type';
import type { BreakSettings } from './settings.ts';

/**
 * The look of a stretch of text, resolved from design and marks. Its lengths are shares of the text size, which the shape
 * or the line gives: texts that differ in size alone are one, and so is all the work that goes into them.
 */
export interface TextStyle {
  readonly family: FontFamily;
  readonly italic: boolean;
  readonly bold: boolean;
  /** Share of the text size: 1 for text, less for what is set smaller inside it. */
  readonly size: number;
  /** OpenType features, sorted: `['onum', 'smcp']`. */
  readonly features: readonly string[];
  /** Extra space after each letter, in ems. */
  readonly letterspace: number;
  /** Least natural width of a word space, in ems; the face's own where absent or wider. */
  readonly wordSpace?: number;
  /** Baseline shift as a share of the text size, up positive. */
  readonly rise: number;
  readonly language: string;
  readonly grey: number;
  readonly strike: boolean;
  readonly hyphenate: boolean;
  /** Set in capitals or small capitals by mapping letters first (Unicode upper or lower case). */
  readonly letterCase: 'asTyped' | 'upper' | 'lower';
}

/** A stretch of the paragraph's flat text (see `Anchor.offset`): text, a forced break or a note reference. */
export type Span =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly offset: number;
      readonly style: TextStyle;
      readonly href: string | null;
    }
  | { readonly kind: 'lineBreak'; readonly offset: number }
  | {
      readonly kind: 'noteMark';
      readonly text: string;
      readonly offset: number;
      readonly style: TextStyle;
      readonly note: NoteId;
    };

export interface StyledText {
  readonly block: BlockId;
  readonly spans: readonly Span[];
  /** For the setter: a weak table on the side would be looked into for each paragraph of each layout. */
  kept?: unknown;
}

/** Where lines may stand, and how they are filled. */
export interface ParagraphShape {
  /** The text size. */
  readonly size: Points;
  readonly measure: Points;
  /** Indent of the first line. */
  readonly indentFirst: Points;
  /** Indent of all lines but the first (hanging, turnovers). */
  readonly indentRest: Points;
  /** Lines that a drop cap or picture narrows from the left: the first `lines` lines by `width`. */
  readonly notch: { readonly lines: number; readonly width: Points } | null;
  readonly align: 'justify' | 'start' | 'center' | 'end';
  /** Lets punctuation and hyphens hang into the margins. */
  readonly hang: boolean;
  /** Most a glyph may be widened or narrowed to save a line from bad spaces, as a share of its width; 0 for not at all. */
  readonly scaling: number;
  /** Shortest acceptable last line. */
  readonly lastLineMin: Points;
}

/** One line of a broken paragraph. */
export interface BrokenLine {
  /** Flat-text offsets: first character, and the one after the last (the break's space excluded). */
  readonly from: number;
  readonly to: number;
  /** Whether the line ends in a hyphen, be it added or the text's own. */
  readonly hyphenated: boolean;
  /** Adjustment ratio: 0 natural, 1 fully stretched, -1 fully shrunk. */
  readonly ratio: number;
  /** Natural width of the content, before justification. */
  readonly width: Points;
  /** How far the line runs over its measure at its tightest; 0 for nearly all lines. */
  readonly overfull: Points;
  /** True where a word wider than the measure had to be broken at a place that is no break opportunity. */
  readonly torn: boolean;
  /** References that stand on this line, in order. */
  readonly notes: readonly NoteId[];
}

/** A character that no face has, with the place of its first occurrence. */
export interface MissingCharacter {
  readonly codePoint: number;
  readonly at: Anchor;
}

/** What a placed line is, besides its text. */
export interface Placing {
  /** See `GlyphRun.furniture`. */
  readonly furniture?: boolean;
}

export interface BrokenParagraph {
  readonly block: BlockId;
  readonly lines: readonly BrokenLine[];
  // What a whole book asks of its lines, without an object for each.
  readonly lineCount: number;
  /** Sum of the natural widths of the lines. */
  readonly textWidth: Points;
  /** Whether references to notes stand on the lines. */
  readonly hasNotes: boolean;
  /** See `BrokenLine.hyphenated`. */
  isHyphenated(line: number): boolean;
  /** See `BrokenLine.from`. */
  startOf(line: number): number;
  /** How many lines but the last are stretched by more than a ratio. */
  linesLooserThan(ratio: number): number;
  readonly demerits: number;
  /** Whether a line may run over its measure. */
  readonly runsOver: boolean;
  readonly missing: readonly MissingCharacter[];
  /** For whoever keeps something with it: with a weak table on the side a fit takes a sixth longer (Node 24.21, one novel). */
  kept?: unknown;
  /**
   * Puts a line on a page.
   * @param x left edge of the measure. @param y the baseline.
   */
  place(line: number, x: Points, y: Points, page: PageBuilder, placing?: Placing): void;
}

/** Text on one line, at its natural width and never broken. */
export interface SingleLine {
  readonly width: Points;
  readonly missing: readonly MissingCharacter[];
  /** @param x left end of the text. @param y the baseline. */
  place(x: Points, y: Points, page: PageBuilder, placing?: Placing): void;
}

/** How many lines more (positive) or fewer than the optimum are wanted. */
export interface BreakRequest {
  readonly text: StyledText;
  readonly shape: ParagraphShape;
  readonly looseness: number;
}

/** Which other numbers of lines are wanted. */
export interface LengthsRequest {
  readonly text: StyledText;
  readonly shape: ParagraphShape;
  /** Demerits of which none may have more: the lower, the less work. */
  readonly most: number;
}

/** What another number of lines would cost. */
export interface LengthChoice {
  /** See `BreakRequest.looseness`. */
  readonly looseness: number;
  readonly lines: number;
  readonly demerits: number;
  /** The paragraph so set. */
  readonly set: () => BrokenParagraph;
}

/** Sets paragraphs. Hand over the same `StyledText` object for an unchanged paragraph: work is kept by its identity. */
export interface ParagraphSetter {
  /**
   * Reads texts that will be set soon, in their order, so that another thread shapes their words meanwhile; does nothing
   * where there is none (`FontLibrary.shapesAside`).
   */
  readAhead(texts: Iterable<StyledText>): void;
  /**
   * Keeps where the lines of a text may end, which is the same at every size and measure: a new trim of a book takes a
   * tenth to a seventh less. False where that has been done. For spare time: takes some 200 bytes a word, 64 MiB at most.
   */
  keepLists(text: StyledText, shape: ParagraphShape): boolean;
  break(request: BreakRequest): BrokenParagraph;
  /** How many lines a text takes at its best, and keeps nothing: infinite where one would run over or a word be torn. */
  countLines(text: StyledText, shape: ParagraphShape): number;
  /** The numbers of lines within two of the optimum that can be had without overfull lines, the optimum among them. */
  lengths(request: LengthsRequest): readonly LengthChoice[];
  /** @param size the text size. */
  line(text: StyledText, size: Points): SingleLine;
}

export interface SetterParts {
  readonly library: FontLibrary;
  /** The hyphenator of a language, null where there is none. */
  readonly hyphenator: (language: string) => Hyphenator | null;
  readonly settings?: Partial<BreakSettings>;
}
