/**
 * Puts the sections' pages one after another: blanks before rectos, sides, folios, an even number of pages. In: sections
 * with a way to fill them; out: the plan of the book block.
 */
import { roman } from '#base';
import type { ViewSection } from '#book';
import type { PrintDesign } from '#design';
import type { Folio, Side } from '#page';
import type { PageContent } from './fill/content.ts';
import { beginsOnRecto, firstOfText, isDisplayPage } from './order.ts';

export interface PlannedPage {
  readonly index: number;
  readonly side: Side;
  readonly folio: Folio;
  readonly section: ViewSection;
  /** Null for a blank. */
  readonly content: PageContent | null;
}

/** A section's pages when its first one stands on a side. */
export type FillSection = (section: ViewSection, side: Side) => readonly PageContent[];

/** The pages of the whole book. */
export function arrange(
  sections: readonly ViewSection[],
  design: PrintDesign,
  fill: FillSection,
): readonly PlannedPage[] {
  const pages: PlannedPage[] = [];
  const textAt = firstOfText(sections);
  const numbering = new Numbering(design);
  let before: ViewSection | null = null;
  sections.forEach((section, index) => {
    const opens = index === textAt;
    const recto = beginsOnRecto(section, before, design, opens);
    const contents = fill(section, recto || pages.length % 2 === 0 ? 'recto' : 'verso');
    if (contents.length === 0) return;
    if (recto && pages.length % 2 === 1) pages.push(numbering.page(pages.length, section, null));
    if (opens) numbering.beginText(pages.length);
    for (const content of contents) pages.push(numbering.page(pages.length, section, content));
    before = section;
  });
  if (pages.length % 2 === 1 && before) pages.push(numbering.page(pages.length, before, null));
  return pages;
}

/** Hands out folios: roman until the text begins, then arabic from 1 on a recto (FACTS O-01, O-02). */
class Numbering {
  private textBegins: number | null = null;

  constructor(private readonly design: PrintDesign) {}

  beginText(index: number): void {
    this.textBegins = index;
  }

  page(index: number, section: ViewSection, content: PageContent | null): PlannedPage {
    const value = index + 1 - (this.textBegins ?? 0);
    const style = this.textBegins === null ? 'roman' : 'arabic';
    return plannedPage({ index, section, content, value, style }, this.design);
  }
}

/** A page in its place, its folio counted already. */
export interface NumberedPage {
  readonly index: number;
  readonly section: ViewSection;
  readonly content: PageContent | null;
  readonly value: number;
  readonly style: Folio['style'];
}

/** A page in its place, with the folio as it reads. */
export function plannedPage(page: NumberedPage, design: PrintDesign): PlannedPage {
  const { index, section, content, value, style } = page;
  const label = style === 'roman' ? roman(value) : String(value);
  const folio: Folio = { label, style, value, printed: printsFolio(section, content, design) };
  return { index, side: index % 2 === 0 ? 'recto' : 'verso', folio, section, content };
}

function printsFolio(section: ViewSection, content: PageContent | null, design: PrintDesign): boolean {
  if (!content || design.folios.place === 'none' || isDisplayPage(section.kind) || content.isPlate) return false;
  return !content.first || design.folios.onOpeners;
}
