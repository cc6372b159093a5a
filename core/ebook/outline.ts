/**
 * What navigation lists. In: the plan with the files as written; out: contents nested by parts, landmarks and the page
 * list, in spine order.
 */
import { type SectionKind, sectionName, type ViewSection } from '#book';
import { type BookContext, FileContext, TEXT_FOLDER } from './context.ts';
import { type Landmark, type NavEntry, type Navigation, TOC_ID } from './navigation.ts';
import type { PageMark } from './pages.ts';
import { NAV_FROM_TEXT, type Plan, type PlannedFile } from './plan.ts';
import { type TextFile, titleOf } from './text.ts';

const NAV_PATH = 'nav.xhtml';

export interface OutlineRequest {
  readonly plan: Plan;
  readonly book: BookContext;
  readonly text: readonly TextFile[];
  readonly cover: TextFile;
}

export function navigationOf({ plan, book, cover }: OutlineRequest): Navigation & { readonly bookTitle: string } {
  const contents = plan.files.find((file) => file.kind === 'contents')?.section ?? null;
  const file = new FileContext(book, NAV_FROM_TEXT, NAV_PATH);
  const sectionId = contents === null ? '' : file.idAttribute(contents.id);
  const before = contents === null ? '' : file.pageBreaksAt(contents.id);
  const toc = tocOf(plan, book);
  return {
    bookTitle: book.view.metadata.title,
    language: book.language,
    title: contents?.titleText || sectionName('contents', book.language),
    toc: toc.length > 0 ? toc : [{ label: book.words.cover, href: cover.path, children: [] }],
    landmarks: landmarksOf(plan, book, cover),
    landmarksLabel: book.words.landmarks,
    sectionId,
    before,
    pages: inSpineOrder(book.pages.written, plan),
    pagesLabel: book.words.pages,
  };
}

/** The contents are written last but stand near the front. */
function inSpineOrder(marks: readonly PageMark[], plan: Plan): readonly PageMark[] {
  const places = new Map(plan.files.map((file, index) => [addressOf(file), index]));
  const placeOf = (mark: PageMark): number => places.get(mark.href.split('#')[0] ?? '') ?? -1;
  return [...marks].sort((a, b) => placeOf(a) - placeOf(b));
}

/** Kinds that a reader does not look for by name: they lie before the contents or speak for themselves. */
const UNLISTED: ReadonlySet<SectionKind> = new Set<SectionKind>([
  'halfTitle',
  'frontispiece',
  'titlePage',
  'copyright',
  'dedication',
  'epigraph',
  'contents',
]);

interface OpenEntry extends NavEntry {
  readonly children: OpenEntry[];
}

/** Chapters stand under their part. A book with nothing to list lists what it has. */
function tocOf(plan: Plan, book: BookContext): readonly NavEntry[] {
  const files = plan.files.filter((file) => file.kind !== 'contents');
  const listed = files.filter((file) => file.kind === 'notes' || !UNLISTED.has(file.section.kind));
  const entries: OpenEntry[] = [];
  const parts = new Map<string, OpenEntry>();
  for (const file of listed.length > 0 ? listed : files) {
    const entry: OpenEntry = { label: titleOf(file, book), href: addressOf(file), children: [] };
    const section = file.kind === 'section' ? file.section : null;
    const part = section !== null && section.kind !== 'part' && section.part !== null ? parts.get(section.part) : null;
    (part?.children ?? entries).push(entry);
    if (section?.kind === 'part') parts.set(section.id, entry);
  }
  return entries;
}

function addressOf(file: PlannedFile): string {
  return file.kind === 'contents' ? NAV_PATH : `${TEXT_FOLDER}/${file.name}`;
}

/** Few, as reading systems offer them in a short menu: cover, title page, contents, beginning, notes. */
function landmarksOf(plan: Plan, book: BookContext, cover: TextFile): readonly Landmark[] {
  const marks: Landmark[] = [{ type: 'cover', label: book.words.cover, href: cover.path }];
  const begin = beginningOf(plan.files);
  for (const file of plan.files) {
    if (file.kind === 'contents') {
      marks.push({ type: 'toc', label: titleOf(file, book), href: `${NAV_PATH}#${TOC_ID}` });
    } else if (file === begin) {
      marks.push({ type: 'bodymatter', label: book.words.beginning, href: addressOf(file) });
    } else if (file.kind === 'notes' || file.section.kind === 'notes') {
      marks.push({ type: 'endnotes', label: titleOf(file, book), href: addressOf(file) });
    } else if (file.section.kind === 'titlePage' || file.section.kind === 'copyright') {
      const type = file.section.kind === 'titlePage' ? 'titlepage' : 'copyright-page';
      marks.push({ type, label: titleOf(file, book), href: addressOf(file) });
    }
  }
  return marks.filter(isFirstOfItsKind);
}

function isFirstOfItsKind(mark: Landmark, index: number, all: readonly Landmark[]): boolean {
  return all.findIndex((each) => each.type === mark.type) === index;
}

/** Where reading begins: the first section of the body, or the first there is. */
function beginningOf(files: readonly PlannedFile[]): PlannedFile | undefined {
  const isBody = (section: ViewSection): boolean => section.matter === 'body';
  return (
    files.find((file) => file.kind === 'section' && isBody(file.section)) ?? files.find((f) => f.kind === 'section')
  );
}
