/** What a contents page lists. In: the sections that follow it and their folios so far; out: its entries. */
import type { SectionId } from '#base';
import { headingOf, type ViewSection } from '#book';
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
  return after.map((section) => contentsEntry(shop, section, folios.get(section.id) ?? ''));
}

/** Numbers of titled chapters stand in a column, in figures; a number without a title is the title, but for a bare figure. */
function contentsEntry(shop: Workshop, section: ViewSection, folio: string): ContentsEntry {
  const style = headingStyle(openerOf(shop.design, section.kind), shop.language);
  const { numberLine, title, name } = headingOf(section, style);
  const isPart = section.kind === 'part';
  if (isPart) {
    const words = [numberLine, title].filter((each) => each !== '').join('  ');
    return { section: section.id, level: 'part', numbered: true, number: '', title: words || name, folio };
  }
  const bare = title === '' && section.number !== null && style.number !== 'none' && !style.showLabel;
  const numbered = section.number !== null && style.number !== 'none' && (title !== '' || bare);
  const number = numbered
    ? headingOf(section, { ...style, number: figuresOf(style.number), showLabel: false }).numberLine
    : '';
  const counts = section.number !== null;
  return {
    section: section.id,
    level: 'entry',
    numbered: counts,
    number,
    title: bare ? '' : title || numberLine || name,
    folio,
  };
}

function figuresOf(number: ReturnType<typeof headingStyle>['number']): 'figures' | 'roman' {
  return number === 'roman' ? 'roman' : 'figures';
}
