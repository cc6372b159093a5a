/** What a contents page lists. In: the sections that follow it and their folios so far; out: its entries. */
import type { SectionId } from '#base';
import { type HeadingStyle, headingOf, sectionLabel, type ViewSection } from '#book';
import type { ContentsEntry } from './collect/contents.ts';
import { headingStyle, openerOf } from './collect/opener.ts';
import { isListed } from './order.ts';
import type { Workshop } from './workshop.ts';

/** The entries of a contents page (FACTS O-12: what follows it). */
export function listingOf(
  shop: Workshop,
  sections: readonly ViewSection[],
  contents: ViewSection,
  folios: ReadonlyMap<SectionId, string>,
): readonly ContentsEntry[] {
  const after = sections.slice(sections.indexOf(contents) + 1).filter(isListed);
  const hasColumn = after.some((section) => isNumbered(section) && section.titleText !== '');
  return after.map((section) => {
    const style = headingStyle(openerOf(shop.design, section.kind), shop.language);
    const words = section.kind === 'part' ? partWords(section, style) : entryWords(section, style, hasColumn);
    return { section: section.id, ...words, folio: folios.get(section.id) ?? '' };
  });
}

type Words = Omit<ContentsEntry, 'section' | 'folio'>;

function partWords(section: ViewSection, style: HeadingStyle): Words {
  const { numberLine, title, name } = headingOf(section, style);
  const words = [numberLine, title].filter((each) => each !== '').join('  ');
  return { level: 'part', numbered: true, number: '', title: words || name };
}

/**
 * Numbers of titled chapters stand in a column, in figures. An untitled one has its number there only beside titled ones:
 * a list of bare figures says nothing, so there it is called by its label.
 */
function entryWords(section: ViewSection, style: HeadingStyle, hasColumn: boolean): Words {
  const { titleText: title } = section;
  const numbered = section.number !== null;
  const inColumn =
    numbered && style.number !== 'none' && !section.needsLabel && (title !== '' || (hasColumn && !style.showLabel));
  if (!inColumn) return { level: 'entry', numbered, number: '', title: listedAs(section, style) };
  const inFigures = { ...style, number: figuresOf(style.number), showLabel: false };
  return { level: 'entry', numbered, number: headingOf(section, inFigures).numberLine, title };
}

/** What an entry without a number in the column is called: only one whose number another could have is told by both. */
function listedAs(section: ViewSection, style: HeadingStyle): string {
  return section.needsLabel || section.titleText === '' ? sectionLabel(section, style) : section.titleText;
}

function isNumbered({ kind, number }: ViewSection): boolean {
  return kind !== 'part' && number !== null;
}

function figuresOf(number: HeadingStyle['number']): 'figures' | 'roman' {
  return number === 'roman' ? 'roman' : 'figures';
}
