/**
 * The only ways in which a book becomes another book. A change is data: it survives JSON, it has an inverse, and the
 * same union drives undo, the journal and the layout worker's mirror.
 */
import type { AssetId, DesignId, EditionId, SectionId } from '#base';
import type { Asset, Edition, ImportRemark, Json, Metadata, MutedFinding } from './book.ts';
import type { SectionKind } from './kinds.ts';

/** An asset as it travels in a change: bytes as base64, so that a change survives JSON. */
export interface AssetRecord extends Omit<Asset, 'bytes'> {
  readonly base64: string;
}

/** The attributes of a section that a change may set. */
export const SECTION_ATTRIBUTES = [
  'kind',
  'editions',
  'heading',
  'numbered',
  'label',
  'startNumber',
  'restart',
] as const satisfies readonly (keyof SectionAttributes)[];

/** Attributes of a section that may be set (all of them optional in a change). */
export interface SectionAttributes {
  readonly kind: SectionKind;
  readonly editions: readonly EditionId[] | null;
  readonly heading: string | null;
  readonly numbered: boolean;
  readonly label: string | null;
  readonly startNumber: number | null;
  readonly restart: boolean;
}

export type Change =
  /** ProseMirror steps, as JSON, whose positions count inside the section's node. */
  | { readonly kind: 'editText'; readonly section: SectionId; readonly steps: readonly Json[] }
  /** A whole section, as ProseMirror JSON, put at `index` of the running order. */
  | { readonly kind: 'addSection'; readonly index: number; readonly section: Json }
  | { readonly kind: 'dropSection'; readonly section: SectionId }
  /** `index` is the section's place in the running order after the move. */
  | { readonly kind: 'moveSection'; readonly section: SectionId; readonly index: number }
  | { readonly kind: 'setSection'; readonly section: SectionId; readonly set: Partial<SectionAttributes> }
  /** Splits before the top-level block `block`, which begins the new section `added`, of the same sort save for `set`. */
  | {
      readonly kind: 'splitSection';
      readonly section: SectionId;
      readonly block: string;
      readonly added: SectionId;
      readonly set: Partial<SectionAttributes>;
    }
  /** Joins the next section to this one; its title and subtitle become paragraphs. */
  | { readonly kind: 'joinSections'; readonly section: SectionId }
  | { readonly kind: 'setMetadata'; readonly set: Partial<Metadata> }
  /** Adds an edition or replaces the one of its id; `index` is its place afterwards. */
  | { readonly kind: 'putEdition'; readonly edition: Edition; readonly index: number }
  | { readonly kind: 'dropEdition'; readonly edition: EditionId }
  /** Adds a design or replaces the one of its id; `index` is its place afterwards. */
  | { readonly kind: 'putDesign'; readonly design: DesignId; readonly settings: Json; readonly index: number }
  | { readonly kind: 'dropDesign'; readonly design: DesignId }
  | { readonly kind: 'putAsset'; readonly asset: AssetRecord }
  | { readonly kind: 'dropAsset'; readonly asset: AssetId }
  /** Mutes a finding, or gives the one of its id another reason; `index` is its place afterwards. */
  | { readonly kind: 'putMuted'; readonly muted: MutedFinding; readonly index: number }
  | { readonly kind: 'dropMuted'; readonly muted: string }
  /** Puts a remark beside a block; `index` is its place afterwards. */
  | { readonly kind: 'putRemark'; readonly remark: ImportRemark; readonly index: number }
  | { readonly kind: 'dropRemark'; readonly remark: string }
  /** Several changes as one; the inverse runs backwards. */
  | { readonly kind: 'group'; readonly changes: readonly Change[] };
