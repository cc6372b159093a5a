/** What recognition made of a manuscript: the book, and every decision with its reason. */
import type { SectionId } from '#base';
import type { Book } from '#book';
import type { RawBlock, Remark } from './raw.ts';

/** Why a section was taken as it was. */
export interface SectionEvidence {
  readonly section: SectionId;
  /** In words: "centred, bold, after a page break, begins with Chapter". */
  readonly reasons: readonly string[];
  /** 0 to 1. */
  readonly confidence: number;
}

export interface ImportReport {
  readonly sections: readonly SectionEvidence[];
  readonly notices: readonly Remark[];
}

export interface Recognised {
  readonly book: Book;
  readonly report: ImportReport;
  /** The section that each block of the manuscript went to; a block that is absent was left out or stands for space. */
  readonly placed: ReadonlyMap<RawBlock, SectionId>;
}
