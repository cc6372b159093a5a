/**
 * A design's settings: one set for both media, in terms a book designer uses. Lengths in points where they say so,
 * otherwise in ems of the text size or lines of the text's leading. Each medium resolves them once (`resolve.ts`).
 */
import type { DesignId, Points } from '#base';

export type OpenerNumber = 'words' | 'figures' | 'roman' | 'none';
export type LetterStyle = 'asTyped' | 'capitals' | 'smallCapitals';

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

export interface DesignSettings {
  readonly id: DesignId;
  readonly name: string;
  readonly text: {
    readonly family: string;
    readonly size: Points;
    readonly leading: Points;
    /** OpenType features of the running text, such as `onum`. */
    readonly features: readonly string[];
    readonly justify: boolean;
    readonly hyphenate: boolean;
    /** First-line indent in ems. */
    readonly indent: number;
    readonly hang: boolean;
    /** See `ParagraphShape.scaling`. */
    readonly scaling: number;
  };
  readonly display: { readonly family: string };
  readonly opener: {
    /** Lines of space above the first line of an opener, as a share of the page's lines. */
    readonly sink: number;
    readonly align: 'start' | 'center' | 'end';
    readonly number: OpenerNumber;
    /** Whether the word ("Chapter") stands before the number where the manuscript had one. */
    readonly showLabel: boolean;
    readonly numberLook: DisplaySetting;
    readonly titleLook: DisplaySetting;
    readonly subtitleLook: DisplaySetting;
    /** An ornament from `ornaments` between number and title or below the title, or null. */
    readonly ornament: string | null;
    /** Lines between the display lines and the text. */
    readonly spaceAfter: number;
    readonly recto: { readonly parts: boolean; readonly chapters: boolean };
  };
  readonly leadIn: { readonly kind: 'smallCapitals' | 'dropCap' | 'none'; readonly dropLines: number };
  readonly sceneBreak: { readonly mark: 'ornament' | 'space'; readonly ornament: string; readonly lines: number };
  readonly subheads: readonly [DisplaySetting, DisplaySetting, DisplaySetting];
  readonly heads: {
    readonly verso: 'author' | 'title' | 'part' | 'chapter' | 'none';
    readonly recto: 'author' | 'title' | 'part' | 'chapter' | 'none';
    readonly look: DisplaySetting;
  };
  readonly folios: {
    readonly place: 'headOuter' | 'footCentre' | 'footOuter';
    /** Whether an opener prints its folio, at the foot. */
    readonly onOpeners: boolean;
    readonly size: number;
  };
  readonly quotation: { readonly indent: number; readonly size: number };
  readonly verse: { readonly indent: number; readonly step: number };
  readonly setOff: { readonly indent: number; readonly italic: boolean };
  readonly notes: { readonly size: number; readonly leading: number; readonly rule: boolean };
  /** Margins of the print page in points at its trim; the inner one is widened where the page count asks for it. */
  readonly margins: {
    readonly inner: Points;
    readonly outer: Points;
    readonly top: Points;
    readonly bottom: Points;
  };
}
