/**
 * What one edition contains: the sections and blocks that apply to it, fields filled in, numbering and notes resolved,
 * generated matter present. Print and ebook start from the same view; neither filters anything itself.
 */

import type { Node } from 'prosemirror-model';
import type { BlockId, NoteId, SectionId } from '#base';
import type { Asset, Edition, Metadata } from './book.ts';
import type { Matter, SectionKind } from './kinds.ts';

/** A note of the edition, in the order of its reference. */
export interface ViewNote {
  readonly id: NoteId;
  /** 1, 2, 3, ... counted anew in each section (a mark such as `*` is the design's affair). */
  readonly number: number;
  readonly section: SectionId;
  /** The text block that holds the reference. */
  readonly block: BlockId;
  /** The `note` node, filtered and filled in. */
  readonly node: Node;
}

export interface ViewSection {
  readonly id: SectionId;
  readonly kind: SectionKind;
  readonly matter: Matter;
  /** The `section` node, filtered and filled in; the very node of the book where nothing had to change. */
  readonly node: Node;
  /** The `sectionTitle` and `sectionSubtitle` nodes, null where absent or empty. */
  readonly title: Node | null;
  readonly subtitle: Node | null;
  /** The blocks that follow the title and subtitle. */
  readonly blocks: readonly Node[];
  /** The count of a numbered section among its label, else null. */
  readonly number: number | null;
  readonly label: string | null;
  /** Whether another section of the edition could have that number, under another label. */
  readonly needsLabel: boolean;
  /** The part that a body section stands in, if any. */
  readonly part: SectionId | null;
  /** The title in plain characters ("The Weir"), '' where there is none. */
  readonly titleText: string;
  /** True for a section that the edition makes by itself: half title, title page or contents without text of its own. */
  readonly generated: boolean;
  readonly notes: readonly ViewNote[];
}

export interface EditionView {
  readonly edition: Edition;
  readonly metadata: Metadata;
  readonly sections: readonly ViewSection[];
  readonly notes: ReadonlyMap<NoteId, ViewNote>;
  readonly asset: (id: string) => Asset | undefined;
}
