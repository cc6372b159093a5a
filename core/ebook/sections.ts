/**
 * One XHTML file a section. In: a section of the view and the file that it is written to; out: the body of that file.
 */
import type { ViewNote, ViewSection } from '#book';
import { renderBlocks } from './blocks.ts';
import type { FileContext } from './context.ts';
import { renderNoteList, renderSectionNotes } from './notes.ts';
import { labelOf, NO_OPENER, openerRoleOf, rankOf, renderOpener } from './opener.ts';
import { semanticsOf } from './semantics.ts';
import { renderTitlePage } from './titlepage.ts';
import { attributes, escapeText } from './xml.ts';

/** The notes of one section, as a notes section at the end of the book shows them. */
export interface NoteGroup {
  readonly title: string;
  readonly notes: readonly ViewNote[];
}

export interface SectionNotes {
  /** Notes that stand at the end of the section itself. */
  readonly own: readonly ViewNote[];
  /** Notes of the whole book, where this is its notes section. */
  readonly collected: readonly NoteGroup[];
}

/** The body of a section's file. */
export function renderSection(section: ViewSection, file: FileContext, notes: SectionNotes): string {
  const sectionId = file.idAttribute(section.id);
  const pages = file.pageBreaksAt(section.id);
  // The title of a title page or half title is its content.
  const opener = isComposed(section) ? NO_OPENER : renderOpener(section, file);
  const { element, type, role } = semanticsOf(section.kind);
  const heading = opener.headingId;
  const values = attributes({
    class: classesOf(section),
    'epub:type': type,
    role,
    'aria-labelledby': heading !== null && role !== null ? heading : null,
    'aria-label': heading === null ? labelOf(section, file.book) : null,
  });
  const rank = rankOf(section) + (heading === null ? 0 : 1);
  const content = contentOf(section, file, rank);
  const after =
    renderSectionNotes(notes.own, file, Math.max(2, rank)) + renderNoteGroups(notes.collected, file, Math.max(2, rank));
  return `<${element}${sectionId}${values}>\n${pages}${opener.html}${content}${after}</${element}>\n`;
}

/** The notes of the book as a section that the book itself has none for. */
export function renderNotesSection(title: string, groups: readonly NoteGroup[], file: FileContext): string {
  const values = attributes({
    class: 'notes-section opener-matter',
    'epub:type': 'endnotes',
    role: 'doc-endnotes',
    'aria-labelledby': 'x-heading',
  });
  const heading = `<header class="opener">\n<h1 id="x-heading"><span class="title">${escapeText(title)}</span></h1>\n</header>\n`;
  return `<section${values}>\n${heading}${renderNoteGroups(groups, file, 2)}</section>\n`;
}

function renderNoteGroups(groups: readonly NoteGroup[], file: FileContext, rank: number): string {
  let out = '';
  for (const group of groups) {
    const heading = `<h${rank} class="notes-of">${escapeText(group.title)}</h${rank}>\n`;
    out += `<div class="notes">\n${heading}${renderNoteList(group.notes, file, rank + 1)}</div>\n`;
  }
  return out;
}

function isComposed(section: ViewSection): boolean {
  return section.kind === 'titlePage' || (section.kind === 'halfTitle' && section.generated);
}

function contentOf(section: ViewSection, file: FileContext, rank: number): string {
  if (section.kind === 'titlePage') return renderTitlePage(section, file);
  if (section.kind === 'halfTitle' && section.generated) {
    return `<p class="half-title">${escapeText(section.titleText || file.book.view.metadata.title)}</p>\n`;
  }
  return renderBlocks(section.blocks, file, {
    opens: openerRoleOf(section) === 'chapter',
    rank,
    inEpigraph: section.kind === 'epigraph',
  });
}

/** `title-page generated opener-matter`: the kind, and how it begins. */
function classesOf(section: ViewSection): string {
  const kind = section.kind.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  return `${kind}${section.generated ? ' generated' : ''} opener-${openerRoleOf(section)}`;
}
