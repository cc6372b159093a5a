/** What tests read of a book's figures; `quality.mjs` has the rest. */
export interface Quality {
  readonly lines: number;
  readonly hyphenShare: number;
  readonly hyphenRuns: number;
  readonly spaceMean: number;
  readonly looseShare: number;
  readonly widows: number;
  readonly orphans: number;
  readonly offGrid: number;
  readonly spreads: number;
  readonly unevenShare: number;
  readonly turnShare: number;
}
/** @param pdf path */
export function qualityOf(pdf: string): Quality;
