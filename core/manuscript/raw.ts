/**
 * The manuscript as it came, in one plain form for every file format: what was written and how it looked, with nothing
 * recognised yet. Readers make it, `recognise` takes it; text is as finally accepted (tracked deletions and comments are
 * gone before this point).
 */
import type { AssetId, Points } from '#base';
import type { Asset } from '#book';

/** A stretch of characters of one look. Absent looks are false or unknown. */
export interface RawText {
  readonly kind: 'text';
  readonly text: string;
  readonly italic?: boolean;
  readonly bold?: boolean;
  readonly underline?: boolean;
  readonly smallCaps?: boolean;
  /** The letters were shown as capitals by formatting; `text` keeps them as typed. */
  readonly allCaps?: boolean;
  readonly strike?: boolean;
  readonly raised?: 'superscript' | 'subscript';
  /** BCP 47, where it differs from the manuscript's. */
  readonly language?: string;
  readonly href?: string;
  readonly size?: Points;
}

export type RawInline =
  | RawText
  | { readonly kind: 'tab' }
  /** A soft return. */
  | { readonly kind: 'lineBreak' }
  /** A page, column or section break inside the paragraph. */
  | { readonly kind: 'pageBreak' }
  | { readonly kind: 'note'; readonly place: 'foot' | 'end'; readonly paragraphs: readonly RawParagraph[] }
  | {
      readonly kind: 'image';
      readonly asset: AssetId;
      readonly alt: string;
      readonly width: Points | null;
      /** As it was shown; absent where the manuscript does not say. */
      readonly height?: Points;
    };

export interface RawParagraph {
  readonly kind: 'paragraph';
  readonly inlines: readonly RawInline[];
  /** The style's name as the author sees it, normalised to English for built-in styles ("heading 1", "Title"). */
  readonly style: string | null;
  /** 1 to 9 from style or paragraph, else null. */
  readonly outlineLevel: number | null;
  readonly align: 'start' | 'center' | 'end' | 'justify';
  readonly indentFirst: Points;
  readonly indentStart: Points;
  readonly indentEnd: Points;
  readonly spaceBefore: Points;
  readonly spaceAfter: Points;
  readonly pageBreakBefore: boolean;
  /** The first paragraph after a section break that begins a new page. */
  readonly sectionBreakBefore: boolean;
  readonly list: {
    readonly ordered: boolean;
    readonly level: number;
    readonly start: number;
    readonly id: string;
  } | null;
  /** The label that numbering shows before the paragraph, counted out: "Chapter 3", "iv."; absent for bullets. */
  readonly numberText?: string | null;
  /** Set by the word processor as part of a generated contents list. */
  readonly inContentsField: boolean;
  /** Border above or below, as some authors draw a scene break. */
  readonly rule: boolean;
}

export interface RawTable {
  readonly kind: 'table';
  readonly rows: readonly (readonly (readonly RawBlock[])[])[];
}

/** Text that stood in a frame beside the flow, placed after the paragraph that anchors it. */
export interface RawFrame {
  readonly kind: 'frame';
  readonly blocks: readonly RawBlock[];
}

export type RawBlock = RawParagraph | RawTable | RawFrame;

export interface RawManuscript {
  /** The file's name without folder or extension. */
  readonly name: string;
  readonly blocks: readonly RawBlock[];
  readonly assets: ReadonlyMap<AssetId, Asset>;
  /** From the file's own properties; often wrong, so only evidence. */
  readonly properties: {
    readonly title: string | null;
    readonly author: string | null;
    readonly language: string | null;
    /** Seconds since 1970-01-01T00:00:00Z. */
    readonly modified: number | null;
  };
  /** What the reader dropped or could not take, in plain words. */
  readonly remarks: readonly Remark[];
}

/** Something decided, with how often and why, for the import report. */
export interface Remark {
  /** A stable word such as `tracked-deletion`, `double-space`, `scene-break`. */
  readonly kind: string;
  readonly count: number;
  readonly message: string;
}
