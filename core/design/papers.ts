/**
 * Papers of the trade and what they make of a book's thickness. In: a paper and a number of pages; out: the spine, in points.
 *
 * Pages to the inch as printers publish them (FACTS 4.4; read up to January 2026): two print-on-demand printers, and a
 * caliper table of a printer for the others. Printers change their stock: the printer's own figure wins.
 */
import { inches, type Points } from '#base';
import type { PrintEdition } from '#book';

export interface Paper {
  readonly id: string;
  readonly name: string;
  /** A page is one side of a leaf. */
  readonly pagesPerInch: number;
}

export const papers: readonly Paper[] = [
  { id: 'cream', name: 'Cream, print on demand', pagesPerInch: 400 },
  { id: 'white', name: 'White, print on demand', pagesPerInch: 444 },
  { id: 'colour', name: 'White for colour, print on demand', pagesPerInch: 426 },
  { id: 'offset-50', name: 'White offset, 50 lb', pagesPerInch: 515 },
  { id: 'offset-60', name: 'White offset, 60 lb', pagesPerInch: 435 },
  { id: 'offset-70', name: 'White offset, 70 lb', pagesPerInch: 395 },
  { id: 'bulky-55', name: 'Bulky book, 55 lb', pagesPerInch: 360 },
];

/** The paper of an edition. Novels are printed on cream where nothing is said (common practice, no source). */
export function paperOf({ paper }: Pick<PrintEdition, 'paper'>): Paper {
  return papers.find((each) => each.id === paper) ?? papers[0]!;
}

/** The thickness of so many pages; the cover's own is left out, as print-on-demand printers do (FACTS 4.4). */
export function spineThickness(pages: number, { pagesPerInch }: Pick<Paper, 'pagesPerInch'>): Points {
  return inches(pages / pagesPerInch);
}
