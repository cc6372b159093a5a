/**
 * A design's settings: one set for both media, in terms a book designer uses. Lengths in points where they say so,
 * otherwise in ems of the text size or lines of the text's leading. Each medium resolves them once (`print.ts`,
 * `ebook.ts`).
 */
import type { DesignId, Points, Size } from '#base';
import type { BreakMark, SceneBreakSetting } from './breakMark.ts';
import type { OrnamentId } from './ornaments.ts';

export type OpenerNumber = 'words' | 'figures' | 'roman' | 'none';
/** `allSmall`: capitals too become small capitals; `smallCapitals` keeps the typed capitals large. */
export type LetterStyle = 'asTyped' | 'capitals' | 'smallCapitals' | 'allSmall';
export type Align = 'start' | 'center' | 'end';

/** The look of one line of display type. */
export interface DisplaySetting {
  /** Size as a multiple of the text size. */
  readonly size: number;
  readonly letters: LetterStyle;
  readonly italic: boolean;
  readonly bold: boolean;
  /** Letterspacing in ems. */
  readonly letterspace: number;
}

/** How a section begins. */
export interface OpenerSetting {
  /** Space above the first line, as a share of the page's lines (FACTS T-25: 1/6 to 1/3 of the text block). */
  readonly sink: number;
  readonly align: Align;
  readonly number: OpenerNumber;
  /** Whether the word ("Chapter") stands before the number where the manuscript had one. */
  readonly showLabel: boolean;
  readonly numberLook: DisplaySetting;
  /** The look of a number that has no title below it. */
  readonly loneNumberLook: DisplaySetting;
  readonly titleLook: DisplaySetting;
  readonly subtitleLook: DisplaySetting;
  /** Where the ornament stands, if anywhere. */
  readonly ornament: OrnamentId | null;
  readonly ornamentPlace: 'aboveTitle' | 'belowTitle';
  /** Lines between the display lines and the text. */
  readonly spaceAfter: number;
}

export interface DesignSettings {
  readonly id: DesignId;
  readonly name: string;
  /** The built-in design that it began as; that design itself where it is one. */
  readonly base: DesignId;
  /** The trimmed page that sizes and margins were drawn for; other trims are derived from it. */
  readonly trim: Size;
  readonly text: {
    readonly family: string;
    readonly size: Points;
    readonly leading: Points;
    /** Natural word space in ems, where the face's own is narrower: 0.25 is ideal, 0.2 the least (FACTS T-20). */
    readonly wordSpace: number;
    /** Mean width of a character of English text in ems, spaces included: what sizes are fitted to a measure by. */
    readonly character: number;
    /** OpenType features of the running text, such as `onum`. */
    readonly features: readonly string[];
    readonly justify: boolean;
    readonly hyphenate: boolean;
    /** First-line indent in ems. */
    readonly indent: number;
    /** Whether a paragraph is known by its indent or by a line of white before it. */
    readonly paragraphs: 'indented' | 'spaced';
    /** Whether the first paragraph after an opening, a subhead or a break stands without indent. */
    readonly flushFirst: boolean;
    readonly hang: boolean;
    /** See `ParagraphShape.scaling`. */
    readonly scaling: number;
  };
  readonly display: { readonly family: string };
  readonly opener: OpenerSetting;
  readonly part: OpenerSetting;
  /** Headings of front and back matter: acknowledgments, contents, about the author. */
  readonly matter: OpenerSetting;
  readonly recto: { readonly parts: boolean; readonly chapters: boolean };
  readonly leadIn: {
    /** `smallCapitals`: the first phrase; `firstLine`: the whole first line in small capitals. */
    readonly kind: 'smallCapitals' | 'firstLine' | 'dropCap' | 'none';
    readonly dropLines: number;
    /** Whether small capitals lead over from a drop cap to the text. */
    readonly afterDrop: boolean;
    /** Between its small capitals, in ems (FACTS T-22: 5 to 10 per cent of the size). */
    readonly spacing: number;
  };
  readonly sceneBreak: SceneBreakSetting;
  readonly subheads: readonly [DisplaySetting, DisplaySetting, DisplaySetting];
  readonly subheadAlign: Align;
  /** Lines of white around subheads of the first rank; those below have one line less above them, and none below. */
  readonly subheadSpace: { readonly above: number; readonly below: number };
  readonly heads: {
    readonly verso: 'author' | 'title' | 'part' | 'chapter' | 'none';
    readonly recto: 'author' | 'title' | 'part' | 'chapter' | 'none';
    /** Where they stand in the measure. A folio on the same line at the same side goes before them. */
    readonly side: 'centre' | 'inner' | 'outer';
    readonly look: DisplaySetting;
    /** From the head's baseline to the first of the text, in lines. */
    readonly distance: number;
    /** A thin rule below the head. */
    readonly rule: boolean;
  };
  readonly folios: {
    readonly place: 'headOuter' | 'footCentre' | 'footOuter' | 'none';
    /** Whether an opener prints its folio, at the foot. */
    readonly onOpeners: boolean;
    readonly size: number;
  };
  readonly titlePage: {
    /** Also that of the half title. */
    readonly align: Align;
    /** White above title and half title, as a share of the page's lines. */
    readonly sink: number;
    readonly title: DisplaySetting;
    readonly subtitle: DisplaySetting;
    readonly author: DisplaySetting;
    readonly publisher: DisplaySetting;
    readonly ornament: OrnamentId | null;
  };
  readonly halfTitle: DisplaySetting;
  /** `sink`: also that of a page with an epigraph alone. */
  readonly dedication: { readonly italic: boolean; readonly align: Align; readonly sink: number };
  readonly contents: { readonly leaders: boolean; readonly part: DisplaySetting };
  readonly quotation: { readonly indent: number; readonly size: number; readonly italic: boolean };
  /** Who said it, below quotations, epigraphs and verse. */
  readonly attribution: { readonly align: Align; readonly italic: boolean };
  readonly epigraph: { readonly indent: number; readonly size: number; readonly italic: boolean };
  readonly verse: {
    readonly indent: number | 'longestLine';
    readonly step: number;
    readonly turnover: number;
    readonly size: number;
    readonly italic: boolean;
  };
  /** Indent of an item's text in ems; its figure or bullet stands in it. */
  readonly lists: { readonly indent: number };
  /** `ends`: rules at head and foot and below the header; `rows`: below each row too. */
  readonly tables: { readonly size: number; readonly rules: 'ends' | 'rows' | 'none' };
  readonly setOff: { readonly indent: number; readonly italic: boolean };
  readonly notes: { readonly size: number; readonly leading: number; readonly rule: boolean };
  readonly caption: { readonly size: number; readonly italic: boolean; readonly align: Align };
  readonly imprint: {
    readonly size: number;
    readonly leading: number;
    readonly align: Align;
    /** At which end of the page it stands. */
    readonly place: 'head' | 'foot';
  };
  /** Margins of the print page in points at `trim`; the inner one is widened where the page count asks for it. */
  readonly margins: {
    readonly inner: Points;
    readonly outer: Points;
    /** From the trim to the top of the first line's capitals, below the running head. */
    readonly top: Points;
    /** At least this from the last baseline to the trim. */
    readonly bottom: Points;
  };
}

/** Settings that somebody who has fonts and pictures has looked through, so that all of it can be shown. */
export interface DressedSettings extends DesignSettings {
  /** What the author's own mark between scenes came to; the drawn ornament where absent. Never kept with a book. */
  readonly breakMark?: BreakMark;
}
