/** The text files. In: the plan and the book; out: every XHTML file of the spine but the nav document, written. */
import { type EditionView, sectionName, type ViewNote } from '#book';
import { type BookContext, FileContext, TEXT_FOLDER } from './context.ts';
import { labelOf } from './opener.ts';
import { xhtmlDocument } from './page.ts';
import type { Plan, PlannedFile } from './plan.ts';
import type { EbookCover } from './request.ts';
import { type NoteGroup, renderNotesSection, renderSection } from './sections.ts';
import { divisionOf } from './semantics.ts';
import { attributes } from './xml.ts';

export interface TextFile {
  /** Manifest id. */
  readonly id: string;
  /** From the package document. */
  readonly path: string;
  readonly xhtml: string;
}

const STYLE = '../style.css';

/** The cover as a page of its own. */
export function writeCover(book: BookContext, cover: EbookCover, imagePath: string): TextFile {
  const image = attributes({ src: `../${imagePath}`, alt: cover.alt, role: 'doc-cover' });
  const section = attributes({ class: 'cover', 'epub:type': 'cover', 'aria-label': book.words.cover });
  const path = `${TEXT_FOLDER}/cover.xhtml`;
  const xhtml = xhtmlDocument({
    title: book.words.cover,
    language: book.language,
    style: STYLE,
    division: 'frontmatter',
    body: `<section${section}>\n<img${image}/>\n</section>\n`,
  });
  return { id: 'cover', path, xhtml };
}

export function writeTextFiles(plan: Plan, book: BookContext): readonly TextFile[] {
  const titles = new Titles([book.words.cover]);
  return plan.files.flatMap((file, index) => {
    if (file.kind === 'contents') return [];
    const title = titles.distinct(titleOf(file, book));
    return [{ id: `text-${index + 1}`, ...writeTextFile(file, { plan, book, title }) }];
  });
}

export type WrittenFile = Exclude<PlannedFile, { readonly kind: 'contents' }>;

/** One file of the text. `title`: what the document is called. */
export function writeTextFile(
  file: WrittenFile,
  { plan, book, title }: { readonly plan: Plan; readonly book: BookContext; readonly title: string },
): Omit<TextFile, 'id'> {
  const context = new FileContext(book, file.name);
  const xhtml = xhtmlDocument({
    title,
    language: book.language,
    style: STYLE,
    division: file.kind === 'notes' ? 'backmatter' : divisionOf(file.section.matter),
    body: bodyOf(file, context, plan, titleOf(file, book)),
  });
  return { path: context.path, xhtml };
}

/** The name of a file for its title and for navigation. */
export function titleOf(file: PlannedFile, book: BookContext): string {
  return file.kind === 'notes' ? sectionName('notes', book.language) : labelOf(file.section, book);
}

function bodyOf(file: WrittenFile, context: FileContext, plan: Plan, title: string): string {
  const { view } = context.book;
  if (file.kind === 'notes') return renderNotesSection(title, noteGroups(view, context.book), context);
  return renderSection(file.section, context, {
    own: plan.notesFile === null ? file.section.notes : [],
    collected: plan.notesFile === file.name ? noteGroups(view, context.book) : [],
  });
}

/** The notes of each section under its name. */
function noteGroups(view: EditionView, book: BookContext): readonly NoteGroup[] {
  return view.sections
    .filter((section) => section.notes.length > 0)
    .map((section): { title: string; notes: readonly ViewNote[] } => ({
      title: labelOf(section, book),
      notes: section.notes,
    }));
}

/** Document titles that all differ (FACTS A-11). */
class Titles {
  private readonly taken: Set<string>;

  constructor(taken: readonly string[]) {
    this.taken = new Set(taken);
  }

  distinct(title: string): string {
    let unique = title;
    for (let count = 2; this.taken.has(unique); count++) unique = `${title} (${count})`;
    this.taken.add(unique);
    return unique;
  }
}
