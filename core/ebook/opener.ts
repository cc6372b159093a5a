/**
 * The heading of a section as XHTML: number, title and subtitle. In: a section of the view; out: the header, its rank
 * and the name that navigation uses.
 */
import { type Heading, headingOf, type SectionKind, sectionLabel, sectionName, type ViewSection } from '#book';
import type { EbookDesign, EbookOpener } from '#design';
import type { BookContext, FileContext } from './context.ts';
import { headingText, renderInline } from './inline.ts';
import { attributes, escapeText } from './xml.ts';

export type OpenerRole = 'part' | 'chapter' | 'matter';

/** Kinds that open like a chapter. */
const NARRATIVE: ReadonlySet<SectionKind> = new Set<SectionKind>([
  'prologue',
  'chapter',
  'interlude',
  'epilogue',
  'excerpt',
]);

/** Which of the design's openers a section has. */
export function openerRoleOf(section: ViewSection): OpenerRole {
  if (section.kind === 'part') return 'part';
  return NARRATIVE.has(section.kind) ? 'chapter' : 'matter';
}

export function openerOf(section: ViewSection, design: EbookDesign): EbookOpener {
  const role = openerRoleOf(section);
  return role === 'chapter' ? design.opener : design[role];
}

/** The name of a section on one line, never empty: "Chapter Four: The Weir". */
export function labelOf(section: ViewSection, book: BookContext): string {
  return sectionLabel(section, styleOf(section, book));
}

/** Rank of a section's heading: parts and all that stands in no part have rank 1, chapters of a part rank 2. */
export function rankOf(section: ViewSection): number {
  return section.kind !== 'part' && section.part !== null ? 2 : 1;
}

/** Kinds that are known by their look; a title that only says what they are is not shown. */
const SELF_EVIDENT: ReadonlySet<SectionKind> = new Set<SectionKind>([
  'halfTitle',
  'titlePage',
  'copyright',
  'dedication',
  'epigraph',
  'frontispiece',
]);

export interface OpenerParts {
  /** The header with the page breaks before it, '' for a section without one. */
  readonly html: string;
  /** Id of the heading, or null. */
  readonly headingId: string | null;
}

export const NO_OPENER: OpenerParts = { html: '', headingId: null };

/** The opener of a section; nothing where it has neither number nor title. */
export function renderOpener(section: ViewSection, file: FileContext): OpenerParts {
  const heading = headingOf(section, styleOf(section, file.book));
  const hidden = isSelfEvident(section, file.book.language);
  const title = hidden ? null : section.title;
  if (heading.numberLine === '' && title === null && section.subtitle === null) return NO_OPENER;
  const { before, text } = title === null ? { before: breaksBelow(section, file), text: '' } : headingText(title, file);
  const rank = rankOf(section);
  const id = title === null ? ' id="x-heading"' : file.idAttribute(title.attrs['id']) || ' id="x-heading"';
  const inside = headingSpans(heading, text, numberClass(section, text, file.book));
  const line = inside === '' ? '' : `<h${rank}${id}>${inside}</h${rank}>\n`;
  const html = `${before}<header class="opener">\n${line}${subtitleOf(section, file)}</header>\n`;
  return { html, headingId: line === '' ? null : id.slice(5, -1) };
}

/** A page that begins with a number alone begins, in the text, with the first block below it. */
function breaksBelow(section: ViewSection, file: FileContext): string {
  let first = section.blocks[0];
  while (first && !first.isTextblock) first = first.firstChild ?? undefined;
  return first ? file.firstPageBreaksOf(first) : '';
}

/** A look that was drawn for figures alone, larger than the title, is too loud where a label has to stand with them. */
function isTooLoud(section: ViewSection, { design }: BookContext): boolean {
  const { showLabel, titleLook, numberLook, loneNumberLook } = openerOf(section, design);
  const { size } = section.title === null ? loneNumberLook : numberLook;
  return section.needsLabel && !showLabel && size > titleLook.size;
}

function numberClass(section: ViewSection, title: string, book: BookContext): string {
  if (isTooLoud(section, book)) return 'title';
  return title === '' ? 'number lone' : 'number';
}

function headingSpans(heading: Heading, title: string, numberClass: string): string {
  const number = escapeText(heading.numberLine);
  const named = title === '' ? '' : `<span class="title">${title}</span>`;
  if (number === '') return named;
  return `<span class="${numberClass}">${number}</span>${named === '' ? '' : ` ${named}`}`;
}

function subtitleOf(section: ViewSection, file: FileContext): string {
  if (section.subtitle === null) return '';
  const values = attributes({ class: 'subtitle', 'epub:type': 'subtitle', role: 'doc-subtitle' });
  return `<p${file.idAttribute(section.subtitle.attrs['id'])}${values}>${renderInline(section.subtitle, file)}</p>\n`;
}

function isSelfEvident(section: ViewSection, language: string): boolean {
  if (!SELF_EVIDENT.has(section.kind)) return false;
  return section.titleText.trim().toLowerCase() === sectionName(section.kind, language).toLowerCase();
}

function styleOf(section: ViewSection, book: BookContext): Parameters<typeof headingOf>[1] {
  const { number, showLabel } = openerOf(section, book.design);
  return { number, showLabel, language: book.language };
}
