/** What a paragraph leaves for the next one, and the container that hands it on. */
import type { RawBlock, RawInline } from '../raw.ts';
import type { ParagraphProperties } from './paragraphProperties.ts';

/** Left when its mark is deleted or it is a drop cap. */
export interface Carried {
  readonly properties: ParagraphProperties;
  readonly inlines: RawInline[];
  readonly frames: RawBlock[];
  readonly contents: boolean;
  /** Letters that take the look of the text they now begin. */
  readonly dropCap: string;
}

export interface ParagraphContainer {
  add(block: RawBlock): void;
  carry(what: Carried): void;
  takeCarried(): Carried | null;
}
